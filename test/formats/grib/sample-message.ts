import { epochSeconds } from "../../../src/core/units/index.ts";
import { bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import {
  decodeGribField,
  type Grib2Message,
  type GribField,
  type GribItem,
  type GribValues,
  type LatLonGrid,
  readGribFields,
  writeGrib2Message,
} from "../../../src/formats/grib/index.ts";

export const RUN_AT = epochSeconds(Date.UTC(2026, 4, 1, 6) / 1000);
export const HOUR = 3600;
export const hoursOn = (hours: number) => epochSeconds(RUN_AT + hours * HOUR);

/** A small field of wind at 10 m on an invented patch of sea, six hours into the run; 5 columns, 4 rows, every value its own. */
export function sample(changes: Partial<Grib2Message> = {}): Grib2Message {
  const grid = changes.grid ?? { rows: 4, columns: 5, southDeg: -31, westDeg: 12.5, latitudeStepDeg: 0.5, longitudeStepDeg: 0.25 };
  return {
    centre: 65535,
    referenceAt: RUN_AT,
    discipline: 0,
    category: 2,
    number: 2,
    level: { type: 103, value: 10 },
    validFrom: hoursOn(6),
    grid,
    values: Float64Array.from({ length: grid.rows * grid.columns }, (_, i) => (i * 37 - 200) / 100),
    decimalScale: 2,
    ...changes,
  };
}

export const written = (changes: Partial<Grib2Message> = {}): Uint8Array => writeGrib2Message(sample(changes));

/** Every third point from the second has no value. */
export const holes = (points: number): Uint8Array => Uint8Array.from({ length: points }, (_, i) => (i % 3 === 1 ? 1 : 0));

export async function itemsOf(bytes: Uint8Array): Promise<readonly GribItem[]> {
  const items: GribItem[] = [];
  for await (const item of readGribFields(bytesFromMemory(bytes))) items.push(item);
  return items;
}

export async function fieldsOf(bytes: Uint8Array): Promise<readonly GribField[]> {
  return (await itemsOf(bytes)).flatMap((item) => (item.kind === "field" ? [item] : []));
}

/** Codes of what was not read, in order. */
export async function codesOf(bytes: Uint8Array): Promise<readonly string[]> {
  return (await itemsOf(bytes)).flatMap((item) => (item.kind === "oddity" ? [item.issue.code] : []));
}

/** The only field of the bytes; throws, saying what was found, where there is not just one. */
export async function oneField(bytes: Uint8Array): Promise<GribField> {
  const items = await itemsOf(bytes);
  const [only] = items;
  if (items.length !== 1 || only?.kind !== "field") throw new Error(`not one field: ${JSON.stringify(items)}`);
  return only;
}

export async function decoded(bytes: Uint8Array, field: GribField): Promise<GribValues> {
  const values = await decodeGribField(bytesFromMemory(bytes), field);
  if (!values.ok) throw new Error(JSON.stringify(values.issues));
  return values.value;
}

/** Sections 1 to 7 of a message without repeated sections, by their numbers. */
export function sectionsOf(message: Uint8Array): ReadonlyMap<number, Uint8Array> {
  const view = new DataView(message.buffer, message.byteOffset, message.byteLength);
  const sections = new Map<number, Uint8Array>();
  for (let offset = 16; offset < message.length - 4; offset += view.getUint32(offset)) {
    sections.set(view.getUint8(offset + 4), message.slice(offset, offset + view.getUint32(offset)));
  }
  return sections;
}

/** A message of the given sections in the given order. */
export function assembled(sections: readonly Uint8Array[], discipline = 0): Uint8Array {
  const length = 16 + sections.reduce((sum, one) => sum + one.length, 0) + 4;
  const head = new Uint8Array(16);
  head.set([0x47, 0x52, 0x49, 0x42, 0, 0, discipline, 2]);
  new DataView(head.buffer).setBigUint64(8, BigInt(length));
  return joined(head, ...sections, ascii("7777"));
}

export const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);

export function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let offset = 0;
  for (const part of parts) {
    whole.set(part, offset);
    offset += part.length;
  }
  return whole;
}

/** The message with octets of one section changed, counted from 1 as the WMO's templates count them. */
export function patched(message: Uint8Array, section: number, octet: number, ...octets: readonly number[]): Uint8Array {
  const sections = new Map(sectionsOf(message));
  sections.get(section)!.set(octets, octet - 1);
  return assembled([...sections.values()], message[6]);
}

/** Four octets, sign and magnitude. */
export function signed4(value: number): readonly number[] {
  const magnitude = Math.abs(value);
  return [(magnitude >>> 24) | (value < 0 ? 0x80 : 0), (magnitude >>> 16) & 255, (magnitude >>> 8) & 255, magnitude & 255];
}

/** All the scans there are: the octet, and its flags as the writer takes them. */
export const SCANS = Array.from({ length: 16 }, (_, i) => ({
  octet: i << 4,
  scan: { iNegative: (i & 8) !== 0, jPositive: (i & 4) !== 0, jConsecutive: (i & 2) !== 0, alternating: (i & 1) !== 0 },
}));

/**
 * The place (in rows from the south, columns from the west) of the `k`-th point of a message, straight from the words of WMO flag
 * table 3.4 and without the walk that the program does.
 */
export function placeOf(k: number, rows: number, columns: number, octet: number): number {
  const [length, line, along] = octet & 0x20 ? [rows, Math.floor(k / rows), k % rows] : [columns, Math.floor(k / columns), k % columns];
  const turned = octet & 0x10 && line % 2 === 1 ? length - 1 - along : along;
  const [i, j] = octet & 0x20 ? [line, turned] : [turned, line];
  const column = octet & 0x80 ? columns - 1 - i : i;
  const row = octet & 0x40 ? j : rows - 1 - j;
  return row * columns + column;
}

/** The grid of a field that must be a plain one of latitude and longitude. */
export function latLonGridOf(field: GribField): LatLonGrid {
  if (field.grid.kind !== "latLon") throw new Error(`not a grid of latitude and longitude: ${field.grid.kind}`);
  return field.grid;
}
