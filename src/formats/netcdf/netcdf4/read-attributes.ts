import type { NetcdfAttribute } from "../netcdf-types.ts";
import { Hdf5TooLarge } from "./hdf5-fault.ts";
import { HDF5_CLASS, type Hdf5Facts, type Hdf5Module } from "./hdf5-library.ts";
import type { Hdf5Session } from "./hdf5-session.ts";

/** What the netCDF-4 library writes beside the user's own attributes, and how it tells dimensions. */
export interface OwnMarks {
  /** A dimension scale: its length is a dimension's. */
  readonly isScale: boolean;
  /** The scale's own name or sentence. */
  readonly scaleName: string;
  /** Addresses of the first scale of each axis; null where an axis has none. */
  readonly scales: readonly (number | null)[] | null;
  readonly dimensionId: number | null;
  /** Numbers of a variable's dimensions. */
  readonly coordinates: readonly number[] | null;
}

/** The attributes of a dataset or group. */
export interface ObjectAttributes {
  readonly shown: ReadonlyMap<string, NetcdfAttribute>;
  readonly marks: OwnMarks;
}

/** Not the user's: the HDF5 dimension scale specification and netCDF-4's own notes. */
const HIDDEN: ReadonlySet<string> = new Set([
  "CLASS",
  "NAME",
  "DIMENSION_LIST",
  "REFERENCE_LIST",
  "DIMENSION_LABELS",
  "_Netcdf4Dimid",
  "_Netcdf4Coordinates",
  "_NCProperties",
  "_nc3_strict",
]);
/** Of the hidden ones, those that are read. */
const MARKS: ReadonlySet<string> = new Set(["CLASS", "NAME", "DIMENSION_LIST", "_Netcdf4Dimid", "_Netcdf4Coordinates"]);

/** An attribute larger than this is no description. */
const LARGEST_ATTRIBUTE_BYTES = 4 * 1024 * 1024;

type Read =
  | { readonly kind: "texts"; readonly texts: readonly string[] }
  | { readonly kind: "numbers"; readonly numbers: readonly number[] }
  | { readonly kind: "addresses"; readonly addresses: readonly (number | null)[] };

/** All attributes of an object, in the file's order; those of a kind that NetCDF readers have no use for are passed over. */
export function readAttributes(session: Hdf5Session, path: string): ObjectAttributes {
  const shown = new Map<string, NetcdfAttribute>();
  const marks = new Map<string, Read>();
  for (const name of session.run((module, file) => module.get_attribute_names(file, path))) {
    const isHidden = HIDDEN.has(name);
    if (isHidden && !MARKS.has(name)) continue;
    const read = readAttribute(session, path, name);
    if (read === null) continue;
    if (isHidden) marks.set(name, read);
    else if (read.kind === "texts") shown.set(name, read.texts.join(" "));
    else if (read.kind === "numbers") shown.set(name, read.numbers);
  }
  const text = (name: string): string => {
    const mark = marks.get(name);
    return mark?.kind === "texts" ? (mark.texts[0] ?? "") : "";
  };
  const numbers = (name: string): readonly number[] | null => {
    const mark = marks.get(name);
    return mark?.kind === "numbers" ? mark.numbers : null;
  };
  const list = marks.get("DIMENSION_LIST");
  return {
    shown,
    marks: {
      isScale: text("CLASS") === "DIMENSION_SCALE",
      scaleName: text("NAME"),
      scales: list?.kind === "addresses" ? list.addresses : null,
      dimensionId: numbers("_Netcdf4Dimid")?.[0] ?? null,
      coordinates: numbers("_Netcdf4Coordinates"),
    },
  };
}

function readAttribute(session: Hdf5Session, path: string, name: string): Read | null {
  const facts = session.run((module, file) => module.get_attribute_metadata(file, path, name));
  const decode = decoderOf(facts);
  if (decode === null) return null;
  if (facts.shape === null) return decode(new DataView(new ArrayBuffer(0)), new Uint8Array(0));
  const bytes = facts.size * facts.total_size;
  if (!(bytes <= LARGEST_ATTRIBUTE_BYTES)) throw new Hdf5TooLarge(`the attribute "${name}" of ${path} takes ${bytes} bytes`);
  return session.run((module, file) =>
    session.withMemory(module, bytes, (pointer) => {
      // What isn't filled must not be taken for a pointer.
      module.HEAPU8.fill(0, pointer, pointer + bytes);
      module.get_attribute_data(file, path, name, BigInt(pointer));
      const memory = module.HEAPU8;
      const read = decode(new DataView(memory.buffer, pointer, bytes), memory);
      if (facts.vlen || facts.type === HDF5_CLASS.varied) reclaim(module, file, path, name, pointer);
      return read;
    }),
  );
}

function reclaim(module: Hdf5Module, file: bigint, path: string, name: string, pointer: number): void {
  module.reclaim_vlen_memory(file, path, name, BigInt(pointer));
}

type Decode = (view: DataView, memory: Uint8Array) => Read;

function decoderOf(facts: Hdf5Facts): Decode | null {
  const { type, size, signed } = facts;
  if (type === HDF5_CLASS.string) return facts.vlen ? variedTexts : (view) => fixedTexts(view, size, facts.strpad === 2);
  if (type === HDF5_CLASS.varied) return facts.vlen_type?.type === HDF5_CLASS.reference && facts.vlen_type.size === 8 ? addresses : null;
  const one = numberReader(type, size, signed);
  if (one === null) return null;
  return (view) => {
    const numbers: number[] = [];
    for (let at = 0; at + size <= view.byteLength; at += size) numbers.push(one(view, at));
    return { kind: "numbers", numbers };
  };
}

/** Reads one number as the library gives it, least byte first; null for what is no plain number. */
export function numberReader(
  type: number,
  size: number,
  isSigned: boolean,
  isLittle = true,
): ((view: DataView, at: number) => number) | null {
  if (type === HDF5_CLASS.float) {
    if (size === 4) return (view, at) => view.getFloat32(at, isLittle);
    return size === 8 ? (view, at) => view.getFloat64(at, isLittle) : null;
  }
  if (type !== HDF5_CLASS.integer) return null;
  if (size === 1) return isSigned ? (view, at) => view.getInt8(at) : (view, at) => view.getUint8(at);
  if (size === 2) return isSigned ? (view, at) => view.getInt16(at, isLittle) : (view, at) => view.getUint16(at, isLittle);
  if (size === 4) return isSigned ? (view, at) => view.getInt32(at, isLittle) : (view, at) => view.getUint32(at, isLittle);
  if (size !== 8) return null;
  return isSigned ? (view, at) => Number(view.getBigInt64(at, isLittle)) : (view, at) => Number(view.getBigUint64(at, isLittle));
}

const utf8 = new TextDecoder("utf-8");

function fixedTexts(view: DataView, size: number, isSpacePadded: boolean): Read {
  const texts: string[] = [];
  for (let at = 0; size > 0 && at + size <= view.byteLength; at += size) {
    const text = textUpTo(new Uint8Array(view.buffer, view.byteOffset + at, size));
    texts.push(isSpacePadded ? text.trimEnd() : text);
  }
  return { kind: "texts", texts };
}

/** Pointers of four bytes to text that ends with a nought. */
function variedTexts(view: DataView, memory: Uint8Array): Read {
  const texts: string[] = [];
  for (let at = 0; at + 4 <= view.byteLength; at += 4) {
    const pointer = view.getUint32(at, true);
    texts.push(pointer === 0 ? "" : textUpTo(memory.subarray(pointer)));
  }
  return { kind: "texts", texts };
}

/** A number of references and a pointer to them, for each axis; a reference is the address of an object header. */
function addresses(view: DataView, memory: Uint8Array): Read {
  const found: (number | null)[] = [];
  for (let at = 0; at + 8 <= view.byteLength; at += 8) {
    const count = view.getUint32(at, true);
    const pointer = view.getUint32(at + 4, true);
    const isThere = count > 0 && pointer > 0 && pointer + 8 <= memory.length;
    found.push(isThere ? Number(new DataView(memory.buffer).getBigUint64(pointer, true)) : null);
  }
  return { kind: "addresses", addresses: found };
}

function textUpTo(bytes: Uint8Array): string {
  const end = bytes.indexOf(0);
  return utf8.decode(end < 0 ? bytes : bytes.subarray(0, end));
}
