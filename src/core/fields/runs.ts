/** A stretch of time, seconds of the UTC epoch. */
export interface Span {
  readonly from: number;
  readonly until: number;
}

/** A source that may have to choose among runs. */
interface Chooses {
  runsFor?(passage: Span): string;
}

/** Which runs serve of all sources together; the same text where the same do. */
export function runsForAll(sources: readonly Chooses[], passage: Span): string {
  return sources.map((source) => source.runsFor?.(passage) ?? "").join(";");
}

/**
 * In which order runs of one forecast answer for a passage over `span`: `covers` are their times, newest first, null for one that holds
 * always; given back are their places in that list. The newest that covers the whole of the passage comes first, and then none of the
 * others is asked where it knows the place; where none covers it whole they are joined, the newest first. Without a span: as they stand.
 */
export function runOrder(covers: readonly (Span | null)[], span: Span | undefined): readonly number[] {
  const places = covers.map((_, place) => place);
  if (span === undefined) return places;
  const whole = covers.findIndex((one) => one === null || (one.from <= span.from && one.until >= span.until));
  return whole <= 0 ? places : [whole, ...places.filter((place) => place !== whole)];
}
