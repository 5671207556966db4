import { bytesOfType, defaultFills, type NetcdfType } from "../netcdf-types.ts";

/** An attribute to write: text, one number (a double), or numbers of the array's own type. */
export type AttributeToWrite = string | number | Int8Array | Int16Array | Int32Array | Float32Array | Float64Array;

export type ValuesToWrite = Int8Array | Int16Array | Int32Array | Float32Array | Float64Array;

export interface NetcdfToWrite {
  /** 1: offsets of 32 bits, up to 2 GiB; 2: offsets of 64 bits. */
  readonly version: 1 | 2;
  /** Name and length, in order; at most one has the length `"records"`. */
  readonly dimensions: readonly { readonly name: string; readonly length: number | "records" }[];
  readonly attributes: Readonly<Record<string, AttributeToWrite>>;
  readonly variables: readonly VariableToWrite[];
}

/** A variable; its type is that of its values. A record variable's first dimension is the record dimension. */
export interface VariableToWrite {
  readonly name: string;
  readonly dimensions: readonly string[];
  readonly attributes: Readonly<Record<string, AttributeToWrite>>;
  readonly values: ValuesToWrite;
}

const TAG = { dimensions: 10, variables: 11, attributes: 12 } as const;
const TYPE_NUMBER = { byte: 1, char: 2, short: 3, int: 4, float: 5, double: 6 } as const;
type WritableType = keyof typeof TYPE_NUMBER;

/**
 * Writes a NetCDF classic file (The NetCDF Classic Format Specification, Unidata). The same input gives the same bytes. Throws for
 * input that has no such file: values that don't fill the dimensions, unknown dimensions, records of unequal number.
 */
export function writeNetcdfClassic(file: NetcdfToWrite): Uint8Array {
  const plan = planOf(file);
  const header = headerBytes(
    file,
    plan,
    plan.variables.map(() => 0),
  ).length;
  let at = header;
  const begins = new Array<number>(plan.variables.length).fill(0);
  for (const isRecord of [false, true]) {
    plan.variables.forEach((one, index) => {
      if (one.isRecord !== isRecord) return;
      begins[index] = at;
      at += one.paddedSliceBytes;
    });
  }
  const recordsBegin = header + plan.variables.reduce((sum, one) => sum + (one.isRecord ? 0 : one.paddedSliceBytes), 0);
  const size = recordsBegin + plan.recordCount * plan.recordBytes;
  if (file.version === 1 && size > 2 ** 31 - 1) throw new Error(`${size} bytes are too many for version 1`);
  const out = new Uint8Array(size);
  out.set(headerBytes(file, plan, begins));
  const view = new DataView(out.buffer);
  plan.variables.forEach((one, index) => {
    const slices = one.isRecord ? plan.recordCount : 1;
    for (let slice = 0; slice < slices; slice++) {
      let offset = begins[index]! + slice * plan.recordBytes;
      const end = offset + one.paddedSliceBytes;
      for (let at = slice * one.sliceValues; at < (slice + 1) * one.sliceValues; at++)
        offset = put(view, offset, one.type, one.values[at]!);
      // Specification: data are padded with the fill value.
      while (offset < end) offset = put(view, offset, one.type, one.padValue);
    }
  });
  return out;
}

interface VariablePlan {
  readonly type: WritableType;
  readonly values: ValuesToWrite;
  readonly dimensionIds: readonly number[];
  readonly isRecord: boolean;
  readonly sliceValues: number;
  readonly paddedSliceBytes: number;
  readonly padValue: number;
}

interface Plan {
  readonly variables: readonly VariablePlan[];
  readonly recordCount: number;
  readonly recordBytes: number;
}

function planOf(file: NetcdfToWrite): Plan {
  const loneRecord = file.variables.filter((one) => isRecordVariable(file, one)).length === 1;
  let recordCount: number | null = null;
  let recordBytes = 0;
  const variables = file.variables.map((one): VariablePlan => {
    const dimensionIds = one.dimensions.map((name) => {
      const id = file.dimensions.findIndex((dimension) => dimension.name === name);
      if (id < 0) throw new Error(`${one.name} names an unknown dimension ${JSON.stringify(name)}`);
      return id;
    });
    const isRecord = isRecordVariable(file, one);
    const lengths = dimensionIds.slice(isRecord ? 1 : 0).map((id) => file.dimensions[id]!.length);
    const sliceValues = lengths.reduce((product: number, length) => {
      if (length === "records" || length < 1 || !Number.isInteger(length)) throw new Error(`${one.name}: a dimension of length ${length}`);
      return product * length;
    }, 1);
    const slices = one.values.length / sliceValues;
    if (isRecord ? !Number.isInteger(slices) || (recordCount !== null && recordCount !== slices) : slices !== 1) {
      throw new Error(`${one.name} has ${one.values.length} values, which do not fill its dimensions`);
    }
    const type = typeOfArray(one.values);
    const bytes = sliceValues * bytesOfType[type];
    const paddedSliceBytes = isRecord && loneRecord ? bytes : Math.ceil(bytes / 4) * 4;
    if (isRecord) {
      recordCount = slices;
      recordBytes += paddedSliceBytes;
    }
    const fill = one.attributes["_FillValue"];
    const padValue = typeof fill === "object" ? fill[0]! : (defaultFills[type] ?? -127);
    return { type, values: one.values, dimensionIds, isRecord, sliceValues, paddedSliceBytes, padValue };
  });
  return { variables, recordCount: recordCount ?? 0, recordBytes };
}

function isRecordVariable(file: NetcdfToWrite, one: VariableToWrite): boolean {
  const first = file.dimensions.find((dimension) => dimension.name === one.dimensions[0]);
  return first?.length === "records";
}

function headerBytes(file: NetcdfToWrite, plan: Plan, begins: readonly number[]): Uint8Array {
  const bytes: number[] = [0x43, 0x44, 0x46, file.version];
  const int = (value: number): void => void bytes.push((value >>> 24) & 255, (value >>> 16) & 255, (value >>> 8) & 255, value & 255);
  const pad = (): void => {
    while (bytes.length % 4 !== 0) bytes.push(0);
  };
  const name = (text: string): void => {
    const encoded = new TextEncoder().encode(text);
    if (encoded.length === 0) throw new Error("a name is empty");
    int(encoded.length);
    bytes.push(...encoded);
    pad();
  };
  const list = (tag: number, count: number): void => {
    int(count === 0 ? 0 : tag);
    int(count);
  };
  const attributes = (all: Readonly<Record<string, AttributeToWrite>>): void => {
    const entries = Object.entries(all);
    list(TAG.attributes, entries.length);
    for (const [key, value] of entries) {
      name(key);
      if (typeof value === "string") {
        const encoded = new TextEncoder().encode(value);
        int(TYPE_NUMBER.char);
        int(encoded.length);
        for (const byte of encoded) bytes.push(byte);
      } else {
        const numbers = typeof value === "number" ? Float64Array.of(value) : value;
        const type = typeOfArray(numbers);
        int(TYPE_NUMBER[type]);
        int(numbers.length);
        const view = new DataView(new ArrayBuffer(numbers.length * bytesOfType[type]));
        let offset = 0;
        for (const one of numbers) offset = put(view, offset, type, one);
        for (const byte of new Uint8Array(view.buffer)) bytes.push(byte);
      }
      pad();
    }
  };
  int(plan.recordCount);
  list(TAG.dimensions, file.dimensions.length);
  for (const dimension of file.dimensions) {
    name(dimension.name);
    int(dimension.length === "records" ? 0 : dimension.length);
  }
  attributes(file.attributes);
  list(TAG.variables, file.variables.length);
  file.variables.forEach((variable, index) => {
    const one = plan.variables[index]!;
    name(variable.name);
    int(one.dimensionIds.length);
    for (const id of one.dimensionIds) int(id);
    attributes(variable.attributes);
    int(TYPE_NUMBER[one.type]);
    // Specification: `vsize` is padded even where the lone record variable's records are not, and all ones where it doesn't fit.
    int(Math.min(Math.ceil((one.sliceValues * bytesOfType[one.type]) / 4) * 4, 2 ** 32 - 1));
    const begin = begins[index]!;
    if (file.version === 2) int(Math.floor(begin / 2 ** 32));
    int(begin % 2 ** 32);
  });
  return Uint8Array.from(bytes);
}

function typeOfArray(values: ValuesToWrite): WritableType {
  if (values instanceof Int8Array) return "byte";
  if (values instanceof Int16Array) return "short";
  if (values instanceof Int32Array) return "int";
  return values instanceof Float32Array ? "float" : "double";
}

/** Writes one value big-endian; the offset after it. */
function put(view: DataView, offset: number, type: NetcdfType, value: number): number {
  if (type === "byte") view.setInt8(offset, value);
  else if (type === "short") view.setInt16(offset, value);
  else if (type === "int") view.setInt32(offset, value);
  else if (type === "float") view.setFloat32(offset, value);
  else view.setFloat64(offset, value);
  return offset + bytesOfType[type];
}

/**
 * Packs physical values as 16-bit integers (CF 1.11, 8.1): `stored = round((value − offset) / scale)`; missing ones become `fill`. Throws for a
 * value that doesn't fit.
 */
export function packShorts(
  values: ArrayLike<number>,
  packing: { readonly scale: number; readonly offset: number; readonly fill: number; readonly missing?: ArrayLike<number> },
): Int16Array {
  const { scale, offset, fill, missing } = packing;
  const out = new Int16Array(values.length);
  for (let index = 0; index < values.length; index++) {
    if (missing?.[index] === 1) {
      out[index] = fill;
      continue;
    }
    const stored = Math.round((values[index]! - offset) / scale);
    if (!(stored >= -32768 && stored <= 32767) || stored === fill)
      throw new Error(`${values[index]} does not fit in 16 bits at scale ${scale}`);
    out[index] = stored;
  }
  return out;
}
