import type { BoatModel } from "../boat/index.ts";
import { turnDeg, wrap360Deg } from "../units/index.ts";
import type { BoatState } from "./helm.ts";
import { type Line, offOf } from "./line.ts";
import { type HeadingFound, WIDEST_HEADING_DEG } from "./one-heading.ts";
import type { Runner } from "./run-legs.ts";

/** A heading found near a guess, and what the next guess goes by. */
export interface HeadingNear extends HeadingFound {
  /** How much the miss changes for each degree of heading and second of the run, m/(° s). */
  readonly missRate: number;
}

/**
 * A miss no greater than this is mended by the straight line through the last two runs, metres: what that leaves is thousandths of a second,
 * and up to a second where the two runs split their steps otherwise.
 */
const MENDABLE_METRES = 25;
/** The last two headings lie at least so far apart, degrees: closer, rounding tells in the line through their misses. */
const LEAST_TURN_DEG = 1e-4;
/** The farthest that one correction turns the heading, degrees. */
const FARTHEST_TURN_DEG = 10;
const MOST_RUNS = 7;

/**
 * The heading near a guess that leads to the line's end, by the secant method on the miss (as `findHeadings` has it): three runs where the
 * guess is within a degree or two. Null where that does not settle, so that whoever asks searches all round: it can't tell whether there
 * is any, nor whether it is the earliest. `missRate` is that of a run much like this one.
 */
export function headingNear(
  runner: Runner,
  boat: BoatModel,
  line: Line,
  start: BoatState,
  stepSeconds: number,
  guessDegTrue: number,
  missRate: number,
): HeadingNear | null {
  const bearingDegTrue = line.sheetDeg + line.plane.convergenceDegAt(start.xMetres, start.yMetres);
  const until = { kind: "along", line, metres: line.lengthMetres } as const;
  let before: { deg: number; miss: number; at: number } | null = null;
  let deg = bearingDegTrue + turnDeg(bearingDegTrue, guessDegTrue);
  for (let runs = 0; runs < MOST_RUNS; runs++) {
    if (Math.abs(deg - bearingDegTrue) > WIDEST_HEADING_DEG) return null;
    const end = runner.run(boat, { kind: "heading", headingDegTrue: deg }, until, start, stepSeconds, null);
    if (end.kind !== "reached") return null;
    const miss = offOf(line, end.xMetres, end.yMetres);
    const slope: number = before === null ? missRate * (end.at - start.at) : (miss - before.miss) / (deg - before.deg);
    if (!(slope > 0)) return null;
    const turn = -miss / slope;
    if (before !== null && (Math.abs(miss) <= MENDABLE_METRES || Math.abs(turn) < LEAST_TURN_DEG)) {
      const perDeg = (end.at - before.at) / (deg - before.deg);
      return { headingDegTrue: wrap360Deg(deg + turn), arrivalAt: end.at + turn * perDeg, missRate: slope / (end.at - start.at) };
    }
    before = { deg, miss, at: end.at };
    deg += Math.max(-FARTHEST_TURN_DEG, Math.min(FARTHEST_TURN_DEG, Math.abs(turn) < LEAST_TURN_DEG ? LEAST_TURN_DEG : turn));
  }
  return null;
}
