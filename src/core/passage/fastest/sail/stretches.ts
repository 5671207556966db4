import type { BentLine } from "../bent-line.ts";
import type { WayTimer } from "../way-timer.ts";
import { type FreeTacker, LUFFED_SHARE } from "./free-tacker.ts";

/** A heading so near to the best one on the wind belongs to the beat beside it, degrees. */
const BESIDE_DEG = 3;

/** One step of the fastest way: when it begins, the angle off the wind, and what is mixed. */
interface Step {
  readonly at: number;
  readonly angleDeg: number;
  readonly mixes: "beat" | "run" | null;
  readonly mayBe: "beat" | "run" | null;
  /** The share of the time with the wind over the starboard side, as it is where the angle is positive. */
  readonly starboardShare: number;
}

/** A part of a line: steps `from` to `until`, on which she either beats or runs by mixed headings, or holds a course. */
export interface Stretch {
  readonly kind: "beat" | "run" | "course";
  readonly from: number;
  readonly until: number;
  /** Seconds the steps take in the bound, and the shares of them with the wind over the starboard side. */
  readonly seconds: Float64Array;
  readonly starboardShares: Float64Array;
}

/** The first stretch of a line from a step on, begun at an instant; null where she can't go on there. */
export function nextStretch(
  timer: WayTimer,
  holder: FreeTacker,
  line: BentLine,
  fromStep: number,
  at: number,
  stepsAPiece: number,
): Stretch | null {
  const steps: Step[] = [];
  let since = at;
  for (let k = fromStep; k < line.pieces * stepsAPiece; k++) {
    const piece = Math.floor(k / stepsAPiece);
    const slowness = timer.slowness(line, piece, ((k % stepsAPiece) + 0.5) / stepsAPiece, since);
    if (slowness < 0) break;
    const step = { at: since, ...lookedAt(holder) };
    const first = steps[0] ?? step;
    if (!belongTogether(first, step)) break;
    steps.push(step);
    since += slowness / stepsAPiece;
  }
  return steps.length === 0 ? null : stretchOf(steps, fromStep, since);
}

function lookedAt(holder: FreeTacker): Omit<Step, "at"> {
  const { angleDeg, mixedFromDeg, mixedUntilDeg, mixedShare } = holder;
  if (!Number.isNaN(mixedShare)) {
    const kind = mixedFromDeg < 0 ? "beat" : mixedFromDeg < 180 && mixedUntilDeg > 180 ? "run" : null;
    // Beating, the second angle is the positive one; running, the second lies beyond 180.
    const positive = kind === "beat" ? mixedShare : 1 - mixedShare;
    const mixes = Math.min(mixedShare, 1 - mixedShare) > LUFFED_SHARE ? kind : null;
    return { angleDeg, mixes, mayBe: kind, starboardShare: kind === null ? sideShare(angleDeg) : positive };
  }
  const off = Math.abs(angleDeg);
  const windMps = holder.windOverWaterMps;
  const beat = holder.hull.bestDeg("beat", windMps);
  const run = holder.hull.bestDeg("run", windMps);
  const mayBe = Math.abs(off - beat) < BESIDE_DEG ? "beat" : Math.abs(off - run) < BESIDE_DEG ? "run" : null;
  return { angleDeg, mixes: null, mayBe, starboardShare: sideShare(angleDeg) };
}

const sideShare = (angleDeg: number): number => (angleDeg > 0 ? 1 : 0);

/** Steps that may be sailed in boards together, or else with the wind over the same side. */
const belongTogether = (one: Step, other: Step): boolean =>
  one.mayBe === other.mayBe && (one.mayBe !== null || one.angleDeg > 0 === other.angleDeg > 0);

const bothSides = (run: readonly Step[]): boolean => run.some(({ angleDeg }) => angleDeg > 0) && run.some(({ angleDeg }) => angleDeg < 0);

function stretchOf(steps: readonly Step[], from: number, endAt: number): Stretch {
  const kind = steps[0]?.mayBe ?? null;
  const mixes = kind !== null && (steps.some(({ mixes }) => mixes !== null) || bothSides(steps));
  return {
    kind: mixes ? kind : "course",
    from,
    until: from + steps.length,
    seconds: Float64Array.from(steps, ({ at }, i) => (steps[i + 1]?.at ?? endAt) - at),
    starboardShares: Float64Array.from(steps, ({ starboardShare }) => starboardShare),
  };
}
