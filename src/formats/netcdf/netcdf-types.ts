import type { Parsed } from "../../core/answers/index.ts";

/**
 * The external types of the classic format (the format specification's `nc_type`), by the number written in the file. The last five
 * came with CDF-5.
 */
export type NetcdfType = "byte" | "char" | "short" | "int" | "float" | "double" | "ubyte" | "ushort" | "uint" | "int64" | "uint64";

export const typesByNumber: ReadonlyMap<number, NetcdfType> = new Map<number, NetcdfType>([
  [1, "byte"],
  [2, "char"],
  [3, "short"],
  [4, "int"],
  [5, "float"],
  [6, "double"],
  [7, "ubyte"],
  [8, "ushort"],
  [9, "uint"],
  [10, "int64"],
  [11, "uint64"],
]);

/** Bytes of one value in the file. */
export const bytesOfType: Readonly<Record<NetcdfType, number>> = {
  byte: 1,
  char: 1,
  short: 2,
  int: 4,
  float: 4,
  double: 8,
  ubyte: 1,
  ushort: 2,
  uint: 4,
  int64: 8,
  uint64: 8,
};

/** Values of a variable: the typed array of its external type; `char` comes as bytes. */
export type NetcdfValues =
  | Int8Array
  | Uint8Array
  | Int16Array
  | Uint16Array
  | Int32Array
  | Uint32Array
  | Float32Array
  | Float64Array
  | BigInt64Array
  | BigUint64Array;

/** Room for `count` values of a type. */
export function emptyValues(type: NetcdfType, count: number): NetcdfValues {
  switch (type) {
    case "byte":
      return new Int8Array(count);
    case "char":
    case "ubyte":
      return new Uint8Array(count);
    case "short":
      return new Int16Array(count);
    case "ushort":
      return new Uint16Array(count);
    case "int":
      return new Int32Array(count);
    case "uint":
      return new Uint32Array(count);
    case "float":
      return new Float32Array(count);
    case "double":
      return new Float64Array(count);
    case "int64":
      return new BigInt64Array(count);
    case "uint64":
      return new BigUint64Array(count);
  }
}

/** An attribute: text, or numbers (64-bit integers become the nearest double). */
export type NetcdfAttribute = string | readonly number[];
export type NetcdfAttributes = ReadonlyMap<string, NetcdfAttribute>;

export interface NetcdfDimension {
  readonly name: string;
  /** For the record dimension the number of records. */
  readonly length: number;
  readonly isRecord: boolean;
}

export interface NetcdfVariable {
  readonly name: string;
  readonly type: NetcdfType;
  /** Names of the dimensions, slowest first. */
  readonly dimensions: readonly string[];
  readonly shape: readonly number[];
  readonly attributes: NetcdfAttributes;
}

/** What the file says of its contents, checked against its size. */
export interface NetcdfHeader {
  readonly dimensions: readonly NetcdfDimension[];
  readonly attributes: NetcdfAttributes;
  readonly variables: ReadonlyMap<string, NetcdfVariable>;
}

/** A block of a variable: the first index and how many along each of its dimensions. */
export interface Hyperslab {
  readonly start: readonly number[];
  readonly count: readonly number[];
}

/** An opened file, classic or NetCDF-4. */
export interface NetcdfFile {
  readonly kind: "netcdf-classic" | "netcdf4";
  readonly header: NetcdfHeader;
  /**
   * A block of a variable, or all of it, in the order of its dimensions, as stored (no scale, no fill applied). Issues where the file
   * breaks off or contradicts itself. Throws for an unknown name or a block outside the shape: that is our own bug.
   */
  read(name: string, slab?: Hyperslab): Promise<Parsed<NetcdfValues>>;
  /** Gives back what the file holds of the computer; it can't be read afterwards. */
  close(): void;
}

/** A variable of a classic file, with where it stands. */
export interface ClassicVariable extends NetcdfVariable {
  readonly isRecord: boolean;
  /** Where its first value stands in the file. */
  readonly beginBytes: number;
}

/** The header of a classic file. */
export interface ClassicHeader extends NetcdfHeader {
  readonly version: 1 | 2 | 5;
  readonly variables: ReadonlyMap<string, ClassicVariable>;
  readonly recordCount: number;
  /** From one record to the next, padding included. */
  readonly recordBytes: number;
}

/** The text of an attribute, trimmed; empty where it is missing or a number. */
export function textOf(attributes: NetcdfAttributes, name: string): string {
  const value = attributes.get(name);
  return typeof value === "string" ? value.trim() : "";
}

/** The numbers of an attribute; null where it is missing or text. */
export function numbersOf(attributes: NetcdfAttributes, name: string): readonly number[] | null {
  const value = attributes.get(name);
  return value === undefined || typeof value === "string" ? null : value;
}

/** The classic format's default fill values. Bytes and characters have none worth reading as missing. The 64-bit ones are rounded to doubles. */
export const defaultFills: Readonly<Record<NetcdfType, number | null>> = {
  byte: null,
  char: null,
  ubyte: null,
  short: -32767,
  ushort: 65535,
  int: -2147483647,
  uint: 4294967295,
  float: Math.fround(9.969209968386869e36),
  double: 9.969209968386869e36,
  int64: -(2 ** 63),
  uint64: 2 ** 64,
};
