/**
 * A stretch of time in which something may be passed, UTC epoch seconds, both ends included: an opening that is over at once begins and
 * ends at one instant. Sets of them are sorted and apart from one another.
 */
export interface OpenSpan {
  readonly from: number;
  readonly until: number;
}

/** Sorted, with what touches or overlaps made one. */
export function joinedSpans(spans: readonly OpenSpan[]): readonly OpenSpan[] {
  const result: OpenSpan[] = [];
  for (const next of spans.toSorted((a, b) => a.from - b.from)) {
    const last = result[result.length - 1];
    if (last === undefined || next.from > last.until) result.push(next);
    else if (next.until > last.until) result[result.length - 1] = { from: last.from, until: next.until };
  }
  return result;
}

/** What two sets have in common. */
export function commonSpans(a: readonly OpenSpan[], b: readonly OpenSpan[]): readonly OpenSpan[] {
  const result: OpenSpan[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const one = a[i] as OpenSpan;
    const other = b[j] as OpenSpan;
    const from = Math.max(one.from, other.from);
    const until = Math.min(one.until, other.until);
    if (from <= until) result.push({ from, until });
    if (one.until < other.until) i++;
    else j++;
  }
  return result;
}

/** Every span moved: its beginning by `fromBy`, its end by `untilBy` seconds, later positive; those that are turned inside out drop out. */
export function movedSpans(spans: readonly OpenSpan[], fromBy: number, untilBy: number = fromBy): readonly OpenSpan[] {
  return joinedSpans(
    spans.map(({ from, until }) => ({ from: from + fromBy, until: until + untilBy })).filter(({ from, until }) => from <= until),
  );
}

/**
 * `within` without a set that begins at its `from` and is over at its `until`: what is shut from 0700 to 0900 opens at 0900 and not at
 * 0700 any more: the last opening ends `sparingSeconds` before.
 */
export function spansOutside(shut: readonly OpenSpan[], within: OpenSpan, sparingSeconds = 1): readonly OpenSpan[] {
  const result: OpenSpan[] = [];
  let from = within.from;
  for (const span of shut) {
    if (span.until < within.from || span.from > within.until) continue;
    const until = span.from - sparingSeconds;
    if (until >= from && span.from > from) result.push({ from, until });
    from = Math.max(from, span.until);
  }
  if (from <= within.until) result.push({ from, until: within.until });
  return result;
}

/** The span that holds an instant; null where none does. */
export function spanAt(spans: readonly OpenSpan[], at: number): OpenSpan | null {
  const next = spans[firstEndingFrom(spans, at)];
  return next !== undefined && next.from <= at ? next : null;
}

/** The last span that is over before an instant; null where none is. */
export function spanBefore(spans: readonly OpenSpan[], at: number): OpenSpan | null {
  return spans[firstEndingFrom(spans, at) - 1] ?? null;
}

/** The first span that begins after an instant; null where none does. */
export function spanAfter(spans: readonly OpenSpan[], at: number): OpenSpan | null {
  const k = firstEndingFrom(spans, at);
  const next = spans[k];
  return (next !== undefined && next.from <= at ? spans[k + 1] : next) ?? null;
}

/** The index of the first span whose end is not before an instant. */
function firstEndingFrom(spans: readonly OpenSpan[], at: number): number {
  let low = 0;
  let high = spans.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((spans[middle] as OpenSpan).until < at) low = middle + 1;
    else high = middle;
  }
  return low;
}
