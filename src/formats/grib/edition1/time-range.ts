import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import { type EpochSeconds, epochSeconds } from "../../../core/units/index.ts";
import { dateAt, faultOfTimes } from "../dates.ts";
import { Octets } from "../octets.ts";

/**
 * When the values hold. `range` says how they stand to the time between: at an instant; the mean, the sum or the change over it; or
 * something that only the parameter tells (a greatest gust, a lowest temperature).
 */
export interface Edition1Times {
  readonly referenceAt: EpochSeconds;
  readonly validFrom: EpochSeconds;
  readonly validAt: EpochSeconds;
  readonly range: "instant" | "parameter" | "mean" | "accumulation" | "difference";
}

/** Seconds in a unit of time range (code table 4). Months and longer have no one length. */
const UNIT_SECONDS: Readonly<Record<number, number>> = {
  0: 60,
  1: 3600,
  2: 86_400,
  10: 10_800,
  11: 21_600,
  12: 43_200,
  13: 900,
  14: 1800,
  254: 1,
};

/** An end of the interval, in units from the reference time. */
type End = "p1" | "p2" | "minusP1" | "minusP2" | "p1Long";

/** Time range indicators (code table 5): where the interval begins and ends from the reference time, and how the values stand to it. */
const RANGES: Readonly<Record<number, readonly [from: End, until: End, range: Edition1Times["range"]]>> = {
  0: ["p1", "p1", "instant"],
  1: ["p1", "p1", "instant"],
  2: ["p1", "p2", "parameter"],
  3: ["p1", "p2", "mean"],
  4: ["p1", "p2", "accumulation"],
  5: ["p1", "p2", "difference"],
  6: ["minusP1", "minusP2", "mean"],
  7: ["minusP1", "p2", "mean"],
  10: ["p1Long", "p1Long", "instant"],
};

/** Time range indicators of products over many runs, which nothing here asks for. */
const OVER_RUNS: Readonly<Record<number, string>> = {
  51: "a climatological mean",
  113: "an average of several forecasts",
  114: "a sum of several forecasts",
  115: "an average of one run's several forecasts",
  116: "a sum of one run's several forecasts",
  117: "an average of several runs for one time",
  118: "a variance over several analyses",
  119: "a standard deviation of several forecasts",
  123: "an average of several analyses",
  124: "a sum of several analyses",
  125: "a standard deviation of several forecasts",
};

/** Section 1's times: octets 13 to 21 and 25 (Manual on Codes I.2, FM 92 GRIB edition 1). */
export function edition1Times(octets: Octets, path: string): Parsed<Edition1Times> {
  const referenceAt = referenceTime(octets);
  if (referenceAt === null) return bad(issue(path, "file-lies", "The reference time is no date."));
  const indicator = octets.u8(21);
  const ends = RANGES[indicator];
  if (ends === undefined) {
    const name = OVER_RUNS[indicator] ?? "of a kind that is not read";
    return bad(issue(path, "product-not-read", `The values are ${name} (time range indicator ${indicator}).`));
  }
  const [p1, p2] = [octets.u8(19), octets.u8(20)];
  const numbers = { p1, p2, minusP1: -p1, minusP2: -p2, p1Long: octets.u16(19) };
  const [from, until, range] = ends;
  const unit = UNIT_SECONDS[octets.u8(18)] ?? null;
  // Nought is nought in any unit.
  if (unit === null && (numbers[from] !== 0 || numbers[until] !== 0)) {
    return bad(issue(path, "product-not-read", `The forecast time is in a unit with no one length (code ${octets.u8(18)}).`));
  }
  const after = (number: number): EpochSeconds => epochSeconds(referenceAt + number * (unit ?? 0));
  if (numbers[until] < numbers[from]) {
    return bad(
      issue(path, "file-lies", `The interval is said to end ${numbers[until]} and to begin ${numbers[from]} after the reference time.`),
    );
  }
  const times = { referenceAt, validFrom: after(numbers[from]), validAt: after(numbers[until]) };
  const fault = faultOfTimes(times.referenceAt, times.validFrom, times.validAt);
  return fault === null ? good({ ...times, range }) : bad(issue(path, "file-lies", fault));
}

/** Year of the century in octet 13 (100 for its last), century in octet 25. */
function referenceTime(octets: Octets): EpochSeconds | null {
  const year = (octets.u8(25) - 1) * 100 + octets.u8(13);
  if (year < 0 || octets.u8(13) > 100) return null;
  const rest = [14, 15, 16, 17].map((octet) => octets.u8(octet));
  return dateAt(new Octets(Uint8Array.from([year >>> 8, year & 0xff, ...rest, 0])), 1);
}
