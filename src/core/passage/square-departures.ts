import { offSquareDeg } from "../places/index.ts";
import type { Crossing } from "./crossing.ts";
import { SQUARE_WITHIN_DEG } from "./lane-crossings.ts";
import { zeroBetween } from "./root.ts";
import { oneHeading } from "./ways.ts";

/** How near a departure is found, seconds. */
const FOUND_WITHIN_SECONDS = 1;
/** (3 − √5)/2: what golden-section search cuts off (Press and others, Numerical Recipes, 3rd ed., 10.2). */
const GOLDEN = 0.381966;

/** One heading from one departure, held against the lanes it crosses. `offSquareDeg`: the worst of them, positive along the traffic. */
export interface SquareLook {
  readonly departAt: number;
  readonly headingDegTrue: number;
  readonly arrivalAt: number;
  readonly offSquareDeg: number;
}

/** Departures next to each other at which one heading is square all the way within the tolerance: the first, the last, the squarest. */
export interface SquareSpell {
  readonly from: number;
  readonly until: number;
  readonly squarest: SquareLook;
}

export interface SquareDepartures {
  readonly toleranceDeg: number;
  readonly spells: readonly SquareSpell[];
  /** The squarest of all, within the tolerance or not; null where one heading meets no lane from any departure, or never arrives. */
  readonly squarest: SquareLook | null;
}

/** How square one heading is in the lanes it crosses, leaving at an instant; null where it does not arrive or meets no lane with a flow. */
export function lookSquare(crossing: Crossing, departAt: number): SquareLook | null {
  const way = oneHeading(crossing, departAt, { earliestOnly: true });
  if (way.kind === "fails") return null;
  const steer = way.orders[0]?.steer;
  if (steer?.kind !== "heading") throw new Error("one heading has no heading");
  const { headingDegTrue } = steer;
  let worst: number | null = null;
  for (const { flowDegTrue } of way.laneCrossings) {
    if (flowDegTrue === null) continue;
    const off = offSquareDeg(headingDegTrue, flowDegTrue);
    // Two lanes of one scheme run opposite ways: leaning along one is leaning against the other. The first says which.
    if (worst === null || Math.abs(off) > Math.abs(worst) + 1e-9) worst = off;
  }
  return worst === null ? null : { departAt, headingDegTrue, arrivalAt: way.arrivalAt, offSquareDeg: worst };
}

/**
 * Over the departures tried, in order of time: from which one heading is square in every lane within `toleranceDeg`. Between two departures
 * where the lean changes side the square one is found by Brent's method, and beside one that is squarer than its neighbours by golden
 * section; a spell's ends by halving. `look` tells of any instant between them.
 */
export function squareDepartures(
  look: (departAt: number) => SquareLook | null,
  departures: readonly number[],
  toleranceDeg: number = SQUARE_WITHIN_DEG,
): SquareDepartures {
  const known = new Map<number, SquareLook | null>();
  const at = (departAt: number): SquareLook | null => {
    const before = known.get(departAt);
    if (before !== undefined) return before;
    const found = look(departAt);
    known.set(departAt, found);
    return found;
  };
  const off = (departAt: number): number => Math.abs(at(departAt)?.offSquareDeg ?? 90);
  for (const departAt of departures) at(departAt);
  const changesSide = departures.map((departAt, i) => {
    const a = at(departAt);
    const b = i + 1 < departures.length ? at(departures[i + 1] as number) : null;
    if (a === null || b === null || a.offSquareDeg > 0 === b.offSquareDeg > 0) return false;
    zeroBetween((t) => at(t)?.offSquareDeg ?? 90, a.departAt, b.departAt, a.offSquareDeg, b.offSquareDeg, FOUND_WITHIN_SECONDS, 1e-6);
    return true;
  });
  departures.forEach((middle, i) => {
    if (at(middle) === null || changesSide[i - 1] === true || changesSide[i] === true) return;
    const low = departures[Math.max(0, i - 1)] as number;
    const high = departures[Math.min(departures.length - 1, i + 1)] as number;
    const least = off(middle) <= off(low) && off(middle) <= off(high);
    if (least && (off(middle) < off(low) || off(middle) < off(high))) squarestBetween(off, low, middle, high);
  });
  const looks = [...known.values()].filter((one) => one !== null).sort((one, other) => one.departAt - other.departAt);
  const instants = [...known.keys()].sort((one, other) => one - other);
  const spells: SquareSpell[] = [];
  instants.forEach((instant, i) => {
    const one = at(instant);
    if (one === null || off(instant) > toleranceDeg) return;
    const last = spells[spells.length - 1];
    const before = instants[i - 1];
    if (last !== undefined && before !== undefined && off(before) <= toleranceDeg) {
      spells[spells.length - 1] = {
        ...last,
        until: instant,
        squarest: off(instant) < Math.abs(last.squarest.offSquareDeg) ? one : last.squarest,
      };
    } else spells.push({ from: instant, until: instant, squarest: one });
  });
  const edged = spells.map((spell): SquareSpell => {
    const before = instants[instants.indexOf(spell.from) - 1];
    const after = instants[instants.indexOf(spell.until) + 1];
    const within = (departAt: number): boolean => off(departAt) <= toleranceDeg;
    return {
      ...spell,
      from: before === undefined ? spell.from : edge(within, spell.from, before),
      until: after === undefined ? spell.until : edge(within, spell.until, after),
    };
  });
  const squarest = looks.reduce<SquareLook | null>(
    (best, one) => (best === null || Math.abs(one.offSquareDeg) < Math.abs(best.offSquareDeg) ? one : best),
    null,
  );
  return { toleranceDeg, spells: edged, squarest };
}

/** Narrows down on the least of `f` around `middle`, which is no greater there than at either end: golden section. */
function squarestBetween(f: (x: number) => number, from: number, best: number, until: number): void {
  let low = from;
  let middle = best;
  let high = until;
  while (high - low > 2 * FOUND_WITHIN_SECONDS) {
    const right = high - middle > middle - low;
    const tried = right ? middle + GOLDEN * (high - middle) : middle - GOLDEN * (middle - low);
    if (f(tried) < f(middle)) {
      if (right) low = middle;
      else high = middle;
      middle = tried;
    } else if (right) high = tried;
    else low = tried;
  }
}

/** The last instant from `inside` toward `outside` at which it still holds, to a second. */
function edge(holds: (departAt: number) => boolean, inside: number, outside: number): number {
  let yes = inside;
  let no = outside;
  while (Math.abs(no - yes) > FOUND_WITHIN_SECONDS) {
    const middle = (yes + no) / 2;
    if (holds(middle)) yes = middle;
    else no = middle;
  }
  return yes;
}
