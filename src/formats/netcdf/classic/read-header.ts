import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { ByteSource } from "../../bytes/index.ts";
import {
  bytesOfType,
  type ClassicHeader,
  type ClassicVariable,
  type NetcdfAttribute,
  type NetcdfAttributes,
  type NetcdfDimension,
  type NetcdfType,
  typesByNumber,
} from "../netcdf-types.ts";
import { HeaderCursor, Lies, LONGEST_HEADER_BYTES, padded, RanOut } from "./header-cursor.ts";
import { numberAt } from "./values.ts";

const TAG_DIMENSIONS = 10;
const TAG_VARIABLES = 11;
const TAG_ATTRIBUTES = 12;

/** The reference library's greatest number of dimensions of one variable (NC_MAX_VAR_DIMS). */
const MOST_DIMENSIONS_OF_A_VARIABLE = 1024;
const FIRST_READ_BYTES = 64 * 1024;

/** Whether the first bytes are those of NetCDF classic: `CDF` and 1 (32-bit offsets), 2 (64-bit offsets) or 5 (64-bit data). */
export function isNetcdfClassic(firstBytes: Uint8Array): boolean {
  const version = firstBytes[3];
  return firstBytes[0] === 0x43 && firstBytes[1] === 0x44 && firstBytes[2] === 0x46 && (version === 1 || version === 2 || version === 5);
}

/**
 * Reads the header of a NetCDF classic file (The NetCDF Classic Format Specification, Unidata; and the CDF-5 extension of it).
 *
 * Reads no more than the header, and holds every count, length and offset against the size of the file: `file-truncated` where the file
 * breaks off before its header or its data end, `file-lies` where the header contradicts itself.
 */
export async function readClassicHeader(source: ByteSource, name: string): Promise<Parsed<ClassicHeader>> {
  const sizeBytes = source.sizeBytes;
  let wanted = Math.min(sizeBytes, FIRST_READ_BYTES);
  for (;;) {
    const bytes = await source.read(0, wanted);
    if (!isNetcdfClassic(bytes)) return bad(issue(name, "file-not-recognised", "This is not a NetCDF classic file."));
    try {
      return good(parse(bytes, sizeBytes));
    } catch (fault) {
      if (fault instanceof Lies) return bad(issue(name, "file-lies", `The NetCDF header cannot be right: ${fault.message}.`));
      if (fault instanceof Truncated) return bad(issue(name, "file-truncated", fault.message));
      if (!(fault instanceof RanOut)) throw fault;
    }
    if (bytes.length < wanted || wanted >= sizeBytes) {
      return bad(issue(name, "file-truncated", `The file breaks off inside its NetCDF header, after ${sizeBytes} bytes.`));
    }
    if (wanted >= LONGEST_HEADER_BYTES) {
      return bad(issue(name, "file-lies", `The NetCDF header does not end within ${LONGEST_HEADER_BYTES} bytes.`));
    }
    wanted = Math.min(sizeBytes, wanted * 4, LONGEST_HEADER_BYTES);
  }
}

class Truncated extends Error {}

function parse(bytes: Uint8Array, sizeBytes: number): ClassicHeader {
  const version = bytes[3] === 1 ? 1 : bytes[3] === 2 ? 2 : 5;
  const cursor = new HeaderCursor(bytes, 4, sizeBytes, version === 5);
  const writtenRecords = cursor.recordCount();
  const dimensions = readDimensions(cursor, version, writtenRecords ?? 0);
  const attributes = readAttributes(cursor, version);
  const drafts = readVariables(cursor, version, dimensions);
  const headerBytes = cursor.position;

  const recordVariables = drafts.filter((one) => one.isRecord);
  const lone = recordVariables.length === 1 ? recordVariables[0] : undefined;
  // Specification, note on padding: with a single record variable of a type under four bytes, records are not padded.
  const recordBytes = lone ? loneRecordBytes(lone) : recordVariables.reduce((sum, one) => sum + padded(one.sliceBytes), 0);
  const recordCount = writtenRecords ?? recordsThatFit(recordVariables, recordBytes, sizeBytes);

  const variables = new Map<string, ClassicVariable>();
  const filledDimensions = dimensions.map((one) => (one.isRecord ? { ...one, length: recordCount } : one));
  for (const draft of drafts) {
    if (variables.has(draft.name)) throw new Lies(`two variables are named ${quoted(draft.name)}`);
    const shape = draft.dimensionIds.map((id) => filledDimensions[id]!.length);
    const steps = draft.isRecord ? recordCount : 1;
    const endBytes = draft.beginBytes + (steps - 1) * recordBytes + draft.sliceBytes;
    if (steps > 0 && draft.sliceBytes > 0) {
      if (draft.beginBytes < headerBytes) {
        throw new Lies(`the data of ${quoted(draft.name)} is said to begin at byte ${draft.beginBytes}, inside the header`);
      }
      if (endBytes > sizeBytes) {
        throw new Truncated(`The file is ${sizeBytes} bytes long, but the data of ${quoted(draft.name)} should reach to byte ${endBytes}.`);
      }
    }
    variables.set(draft.name, {
      name: draft.name,
      type: draft.type,
      dimensions: draft.dimensionIds.map((id) => filledDimensions[id]!.name),
      shape,
      attributes: draft.attributes,
      isRecord: draft.isRecord,
      beginBytes: draft.beginBytes,
    });
  }
  return { version, dimensions: filledDimensions, attributes, variables, recordCount, recordBytes };
}

interface VariableDraft {
  readonly name: string;
  readonly type: NetcdfType;
  readonly dimensionIds: readonly number[];
  readonly attributes: NetcdfAttributes;
  readonly isRecord: boolean;
  readonly beginBytes: number;
  /** Bytes of all its values, or of those in one record; without padding. */
  readonly sliceBytes: number;
}

const loneRecordBytes = (one: VariableDraft): number => (bytesOfType[one.type] < 4 ? one.sliceBytes : padded(one.sliceBytes));

function recordsThatFit(recordVariables: readonly VariableDraft[], recordBytes: number, sizeBytes: number): number {
  if (recordBytes === 0) return 0;
  const begin = recordVariables.reduce((least, one) => Math.min(least, one.beginBytes), sizeBytes);
  return Math.floor((sizeBytes - begin) / recordBytes);
}

/** A list's tag and count; an absent list is two zeros. `leastBytes`: the fewest bytes one entry can take. */
function listCount(cursor: HeaderCursor, tag: number, leastBytes: number, of: string): number {
  const at = cursor.position;
  const found = cursor.uint32();
  const count = cursor.boundedCount(leastBytes, of);
  if (found === tag || (found === 0 && count === 0)) return count;
  throw new Lies(`byte ${at} holds the tag ${found} where the list of ${of} (tag ${tag}) should begin`);
}

function readDimensions(cursor: HeaderCursor, version: number, recordCount: number): NetcdfDimension[] {
  const count = listCount(cursor, TAG_DIMENSIONS, version === 5 ? 20 : 12, "dimensions");
  const dimensions: NetcdfDimension[] = [];
  const names = new Set<string>();
  let records = 0;
  for (let index = 0; index < count; index++) {
    const name = cursor.name("a dimension");
    if (names.has(name)) throw new Lies(`two dimensions are named ${quoted(name)}`);
    names.add(name);
    const length = cursor.count();
    if (length === 0) records++;
    if (records > 1) throw new Lies("it has two record dimensions");
    dimensions.push({ name, length: length === 0 ? recordCount : length, isRecord: length === 0 });
  }
  return dimensions;
}

function readAttributes(cursor: HeaderCursor, version: number): NetcdfAttributes {
  const count = listCount(cursor, TAG_ATTRIBUTES, version === 5 ? 24 : 16, "attributes");
  const attributes = new Map<string, NetcdfAttribute>();
  for (let index = 0; index < count; index++) {
    const name = cursor.name("an attribute");
    const type = readType(cursor, version, `the attribute ${quoted(name)}`);
    const length = cursor.boundedCount(bytesOfType[type], `values of the attribute ${quoted(name)}`);
    if (type === "char") {
      attributes.set(name, cursor.text(length));
      continue;
    }
    const view = cursor.block(length * bytesOfType[type]);
    const numbers: number[] = [];
    for (let at = 0; at < length; at++) numbers.push(numberAt(view, at * bytesOfType[type], type));
    attributes.set(name, numbers);
  }
  return attributes;
}

function readVariables(cursor: HeaderCursor, version: number, dimensions: readonly NetcdfDimension[]): VariableDraft[] {
  const count = listCount(cursor, TAG_VARIABLES, version === 5 ? 52 : 32, "variables");
  const drafts: VariableDraft[] = [];
  for (let index = 0; index < count; index++) {
    const name = cursor.name("a variable");
    const rank = cursor.boundedCount(version === 5 ? 8 : 4, `dimensions of ${quoted(name)}`);
    if (rank > MOST_DIMENSIONS_OF_A_VARIABLE) throw new Lies(`${quoted(name)} has ${rank} dimensions`);
    const dimensionIds: number[] = [];
    let sliceValues = 1;
    let isRecord = false;
    for (let at = 0; at < rank; at++) {
      const id = cursor.count();
      const dimension = dimensions[id];
      if (!dimension) throw new Lies(`${quoted(name)} names dimension number ${id} of ${dimensions.length}`);
      if (dimension.isRecord && at > 0) throw new Lies(`the record dimension is not the first of ${quoted(name)}`);
      if (dimension.isRecord) isRecord = true;
      else sliceValues *= dimension.length;
      dimensionIds.push(id);
    }
    const attributes = readAttributes(cursor, version);
    const type = readType(cursor, version, quoted(name));
    // `vsize` is redundant and by the specification too small for large variables: the shape decides.
    cursor.count();
    const beginBytes = version === 1 ? cursor.uint32() : cursor.uint64();
    drafts.push({ name, type, dimensionIds, attributes, isRecord, beginBytes, sliceBytes: sliceValues * bytesOfType[type] });
  }
  return drafts;
}

function readType(cursor: HeaderCursor, version: number, of: string): NetcdfType {
  const number = cursor.uint32();
  const type = typesByNumber.get(number);
  if (!type || (version !== 5 && number > 6)) throw new Lies(`${of} has the type ${number}, which this version of the format doesn't know`);
  return type;
}

const quoted = (name: string): string => `"${name.length > 60 ? `${name.slice(0, 60)}…` : name}"`;
