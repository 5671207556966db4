import { ascii, joined } from "../sample-message.ts";

/** What the sample's section 1 says, octet by octet where it matters; else wind at 10 m, six hours on, from no centre in particular. */
export interface Edition1Sample {
  readonly tableVersion?: number;
  readonly centre?: number;
  readonly subCentre?: number;
  readonly parameter?: number;
  /** Octets 10 to 12. */
  readonly level?: readonly [type: number, upper: number, lower: number];
  /** Octets 13 to 17 and 25. */
  readonly date?: readonly [year: number, month: number, day: number, hour: number, minute: number, century: number];
  /** Octets 18 to 21: unit, P1, P2, time range indicator. */
  readonly time?: readonly [unit: number, p1: number, p2: number, indicator: number];
  readonly decimalScale?: number;
  /** Octets 41 on. */
  readonly local?: readonly number[];
  /** Section 2 whole; null leaves it out. */
  readonly grid?: Uint8Array | null;
  /** 1 where there is a value, in the message's order. */
  readonly present?: readonly number[] | null;
  /** Section 4 whole; else the numbers below, packed simply. */
  readonly section4?: Uint8Array;
  readonly numbers?: readonly number[];
  readonly bits?: number;
  readonly binaryScale?: number;
  /** One of IBM's numbers, as its four octets. */
  readonly reference?: readonly number[];
}

/** Nought, one and minus a hundred and eighteen and five eighths (the number that IBM's own manual works out) as IBM's numbers. */
export const IBM = { nought: [0, 0, 0, 0], one: [0x41, 0x10, 0, 0], minus118625: [0xc2, 0x76, 0xa0, 0] } as const;

export const u16 = (value: number): readonly number[] => [value >>> 8, value & 255];
export const u24 = (value: number): readonly number[] => [value >>> 16, (value >>> 8) & 255, value & 255];
const signMagnitude = (value: number, octets: number): readonly number[] => {
  const bytes = octets === 2 ? [...u16(Math.abs(value))] : [...u24(Math.abs(value))];
  if (value < 0) bytes[0]! |= 0x80;
  return bytes;
};
export const s16 = (value: number): readonly number[] => signMagnitude(value, 2);
export const s24 = (value: number): readonly number[] => signMagnitude(value, 3);

/** Whole numbers as bits, one after the other, filled up to whole octets. */
export function bitsOf(parts: readonly (readonly [value: number, bits: number])[]): number[] {
  const bytes: number[] = [];
  let at = 0;
  for (const [value, bits] of parts) {
    for (let bit = bits - 1; bit >= 0; bit--, at++) {
      if (at % 8 === 0) bytes.push(0);
      if (Math.floor(value / 2 ** bit) % 2 === 1) bytes[bytes.length - 1]! |= 0x80 >> (at % 8);
    }
  }
  return bytes;
}

export interface LatLonSample {
  readonly ni?: number;
  readonly nj?: number;
  /** First and last latitude and longitude, degrees. */
  readonly first?: readonly [latitudeDeg: number, longitudeDeg: number];
  readonly last?: readonly [latitudeDeg: number, longitudeDeg: number];
  /** Thousandths of a degree; 65535 for none. */
  readonly steps?: readonly [di: number, dj: number];
  readonly flags?: number;
  readonly scan?: number;
  readonly type?: number;
  readonly listOctet?: number;
  readonly coordinates?: number;
  readonly more?: readonly number[];
}

/** Section 2 of a grid of latitudes and longitudes: 5 columns and 4 rows from 32.5 S 12.5 E to 31 S 13.5 E, southernmost row first. */
export function latLonSection(changes: LatLonSample = {}): Uint8Array {
  const { ni = 5, nj = 4, first = [-32.5, 12.5], last = [-31, 13.5], steps = [250, 500], flags = 0x80, scan = 0x40 } = changes;
  const mdeg = (deg: number): readonly number[] => s24(Math.round(deg * 1000));
  const more = changes.more ?? [0, 0, 0, 0];
  const octets = [
    ...u24(28 + more.length),
    changes.coordinates ?? 0,
    changes.listOctet ?? 255,
    changes.type ?? 0,
    ...u16(ni),
    ...u16(nj),
    ...mdeg(first[0]),
    ...mdeg(first[1]),
    flags,
    ...mdeg(last[0]),
    ...mdeg(last[1]),
    ...u16(steps[0]),
    ...u16(steps[1]),
    scan,
    ...more,
  ];
  return Uint8Array.from(octets);
}

/** A message of edition 1, written straight from the Manual on Codes' octets and without the program's own code. */
export function edition1Message(sample: Edition1Sample = {}): Uint8Array {
  const grid = sample.grid === undefined ? latLonSection() : sample.grid;
  const { present = null, level = [105, 0, 10], date = [26, 5, 1, 6, 0, 21], time = [1, 6, 0, 0], local = [] } = sample;
  const padding = local.length === 0 ? [] : new Array<number>(12).fill(0);
  const section1 = [
    ...u24(28 + padding.length + local.length),
    sample.tableVersion ?? 2,
    sample.centre ?? 255,
    96,
    255,
    (grid === null ? 0 : 0x80) | (present === null ? 0 : 0x40),
    sample.parameter ?? 33,
    ...level,
    ...date.slice(0, 5),
    ...time,
    0,
    0,
    0,
    date[5],
    sample.subCentre ?? 0,
    ...s16(sample.decimalScale ?? 0),
    ...padding,
    ...local,
  ];
  const body = [Uint8Array.from(section1), ...(grid === null ? [] : [grid])];
  if (present !== null) body.push(bitmapSection(present));
  body.push(sample.section4 ?? simpleSection(sample));
  const length = 8 + body.reduce((sum, one) => sum + one.length, 0) + 4;
  return joined(ascii("GRIB"), Uint8Array.from([...u24(length), 1]), ...body, ascii("7777"));
}

function bitmapSection(present: readonly number[]): Uint8Array {
  const bytes = bitsOf(present.map((bit) => [bit, 1] as const));
  if (bytes.length % 2 === 1) bytes.push(0);
  return Uint8Array.from([...u24(6 + bytes.length), bytes.length * 8 - present.length, 0, 0, ...bytes]);
}

function simpleSection({
  numbers = Array.from({ length: 20 }, (_, i) => i),
  bits = 8,
  binaryScale = 0,
  reference = IBM.nought,
}: Edition1Sample): Uint8Array {
  const data = bitsOf(numbers.map((number) => [number, bits] as const));
  if ((11 + data.length) % 2 === 1) data.push(0);
  const unused = data.length * 8 - numbers.length * bits;
  return Uint8Array.from([...u24(11 + data.length), unused, ...s16(binaryScale), ...reference, bits, ...data]);
}

const FOUR_NOUGHTS = [0, 0, 0, 0];

/** The same grid about a pole turned to 30 S 170 W, and a turn of 10 degrees about it if asked for. */
export function rotatedSection(changes: LatLonSample & { readonly angle?: readonly number[] } = {}): Uint8Array {
  const more = [...FOUR_NOUGHTS, ...s24(-30_000), ...s24(-170_000), ...(changes.angle ?? IBM.nought)];
  return latLonSection({ type: 10, more, ...changes });
}

interface MapSample {
  readonly flags?: number;
  readonly scan?: number;
  readonly south?: boolean;
}

function mapSection(
  type: number,
  first: readonly [number, number],
  middle: readonly number[],
  scan: number,
  last: readonly number[],
): Uint8Array {
  const octets = [0, 255, type, ...u16(5), ...u16(4), ...s24(first[0]), ...s24(first[1]), ...middle, scan, ...last];
  return Uint8Array.from([...u24(3 + octets.length), ...octets]);
}

/** Polar stereographic, 5 by 4 points 50 km apart from 60 N 20 W on, the meridian of 15 W upright (or 60 S, 15 W). */
export function polarSection({ flags = 0x80, scan = 0x40, south = false }: MapSample = {}): Uint8Array {
  const middle = [flags, ...s24(-15_000), ...u24(50_000), ...u24(50_000), south ? 0x80 : 0];
  return mapSection(5, [south ? -60_000 : 60_000, -20_000], middle, scan, FOUR_NOUGHTS);
}

/** Lambert's, 5 by 4 points 40 km by 30 km apart from 50 N 10 W on, true along 45 and 55 N, the meridian of 5 W upright. */
export function lambertSection({ flags = 0x80, scan = 0x40 }: MapSample = {}): Uint8Array {
  const middle = [flags, ...s24(-5000), ...u24(40_000), ...u24(30_000), 0];
  return mapSection(3, [50_000, -10_000], middle, scan, [...s24(45_000), ...s24(55_000), ...s24(-90_000), ...s24(0), 0, 0]);
}

/**
 * Mercator's, 5 by 4 points 20 km apart along 20 N, from 10 N 60 W on. The last point: x is R cos 20 times longitude, y is R cos 20 times
 * the logarithm of tan (45 + half the latitude), on the sphere of 6367.47 km.
 */
export function mercatorSection({ flags = 0x80, scan = 0x40 }: MapSample = {}): Uint8Array {
  const radius = 6_367_470 * Math.cos((20 * Math.PI) / 180);
  const y = radius * Math.log(Math.tan(Math.PI / 4 + (10 * Math.PI) / 360)) + 3 * 20_000;
  const last = [(2 * Math.atan(Math.exp(y / radius)) - Math.PI / 2) * (180 / Math.PI), -60 + ((4 * 20_000) / radius) * (180 / Math.PI)];
  const middle = [flags, ...s24(Math.round(last[0]! * 1000)), ...s24(Math.round(last[1]! * 1000)), ...s24(20_000), 0];
  return mapSection(1, [10_000, -60_000], middle, scan, [...u24(20_000), ...u24(20_000), ...new Array<number>(8).fill(0)]);
}

/**
 * Twenty numbers (or those that are present) in the international forms of second-order packing, which differ in what their groups are:
 * the grid's four rows, or what a secondary bitmap marks, with a width for each or one for all.
 */
export function secondOrderSection(form: "rowByRow" | "general" | "constantWidth", present: readonly number[] | null): Uint8Array {
  const isPresent = (k: number): boolean => present === null || present[k] === 1;
  const row = (k: number): number => Math.floor(k / 5);
  const places = Array.from({ length: 20 }, (_, k) => k).filter(isPresent);
  const groupOf = (k: number, i: number): number => (form === "rowByRow" ? row(k) : Math.floor(i / 6));
  const groups = Math.max(...places.map(groupOf)) + 1;
  const widths = Array.from({ length: groups }, (_, group) => (form === "constantWidth" ? 4 : [3, 0, 5, 4][group]!));
  const firsts = Array.from({ length: groups }, (_, group) => 100 + 37 * group);
  const seconds = places.map((k, i) => [(k * 5) % 2 ** widths[groupOf(k, i)]!, widths[groupOf(k, i)]!] as const);
  const starts = places.map((k, i) => (i === 0 || groupOf(k, i) !== groupOf(places[i - 1]!, i - 1) ? 1 : 0));
  const widthOctets = form === "constantWidth" ? [4] : widths;
  const marks = form === "rowByRow" ? [] : bitsOf(starts.map((start) => [start, 1] as const));
  const firstOctets = bitsOf(firsts.map((first) => [first, 10] as const));
  const n1 = 22 + widthOctets.length + marks.length;
  const flags = form === "rowByRow" ? 0x10 : form === "general" ? 0x30 : 0x20;
  const head = [
    ...s16(-2),
    ...IBM.minus118625,
    10,
    ...u16(n1),
    flags,
    ...u16(n1 + firstOctets.length),
    ...u16(groups),
    ...u16(places.length),
    0,
  ];
  const body = [...head, ...widthOctets, ...marks, ...firstOctets, ...bitsOf(seconds)];
  if (body.length % 2 === 1) body.push(0);
  return Uint8Array.from([...u24(4 + body.length), 0x40, ...body]);
}
