/** A stretch of time in which one state holds: from the first instant found in it to the last, UTC epoch seconds, both included. */
export interface StateSpan {
  readonly from: number;
  readonly until: number;
  readonly state: number;
}

/** A change of state is found this closely, seconds. */
export const CHANGE_WITHIN_SECONDS = 0.5;

/**
 * How a state goes on between the first and the last of some moments (ascending, at least one): it is asked for at each, and where two neighbours
 * differ each change between them is found by halving, to `CHANGE_WITHIN_SECONDS`. What comes and goes between two moments that
 * are alike is not seen: the caller puts moments where that could be, as the turns of what the state depends on.
 */
export function stateSpans(stateAt: (at: number) => number, moments: readonly number[]): readonly StateSpan[] {
  const [first] = moments;
  if (first === undefined) throw new Error("no moment to look at");
  const spans: StateSpan[] = [];
  let from = first;
  let state = stateAt(first);
  let before = first;
  for (const moment of moments.slice(1)) {
    const there = stateAt(moment);
    while (state !== there) {
      const { last, next } = firstChange(stateAt, state, before, moment);
      spans.push({ from, until: last, state });
      from = next;
      before = next;
      state = next >= moment ? there : stateAt(next);
    }
    before = moment;
  }
  spans.push({ from, until: before, state });
  return spans;
}

/** Where a state ends between an instant at which it holds and one at which another does. */
function firstChange(
  stateAt: (at: number) => number,
  state: number,
  holds: number,
  ended: number,
): { readonly last: number; readonly next: number } {
  let last = holds;
  let next = ended;
  while (next - last > CHANGE_WITHIN_SECONDS) {
    const middle = (last + next) / 2;
    if (stateAt(middle) === state) last = middle;
    else next = middle;
  }
  return { last, next };
}

/** Spans that follow one another, with those of one state that touch made one. */
export function joinedStates(spans: readonly StateSpan[]): readonly StateSpan[] {
  const joined: StateSpan[] = [];
  for (const span of spans) {
    const last = joined[joined.length - 1];
    if (last !== undefined && last.state === span.state) joined[joined.length - 1] = { ...last, until: span.until };
    else joined.push(span);
  }
  return joined;
}
