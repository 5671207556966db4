import { type EpochSeconds, epochSeconds, type Interval } from "../../core/units/index.ts";

/** A stretch of time for which a letter gives one quantity twice, or not at all between its first and last period. */
export interface Noted extends Interval {
  readonly kind: "gap" | "overlap";
  readonly quantity: "wind" | "sea";
}

/** The gaps and overlaps of periods that are sorted by beginning, each stretch once, in order. */
export function notedSpans(quantity: Noted["quantity"], periods: readonly Interval[]): Noted[] {
  const noted: Noted[] = [];
  const first = periods[0];
  if (first === undefined) return noted;
  let coveredUntil: EpochSeconds = first.until;
  let doubledUntil: EpochSeconds = first.from;
  for (const next of periods.slice(1)) {
    if (next.from > coveredUntil) noted.push({ kind: "gap", quantity, from: coveredUntil, until: next.from });
    const from = epochSeconds(Math.max(next.from, doubledUntil));
    const until = epochSeconds(Math.min(next.until, coveredUntil));
    if (until > from) {
      noted.push({ kind: "overlap", quantity, from, until });
      doubledUntil = until;
    }
    coveredUntil = epochSeconds(Math.max(coveredUntil, next.until));
  }
  return noted;
}
