import {
  defaultFills,
  type NetcdfAttribute,
  type NetcdfAttributes,
  type NetcdfHeader,
  type NetcdfType,
  type NetcdfVariable,
} from "../netcdf-types.ts";
import { type Dimensions, findDimensions, isOnlyDimension, nameFromRoot } from "./dimensions.ts";
import { HDF5_CLASS, type Hdf5Facts } from "./hdf5-library.ts";
import type { Hdf5Session } from "./hdf5-session.ts";
import type { NowBytes } from "./now-bytes.ts";
import { readObjectHeader } from "./object-header.ts";
import { numberReader } from "./read-attributes.ts";
import { readTree, type StoredDataset } from "./read-tree.ts";

/** A variable of a NetCDF-4 file, with how it is stored. */
export interface StoredVariable extends NetcdfVariable {
  readonly path: string;
  /** What the file holds; shorter along a record dimension than the shape where other variables have more records. */
  readonly storedShape: readonly number[];
  readonly chunks: readonly number[] | null;
  /** What stands where nothing was written. */
  readonly fillBytes: Uint8Array;
  readonly isElsewhere: boolean;
}

export interface StoredHeader extends NetcdfHeader {
  readonly variables: ReadonlyMap<string, StoredVariable>;
}

/** A variable that has a dimension's name without lying along it is stored under this prefix (netCDF-4). */
const NON_COORDINATE = "_nc4_non_coord_";

/** netCDF's fill values for bytes (`NC_FILL_BYTE`, `NC_FILL_UBYTE`, `NC_FILL_CHAR`): written, and not meant as missing. */
const BYTE_FILLS: Readonly<Partial<Record<NetcdfType, number>>> = { byte: -127, ubyte: 255, char: 0 };

/**
 * Reads what a NetCDF-4 file holds. Variables of nested groups are named by their path, `wave/height`, and so are the dimensions of
 * those groups. Datasets of a type that the classic model has not (strings, compounds, enumerations, opaque, of varying length, odd
 * numbers) are left out. Throws `Hdf5Fault` and `Hdf5TooLarge`.
 */
export function readHeader(session: Hdf5Session, source: NowBytes): StoredHeader {
  const tree = readTree(session);
  const dimensions = findDimensions(tree);
  const variables = new Map<string, StoredVariable>();
  for (const dataset of tree.datasets) {
    const variable = isOnlyDimension(dataset) ? null : variableOf(dataset, dimensions, source);
    if (variable !== null && !variables.has(variable.name)) variables.set(variable.name, variable);
  }
  return { dimensions: dimensions.all, attributes: tree.attributes.shown, variables };
}

function variableOf(dataset: StoredDataset, dimensions: Dimensions, source: NowBytes): StoredVariable | null {
  const { facts, group, path } = dataset;
  const type = typeOf(facts);
  if (type === null || facts.shape === null) return null;
  const header = readObjectHeader(source, dataset.addressBytes);
  if (header?.isPlain === false) return null;
  const along = dimensions.of(dataset);
  const name = dataset.name.startsWith(NON_COORDINATE) ? dataset.name.slice(NON_COORDINATE.length) : dataset.name;
  return {
    name: nameFromRoot(group, name),
    type,
    dimensions: along.map((one) => one.name),
    shape: along.map((one) => one.length),
    attributes: withFill(dataset.attributes.shown, type, facts, header?.fill ?? null),
    path,
    storedShape: facts.shape,
    chunks: facts.chunks,
    fillBytes: littleEndian(facts, header?.fill ?? null),
    isElsewhere: header?.isElsewhere === true || facts.virtual_sources !== undefined,
  };
}

function typeOf({ type, size, signed, vlen }: Hdf5Facts): NetcdfType | null {
  if (type === HDF5_CLASS.string) return size === 1 && !vlen ? "char" : null;
  if (type === HDF5_CLASS.float) return size === 4 ? "float" : size === 8 ? "double" : null;
  if (type !== HDF5_CLASS.integer) return null;
  if (size === 1) return signed ? "byte" : "ubyte";
  if (size === 2) return signed ? "short" : "ushort";
  if (size === 4) return signed ? "int" : "uint";
  return size === 8 ? (signed ? "int64" : "uint64") : null;
}

/**
 * Where there is no `_FillValue`, the fill that the dataset was made with stands for it. Not netCDF's own default, which readers know by
 * the type, and not nought, which is what other writers leave when nobody chose.
 */
function withFill(attributes: NetcdfAttributes, type: NetcdfType, facts: Hdf5Facts, fill: Uint8Array | null): NetcdfAttributes {
  if (attributes.has("_FillValue") || fill === null || fill.length !== facts.size) return attributes;
  const value = numberReader(
    facts.type,
    facts.size,
    facts.signed,
    facts.littleEndian,
  )?.(new DataView(fill.buffer, fill.byteOffset, fill.byteLength), 0);
  if (value === undefined || value === 0 || value === (defaultFills[type] ?? BYTE_FILLS[type])) return attributes;
  return new Map<string, NetcdfAttribute>([...attributes, ["_FillValue", [value]]]);
}

/** A stored fill value as the library gives values, least byte first; noughts where there is none. */
function littleEndian(facts: Hdf5Facts, fill: Uint8Array | null): Uint8Array {
  if (fill === null || fill.length !== facts.size) return new Uint8Array(facts.size);
  return facts.littleEndian || facts.type === HDF5_CLASS.string ? Uint8Array.from(fill) : Uint8Array.from(fill).reverse();
}
