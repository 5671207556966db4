import { type EpochSeconds, epochSeconds } from "../units/index.ts";
import { isoDate, type LocalDate, type Weekday, zoned } from "./wall-time.ts";
import { offsetName } from "./zone.ts";

export const WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;
export const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

/** An instant on a zone's clock, in pieces for sentences and tables. */
export interface InstantPieces {
  readonly date: LocalDate;
  /** `2027-04-08` */
  readonly isoDate: string;
  readonly weekday: Weekday;
  /** `Thu` */
  readonly weekdayShort: string;
  /** `Thursday` */
  readonly weekdayLong: string;
  /** `Apr` */
  readonly monthShort: string;
  /** `April` */
  readonly monthLong: string;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
  /** `06:00`, or `06:00:30` to the second. */
  readonly time: string;
  /** East positive. */
  readonly offsetMinutes: number;
  /** `UTC-10`; a printed time says its zone by this. */
  readonly offsetLabel: string;
}

/** So many instants are remembered taken apart: a board tells the same ones again with every limit that is changed. */
const MOST_REMEMBERED = 4096;
const remembered = new Map<string, InstantPieces>();

/** An instant in a zone that `parseZone` reads, rounded to the nearest minute (unless `to` is `second`) before it is taken apart. */
export function formatInstant(at: EpochSeconds, zone: string, to: "minute" | "second" = "minute"): InstantPieces {
  const grain = to === "minute" ? 60 : 1;
  const rounded = Math.round(at / grain) * grain;
  const key = `${rounded} ${to} ${zone}`;
  const known = remembered.get(key);
  if (known !== undefined) return known;
  const pieces = piecesOf(epochSeconds(rounded), zone, to);
  if (remembered.size >= MOST_REMEMBERED) remembered.clear();
  remembered.set(key, pieces);
  return pieces;
}

function piecesOf(at: EpochSeconds, zone: string, to: "minute" | "second"): InstantPieces {
  const local = zoned(at, zone);
  const { year, month, day, hour, minute, second } = local;
  const date = { year, month, day };
  const weekday = local.dayOfWeek as Weekday;
  const offsetMinutes = local.offsetNanoseconds / 60e9;
  const clock = [hour, minute, ...(to === "second" ? [second] : [])];
  return {
    date,
    isoDate: isoDate(date),
    weekday,
    weekdayShort: WEEKDAYS[weekday - 1]!.slice(0, 3),
    weekdayLong: WEEKDAYS[weekday - 1]!,
    monthShort: MONTHS[month - 1]!.slice(0, 3),
    monthLong: MONTHS[month - 1]!,
    hour,
    minute,
    second,
    time: clock.map((part) => String(part).padStart(2, "0")).join(":"),
    offsetMinutes,
    offsetLabel: offsetName(offsetMinutes),
  };
}
