/** A stretch of time in which the same periods hold, one or, where they overlap, several; those that begin first stand first. */
export interface PeriodSpan<P> {
  readonly from: number;
  readonly until: number;
  readonly periods: readonly P[];
}

interface Stretch {
  readonly from: number;
  readonly until: number;
}

/** Periods in any order, cut at every start and end into spans, ascending; gaps have none. Throws on a period that ends before it begins. */
export function spansOf<P extends Stretch>(periods: readonly P[]): readonly PeriodSpan<P>[] {
  for (const { from, until } of periods) if (!(until > from)) throw new Error(`a period from ${from} until ${until}`);
  const ordered = [...periods].sort((a, b) => a.from - b.from);
  const cuts = [...new Set(ordered.flatMap(({ from, until }) => [from, until]))].sort((a, b) => a - b);
  const spans: PeriodSpan<P>[] = [];
  cuts.slice(1).forEach((until, i) => {
    const from = cuts[i] as number;
    const holding = ordered.filter((period) => period.from <= from && period.until >= until);
    if (holding.length > 0) spans.push({ from, until, periods: holding });
  });
  return spans;
}

/** The span that holds at an instant: from its start until just before its end; the very last end is included. */
export function spanAt<P>(spans: readonly PeriodSpan<P>[], at: number): PeriodSpan<P> | null {
  for (const span of spans) if (at >= span.from && at < span.until) return span;
  const last = spans[spans.length - 1];
  return last !== undefined && at === last.until ? last : null;
}

const cutsKnown = new WeakMap<readonly Stretch[], readonly number[]>();

/** The starts and ends of spans strictly inside a stretch of time, ascending, each once. */
export function breaksOf(spans: readonly Stretch[], from: number, until: number): readonly number[] {
  const cuts = cutsKnown.get(spans) ?? [...new Set(spans.flatMap((span) => [span.from, span.until]))].sort((a, b) => a - b);
  cutsKnown.set(spans, cuts);
  return cuts.filter((at) => at > from && at < until);
}
