import type { EpochSeconds } from "../../core/units/index.ts";
import { dateParts } from "./dates.ts";
import type { GribEnsemble, GribSurface } from "./grib-field.ts";
import { flagsFromScan, walkLines } from "./grids/scan.ts";
import { joined, OctetWriter } from "./octet-writer.ts";
import { packBits, packSimple } from "./packings/pack-simple.ts";

/** A regular latitude and longitude grid to be written. */
export interface Grib2Grid {
  readonly rows: number;
  readonly columns: number;
  readonly southDeg: number;
  readonly westDeg: number;
  /** Positive; left out of account where there is one row or column. */
  readonly latitudeStepDeg: number;
  readonly longitudeStepDeg: number;
}

/** The order of the points in the message (WMO flag table 3.4); all false where not said, which runs from the north-west corner, row by row. */
export interface Grib2Scan {
  readonly iNegative?: boolean;
  readonly jPositive?: boolean;
  readonly jConsecutive?: boolean;
  readonly alternating?: boolean;
}

/** One field to be written as a whole GRIB2 message: simple packing on a regular latitude and longitude grid. */
export interface Grib2Message {
  /** WMO common code table C-11; 65535 for none. */
  readonly centre: number;
  readonly subCentre?: number;
  /** WMO code table 1.3; 0 operational, 2 research. */
  readonly productionStatus?: number;
  readonly generatingProcess?: number;
  readonly referenceAt: EpochSeconds;
  readonly discipline: number;
  readonly category: number;
  readonly number: number;
  /** `value` in whole units or at most nine decimals. */
  readonly level: GribSurface;
  /** The instant, or the start of the interval. Whole seconds from `referenceAt`; hours, then minutes, are used where they go in. */
  readonly validFrom: EpochSeconds;
  /** An interval's end and its process (WMO code table 4.10: 0 mean, 2 maximum). Null or left out for an instant. */
  readonly interval?: { readonly validUntil: EpochSeconds; readonly processCode: number } | null;
  readonly ensemble?: GribEnsemble | null;
  readonly grid: Grib2Grid;
  readonly scan?: Grib2Scan;
  /** Row after row from the south, each from west to east. */
  readonly values: Float64Array | Float32Array;
  /** 1 where there is no value; a bitmap is written where it is given. */
  readonly missing?: Uint8Array | null;
  /** Values are kept to 2^binaryScale / 10^decimalScale. */
  readonly decimalScale: number;
  readonly binaryScale?: number;
}

/** The version of the WMO's tables that messages say they use. */
const MASTER_TABLES = 28;

/**
 * Writes one GRIB2 message: product template 4.0, 4.1 (a member), 4.8 (an interval) or 4.11 (both), grid template 3.0, packing 5.0
 * (Manual on Codes I.2, FM 92 GRIB edition 2). The same input gives the same bytes. Throws, quoting it, on input that can't be written.
 */
export function writeGrib2Message(message: Grib2Message): Uint8Array {
  const { rows, columns } = message.grid;
  const points = rows * columns;
  if (message.values.length !== points) throw new Error(`${message.values.length} values for ${rows} rows of ${columns}`);
  const missing = message.missing ?? null;
  if (missing !== null && missing.length !== points) throw new Error(`${missing.length} marks of missing for ${points} points`);
  const { ordered, bitmap } = inMessageOrder(message, missing);
  const packed = packSimple(ordered, message.decimalScale, message.binaryScale ?? 0);
  // A constant field holds its value itself, unscaled, as the encoders in use write it; scales of nought leave no doubt.
  const isConstant = packed.bits === 0;
  const [reference, binaryScale, decimalScale] = isConstant
    ? [packed.reference / 10 ** message.decimalScale, 0, 0]
    : [packed.reference, message.binaryScale ?? 0, message.decimalScale];
  const section5 = new OctetWriter()
    .unsigned(ordered.length, 4)
    .unsigned(0, 2)
    .float32(reference)
    .signed(binaryScale, 2)
    .signed(decimalScale, 2)
    .unsigned(packed.bits, 1)
    .unsigned(0, 1)
    .section(5);
  const section6 = bitmap === null ? new OctetWriter().unsigned(255, 1).section(6) : new OctetWriter().unsigned(0, 1).section(6, bitmap);
  const section7 = new OctetWriter().section(7, packed.data);
  const body = joined([section1(message), section3(message), section4(message), section5, section6, section7]);
  const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  const indicator = new OctetWriter().unsigned(0xffff, 2).unsigned(message.discipline, 1).unsigned(2, 1);
  return joined([ascii("GRIB"), indicator.unsigned(16 + body.length + 4, 8).plain(), body, ascii("7777")]);
}

function inMessageOrder(message: Grib2Message, missing: Uint8Array | null): { ordered: Float64Array; bitmap: Uint8Array | null } {
  const present = new Float64Array(missing === null ? 0 : message.values.length);
  const ordered: number[] = [];
  let bit = 0;
  walkLines(scanOf(message), (first, step, length) => {
    for (let i = 0, at = first; i < length; i++, at += step) {
      if (missing !== null) present[bit++] = missing[at] ? 0 : 1;
      if (missing === null || !missing[at]) ordered.push(message.values[at]!);
    }
  });
  return { ordered: Float64Array.from(ordered), bitmap: missing === null ? null : packBits(present, 1) };
}

function scanOf({ grid, scan = {} }: Grib2Message) {
  return {
    ni: grid.columns,
    nj: grid.rows,
    iNegative: scan.iNegative ?? false,
    jPositive: scan.jPositive ?? false,
    jConsecutive: scan.jConsecutive ?? false,
    alternating: scan.alternating ?? false,
  };
}

function section1(message: Grib2Message): Uint8Array {
  const section = new OctetWriter()
    .unsigned(message.centre, 2)
    .unsigned(message.subCentre ?? 0, 2)
    .unsigned(MASTER_TABLES, 1)
    .unsigned(0, 1)
    .unsigned(1, 1);
  writeDate(section, message.referenceAt);
  // Type of processed data (code table 1.4): 1 forecast products, 4 perturbed forecast products.
  return section
    .unsigned(message.productionStatus ?? 0, 1)
    .unsigned(message.ensemble ? 4 : 1, 1)
    .section(1);
}

function writeDate(section: OctetWriter, at: EpochSeconds): void {
  const [year, month, day, hour, minute, second] = dateParts(at);
  section.unsigned(year, 2).unsigned(month, 1).unsigned(day, 1).unsigned(hour, 1).unsigned(minute, 1).unsigned(second, 1);
}

function section3(message: Grib2Message): Uint8Array {
  const { rows, columns, southDeg, westDeg, latitudeStepDeg, longitudeStepDeg } = message.grid;
  const scan = scanOf(message);
  const micro = (degrees: number): number => Math.round(degrees * 1_000_000);
  const longitude = (degrees: number): number => ((micro(degrees) % 360_000_000) + 360_000_000) % 360_000_000;
  const latitudeStep = rows > 1 ? latitudeStepDeg : 0;
  const longitudeStep = columns > 1 ? longitudeStepDeg : 0;
  const [south, north] = [micro(southDeg), micro(southDeg + (rows - 1) * latitudeStep)];
  const [west, east] = [longitude(westDeg), longitude(westDeg + (columns - 1) * longitudeStep)];
  if (!(rows >= 1 && columns >= 1 && latitudeStep >= 0 && longitudeStep >= 0 && south >= -90_000_000 && north <= 90_000_000)) {
    throw new Error(`no grid: ${JSON.stringify(message.grid)}`);
  }
  const earth = new OctetWriter()
    .unsigned(0, 1)
    .unsigned(rows * columns, 4)
    .unsigned(0, 2)
    .unsigned(0, 2)
    .unsigned(6, 1);
  return earth
    .missing(15)
    .unsigned(columns, 4)
    .unsigned(rows, 4)
    .unsigned(0, 4)
    .missing(4)
    .signed(scan.jPositive ? south : north, 4)
    .unsigned(scan.iNegative ? east : west, 4)
    .unsigned(0x30, 1)
    .signed(scan.jPositive ? north : south, 4)
    .unsigned(scan.iNegative ? west : east, 4)
    .unsigned(micro(longitudeStep), 4)
    .unsigned(micro(latitudeStep), 4)
    .unsigned(flagsFromScan(scan), 1)
    .section(3);
}

function section4(message: Grib2Message): Uint8Array {
  const ensemble = message.ensemble ?? null;
  const interval = message.interval ?? null;
  const template = (interval === null ? 0 : 8) + (ensemble === null ? 0 : interval === null ? 1 : 3);
  const forecast = inLargestUnit(message.validFrom - message.referenceAt);
  const section = new OctetWriter().unsigned(0, 2).unsigned(template, 2).unsigned(message.category, 1).unsigned(message.number, 1);
  // Type of generating process (code table 4.3): 2 forecast, 4 ensemble forecast.
  section
    .unsigned(ensemble === null ? 2 : 4, 1)
    .unsigned(0, 1)
    .unsigned(message.generatingProcess ?? 255, 1)
    .unsigned(0, 3);
  section.unsigned(forecast.unitCode, 1).signed(forecast.count, 4);
  writeSurface(section, message.level);
  section.missing(6);
  if (ensemble !== null) {
    section.unsigned(ensemble.kindCode, 1).unsigned(ensemble.perturbationNumber, 1).unsigned(ensemble.forecastsInEnsemble, 1);
  }
  if (interval !== null) {
    if (interval.validUntil < message.validFrom) throw new Error(`interval ends before it begins: ${interval.validUntil}`);
    const lasts = inLargestUnit(interval.validUntil - message.validFrom);
    writeDate(section, interval.validUntil);
    // One time range; no field missing in it; the forecast time is stepped (code table 4.11); the step within it isn't said.
    section.unsigned(1, 1).unsigned(0, 4).unsigned(interval.processCode, 1).unsigned(2, 1);
    section.unsigned(lasts.unitCode, 1).unsigned(lasts.count, 4).unsigned(255, 1).unsigned(0, 4);
  }
  return section.section(4);
}

function inLargestUnit(seconds: number): { unitCode: number; count: number } {
  if (seconds % 3600 === 0) return { unitCode: 1, count: seconds / 3600 };
  return seconds % 60 === 0 ? { unitCode: 0, count: seconds / 60 } : { unitCode: 13, count: seconds };
}

function writeSurface(section: OctetWriter, level: GribSurface): void {
  section.unsigned(level.type, 1);
  if (level.value === null) {
    section.missing(5);
    return;
  }
  let decimals = 0;
  while (decimals < 9 && Math.round(level.value * 10 ** decimals) / 10 ** decimals !== level.value) decimals++;
  section.signed(decimals, 1).unsigned(Math.round(level.value * 10 ** decimals), 4);
}
