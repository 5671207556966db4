import { type EpochSeconds, epochSeconds } from "../../core/units/index.ts";
import type { Octets } from "./octets.ts";

/** Seven octets (year on two, month, day, hour, minute, second; UTC) as an instant, or null where there is no such date. */
export function dateAt(octets: Octets, octet: number): EpochSeconds | null {
  const year = octets.u16(octet);
  const [month, day, hour, minute, second] = [2, 3, 4, 5, 6].map((i) => octets.u8(octet + i)) as [number, number, number, number, number];
  if (year < 1000 || month < 1 || month > 12 || day < 1 || hour > 23 || minute > 59 || second > 59) return null;
  const midnight = new Date(Date.UTC(year, month - 1, day));
  if (midnight.getUTCMonth() !== month - 1) return null;
  return epochSeconds(midnight.getTime() / 1000 + hour * 3600 + minute * 60 + second);
}

/** No forecast is made or holds outside the years 1800 to 2300: an octet is wrong (common practice). 1800-01-01 and 2300-01-01. */
const EARLIEST_AT = -5_364_662_400;
const LATEST_AT = 10_413_792_000;

/** What can't be true of a product's times, in words; null where nothing is wrong. */
export function faultOfTimes(...instants: readonly EpochSeconds[]): string | null {
  if (instants.every((at) => at >= EARLIEST_AT && at <= LATEST_AT)) return null;
  return "The forecast is made, or is for a time, outside the years 1800 to 2300.";
}

/** An instant's seven octets' worth: year, month, day, hour, minute, second in UTC. Throws on parts of a second. */
export function dateParts(at: EpochSeconds): readonly [number, number, number, number, number, number] {
  if (!Number.isInteger(at)) throw new Error(`not a whole second: ${at}`);
  const date = new Date(at * 1000);
  return [date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate(), date.getUTCHours(), date.getUTCMinutes(), date.getUTCSeconds()];
}

/** Seconds in a unit of time (WMO code table 4.4); null for months, years and longer, which have no one length, and for unknown codes. */
export function secondsInTimeUnit(unitCode: number): number | null {
  return TIME_UNITS[unitCode] ?? null;
}

const TIME_UNITS: Readonly<Record<number, number>> = { 0: 60, 1: 3600, 2: 86_400, 10: 10_800, 11: 21_600, 12: 43_200, 13: 1 };
