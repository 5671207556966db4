import { durationWords, instantWords, type Oddities } from "./oddities.ts";

/** Times of a series in order, and where each stood in the file. */
export interface TimeOrder {
  readonly times: Float64Array;
  readonly places: Int32Array;
}

/** Ascending times without repeats: the first of equal ones stays. */
export function orderTimes(inFile: Float64Array, what: string, oddities: Oddities): TimeOrder {
  const order = Array.from(inFile, (_, index) => index).sort((one, other) => inFile[one]! - inFile[other]! || one - other);
  const kept = order.filter((place, index) => index === 0 || inFile[place] !== inFile[order[index - 1]!]);
  if (kept.length < order.length) {
    const first = order.find((place, index) => index > 0 && inFile[place] === inFile[order[index - 1]!])!;
    oddities.tell(
      "times-repeated",
      `${order.length - kept.length} times of the ${what} are given more than once, such as ${instantWords(inFile[first]!)}; the first is used.`,
    );
  }
  return { times: Float64Array.from(kept, (place) => inFile[place]!), places: Int32Array.from(kept) };
}

/** The longest step of ascending times, seconds; null with fewer than two. */
export function longestStep(times: Float64Array): number | null {
  if (times.length < 2) return null;
  let longest = 0;
  for (let index = 1; index < times.length; index++) longest = Math.max(longest, times[index]! - times[index - 1]!);
  return longest;
}

/**
 * Tells of holes: a step that is longer than the one before it and the one after it. Steps that lengthen once and stay long (hourly, then
 * three-hourly) are how many forecasts are made, and are no hole.
 */
export function tellGaps(times: Float64Array, what: string, oddities: Oddities): void {
  for (let index = 1; index < times.length; index++) {
    const step = times[index]! - times[index - 1]!;
    const before = index > 1 ? times[index - 1]! - times[index - 2]! : Number.POSITIVE_INFINITY;
    const after = index + 1 < times.length ? times[index + 1]! - times[index]! : Number.POSITIVE_INFINITY;
    const usual = Math.min(before, after);
    if (!Number.isFinite(usual) || step <= usual) continue;
    // At the end of a series a longer last step may be the first of longer ones.
    const isLengthening = before < step && after >= step;
    if (isLengthening) continue;
    oddities.tell(
      "time-gap",
      `Between ${instantWords(times[index - 1]!)} and ${instantWords(times[index]!)} the ${what} has no values: a step of ${durationWords(step)} where ${durationWords(usual)} is usual.`,
    );
  }
}
