import type { NoAnswer } from "../answers/index.ts";
import type { BoatModel } from "../boat/index.ts";
import { wrap360Deg } from "../units/index.ts";
import { type Line, offOf } from "./line.ts";
import { zeroBetween } from "./root.ts";
import type { BoatState, LegEnd, Simulator } from "./simulate.ts";

/** Headings are sought within this of the line's bearing, degrees. */
export const WIDEST_HEADING_DEG = 85;
/** The spacing of the first look, degrees, and its step, seconds: only to find where the miss changes side. */
const LOOK_SPACING_DEG = 5;
const LOOK_STEP_SECONDS = 900;
/** How often the gap between a heading that arrives and one that does not is halved: to less than a tenth of a degree. */
const EDGE_HALVINGS = 6;
/** A heading is found when it misses by no more than this, metres. */
const CLOSE_ENOUGH_METRES = 1e-3;
/**
 * Where the engine goes on or off, or the sails cease to draw, the least turn of the heading can move the end: a jump over the destination
 * counts as leading there when it lands within this share of the line, about a cable in fifty miles, which no helm can steer.
 */
const JUMP_MAY_MISS_SHARE = 2e-3;

/** A heading that, held from here, leads to the line's end. */
export interface HeadingFound {
  readonly headingDegTrue: number;
  readonly arrivalAt: number;
}

/** All single headings that lead to the destination, earliest arrival first; `why` tells what stopped the straightest try when there is none. */
export interface HeadingsFound {
  readonly found: readonly HeadingFound[];
  readonly why: NoAnswer | null;
}

/**
 * Finds every heading that, held all the way, leads to the line's end: the miss is the distance off the line where the boat first comes
 * abeam of the destination, and a heading leads there when the miss is nothing (or jumps over it: `JUMP_MAY_MISS_SHARE`). First a look
 * every 5° within 85° of the line's bearing, then Brent's method in each interval in which the miss changes side. Of three or more
 * headings within one interval that all lead there some may be overlooked.
 *
 * With `near` (degrees) only the change of side nearest to that heading is sought: for runs that differ little from one already known.
 */
export function findHeadings(
  simulator: Simulator,
  boat: BoatModel,
  line: Line,
  start: BoatState,
  stepSeconds: number,
  near: number | null = null,
): HeadingsFound {
  const centreDeg = line.sheetDeg + line.plane.convergenceDegAt(start.xMetres, start.yMetres);
  const end = { kind: "along", line, metres: line.lengthMetres } as const;
  let last: LegEnd | null = null;
  const missAt = (headingDegTrue: number, step: number): number | null => {
    last = simulator.run(boat, { kind: "heading", headingDegTrue }, end, start, step, null);
    return last.kind === "reached" ? offOf(line, last.xMetres, last.yMetres) : null;
  };
  const found: HeadingFound[] = [];
  const refine = (lowDeg: number, highDeg: number): void => {
    const low = missAt(lowDeg, stepSeconds);
    const high = missAt(highDeg, stepSeconds);
    if (low === null || high === null || low > 0 === high > 0) return;
    let failed = false;
    const headingDeg = zeroBetween(
      (h) => {
        const miss = missAt(h, stepSeconds);
        if (miss === null) failed = true;
        return miss ?? 0;
      },
      lowDeg,
      highDeg,
      low,
      high,
      1e-11,
      CLOSE_ENOUGH_METRES,
    );
    if (failed) return;
    const miss = missAt(headingDeg, stepSeconds);
    if (miss === null || Math.abs(miss) > JUMP_MAY_MISS_SHARE * line.lengthMetres || last === null || last.kind !== "reached") return;
    found.push({ headingDegTrue: wrap360Deg(headingDeg), arrivalAt: last.at });
  };
  if (near !== null) {
    const nearest = centreDeg + (((near - centreDeg + 540) % 360) - 180);
    for (let reach = 1; reach <= 16 && found.length === 0; reach *= 4) refine(nearest - reach, nearest + reach);
    if (found.length > 0) return { found, why: null };
  }
  const step = Math.max(stepSeconds, LOOK_STEP_SECONDS);
  const looks: Look[] = [];
  for (let offDeg = -WIDEST_HEADING_DEG; offDeg <= WIDEST_HEADING_DEG; offDeg += LOOK_SPACING_DEG) {
    const miss = missAt(centreDeg + offDeg, step);
    looks.push({ headingDeg: centreDeg + offDeg, miss, why: miss === null ? (last as NoAnswer | null) : null });
  }
  for (let i = 1; i < looks.length; i++) {
    const a = looks[i - 1] as Look;
    const b = looks[i] as Look;
    if (a.miss !== null && b.miss !== null) {
      if (a.miss > 0 === b.miss > 0) continue;
      const known = found.length;
      refine(a.headingDeg, b.headingDeg);
      // The look's long step can put a change of side just across a spacing: look one spacing to either side before giving it up.
      if (found.length === known) refine(a.headingDeg - LOOK_SPACING_DEG, b.headingDeg + LOOK_SPACING_DEG);
    } else if ((a.miss !== null && a.miss <= 0) || (b.miss !== null && b.miss > 0)) {
      // The way there may lie between a heading that arrives and one that runs off what is covered: halve toward the edge.
      let arrives = (a.miss === null ? b : a).headingDeg;
      let fails = (a.miss === null ? a : b).headingDeg;
      for (let halving = 0; halving < EDGE_HALVINGS; halving++) {
        const between = (arrives + fails) / 2;
        const miss = missAt(between, step);
        if (miss === null) fails = between;
        else if (miss > 0 === (a.miss === null)) arrives = between;
        else {
          refine(Math.min(arrives, between), Math.max(arrives, between));
          break;
        }
      }
    }
  }
  for (let i = 1; i + 1 < looks.length; i++) {
    // Where the miss comes close to nothing and turns away again two headings may lie within one spacing: look at the parabola's turn.
    const turnDeg = turnOfMiss(looks[i - 1] as Look, looks[i] as Look, looks[i + 1] as Look);
    if (turnDeg === null) continue;
    const miss = missAt(turnDeg, step);
    if (miss === null || miss > 0 === ((looks[i] as Look).miss as number) > 0) continue;
    refine((looks[i - 1] as Look).headingDeg, turnDeg);
    refine(turnDeg, (looks[i + 1] as Look).headingDeg);
  }
  found.sort((a, b) => a.arrivalAt - b.arrivalAt);
  return found.length > 0 ? { found, why: null } : { found, why: whyNone(looks, line, start) };
}

/** What a heading tried in the first look came to: its miss, or why it does not come abeam of the destination. */
interface Look {
  readonly headingDeg: number;
  readonly miss: number | null;
  readonly why: NoAnswer | null;
}

/** Where the parabola through three misses on one side turns back before it comes to nothing; null where they do not turn or change side. */
function turnOfMiss(a: Look, b: Look, c: Look): number | null {
  if (a.miss === null || b.miss === null || c.miss === null) return null;
  if (a.miss > 0 !== b.miss > 0 || b.miss > 0 !== c.miss > 0) return null;
  if (Math.abs(b.miss) > Math.abs(a.miss) || Math.abs(b.miss) > Math.abs(c.miss)) return null;
  const bend = a.miss - 2 * b.miss + c.miss;
  return bend === 0 ? null : b.headingDeg + ((a.miss - c.miss) / (2 * bend)) * LOOK_SPACING_DEG;
}

/** Why no heading leads there: what stopped the straightest, else the want of data on the side where the way there would lie, else the water. */
function whyNone(looks: readonly Look[], line: Line, start: BoatState): NoAnswer {
  const middle = (looks.length - 1) / 2;
  const straightest = looks[middle] as Look;
  if (straightest.why !== null) return straightest.why;
  const side = (straightest.miss as number) > 0;
  for (let i = middle; i >= 0 && i < looks.length; i += side ? -1 : 1) {
    const { miss, why } = looks[i] as Look;
    if (why !== null && "coveredUntil" in why) return why;
    if (miss === null || miss > 0 !== side) break;
  }
  return { kind: "noAnswer", code: "unreachable", at: start.at, where: line.plane.toPosition(start.xMetres, start.yMetres) };
}
