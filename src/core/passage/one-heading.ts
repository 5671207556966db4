import type { NoAnswer } from "../answers/index.ts";
import type { BoatModel } from "../boat/index.ts";
import { wrap360Deg } from "../units/index.ts";
import type { BoatState } from "./helm.ts";
import { type Line, offOf } from "./line.ts";
import { zeroBetween } from "./root.ts";
import type { Runner } from "./run-legs.ts";
import type { LegEnd } from "./simulate.ts";

/** Headings are sought within this of the line's bearing, degrees. */
export const WIDEST_HEADING_DEG = 85;
/** The spacing of the first look, degrees: only to find where the miss changes side. */
const LOOK_SPACING_DEG = 5;
/** The look's step: some twenty to a passage at the boat's own speed, at most half an hour. */
const LOOK_STEPS = 20;
const LONGEST_LOOK_STEP_SECONDS = 1800;
/** A boat slower than this is looked at as if she made it, m/s. */
const SLOWEST_LOOK_MPS = 1;
/** Where only the earliest is wanted, headings farther off than this are looked at second, and given up when they come too late. */
const LIKELY_HEADING_DEG = 45;
/** How often the gap between a heading that arrives and one that does not is halved: to less than a tenth of a degree. */
const EDGE_HALVINGS = 6;
/** A heading is found when it misses by no more than this, metres. */
const CLOSE_ENOUGH_METRES = 1e-3;
/**
 * Where the engine goes on or off, or the sails cease to draw, the least turn of the heading can move the end: a jump over the destination
 * counts as leading there when it lands within this share of the line, about a cable in fifty miles, which no helm can steer.
 */
export const JUMP_MAY_MISS_SHARE = 2e-3;

/** A heading that, held from here, leads to the line's end. */
export interface HeadingFound {
  readonly headingDegTrue: number;
  readonly arrivalAt: number;
}

export interface HeadingSearch {
  readonly near?: number;
  readonly earliestOnly?: boolean;
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
 * headings within one interval that all lead there some may be overlooked. A heading whose track crosses land leads nowhere; when none
 * but such are found, `why` tells of the land.
 *
 * `near` (degrees): only the change of side nearest to that heading is sought, for runs that differ little from one already known.
 * `earliestOnly`: headings that come later than one already found are passed over; the first of `found` is the same, the others may be wanting.
 */
export function findHeadings(
  simulator: Runner,
  boat: BoatModel,
  line: Line,
  start: BoatState,
  stepSeconds: number,
  options: HeadingSearch = {},
): HeadingsFound {
  const { near, earliestOnly = false } = options;
  const centreDeg = line.sheetDeg + line.plane.convergenceDegAt(start.xMetres, start.yMetres);
  const end = { kind: "along", line, metres: line.lengthMetres } as const;
  let last: LegEnd | null = null;
  // Headings are sought as if there were no land, so that an islet between two of them hides none; one that is found must lead clear of it.
  const missAt = (headingDegTrue: number, step: number, giveUpAt?: number, heedLand = false): number | null => {
    last = simulator.run(boat, { kind: "heading", headingDegTrue }, end, start, step, null, giveUpAt, heedLand);
    return last.kind === "reached" ? offOf(line, last.xMetres, last.yMetres) : null;
  };
  const found: HeadingFound[] = [];
  let ashore: NoAnswer | null = null;
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
    const miss = missAt(headingDeg, stepSeconds, undefined, true);
    const met = last as LegEnd | null;
    if (met?.kind === "noAnswer" && met.code === "across-land") ashore = ashore === null || met.at < ashore.at ? met : ashore;
    if (miss === null || Math.abs(miss) > JUMP_MAY_MISS_SHARE * line.lengthMetres || last === null || last.kind !== "reached") return;
    found.push({ headingDegTrue: wrap360Deg(headingDeg), arrivalAt: last.at });
  };
  if (near !== undefined) {
    const nearest = centreDeg + (((near - centreDeg + 540) % 360) - 180);
    for (let reach = 1; reach <= 16 && found.length === 0; reach *= 4) refine(nearest - reach, nearest + reach);
    if (found.length > 0) return { found, why: null };
  }
  const step = Math.max(stepSeconds, Math.min(LONGEST_LOOK_STEP_SECONDS, line.lengthMetres / SLOWEST_LOOK_MPS / LOOK_STEPS));
  const look = (fromDeg: number, untilDeg: number, giveUpAt?: number): Look[] => {
    const looks: Look[] = [];
    for (let offDeg = fromDeg; offDeg <= untilDeg; offDeg += LOOK_SPACING_DEG) {
      const miss = missAt(centreDeg + offDeg, step, giveUpAt);
      const tooLate = miss === null && giveUpAt !== undefined && (last as NoAnswer | null)?.code === "stalled";
      looks.push({ headingDeg: centreDeg + offDeg, miss, tooLate, why: miss === null ? (last as NoAnswer | null) : null });
    }
    return looks;
  };
  const search: Search = { missAt: (headingDeg) => missAt(headingDeg, step), refine, known: () => found.length };
  let looks: readonly Look[];
  if (earliestOnly) {
    const likely = look(-LIKELY_HEADING_DEG, LIKELY_HEADING_DEG);
    followUp(likely, search);
    const giveUpAt = found.length === 0 ? undefined : Math.min(...found.map((one) => one.arrivalAt));
    const first = likely[0] as Look;
    const last = likely[likely.length - 1] as Look;
    const left = look(-WIDEST_HEADING_DEG, -LIKELY_HEADING_DEG - LOOK_SPACING_DEG, giveUpAt);
    const right = look(LIKELY_HEADING_DEG + LOOK_SPACING_DEG, WIDEST_HEADING_DEG, giveUpAt);
    followUp([...left, first], search);
    followUp([last, ...right], search);
    looks = [...left, ...likely, ...right];
  } else {
    looks = look(-WIDEST_HEADING_DEG, WIDEST_HEADING_DEG);
    followUp(looks, search);
  }
  found.sort((a, b) => a.arrivalAt - b.arrivalAt);
  if (found.length > 0) return { found, why: null };
  if (ashore !== null) return { found, why: ashore };
  const telling = tellingLook(looks);
  // The look strides: what stopped it is told from a run with the proper step.
  if (telling !== null && missAt(telling.headingDeg, stepSeconds, undefined, true) === null) return { found, why: last };
  const where = line.plane.toPosition(start.xMetres, start.yMetres);
  return { found, why: telling?.why ?? { kind: "noAnswer", code: "unreachable", at: start.at, where } };
}

/** What a heading tried in the first look came to: its miss, or why it does not come abeam of the destination. */
interface Look {
  readonly headingDeg: number;
  readonly miss: number | null;
  /** Given up because it can't be the earliest any more. */
  readonly tooLate: boolean;
  readonly why: NoAnswer | null;
}

interface Search {
  missAt(headingDeg: number): number | null;
  refine(lowDeg: number, highDeg: number): void;
  known(): number;
}

/** Follows up neighbouring looks: changes of side, edges of what is covered, and turns of the miss near nothing. */
function followUp(looks: readonly Look[], { missAt, refine, known }: Search): void {
  for (let i = 1; i < looks.length; i++) {
    const a = looks[i - 1] as Look;
    const b = looks[i] as Look;
    if (a.tooLate || b.tooLate) continue;
    if (a.miss !== null && b.miss !== null) {
      if (a.miss > 0 === b.miss > 0) continue;
      const before = known();
      refine(a.headingDeg, b.headingDeg);
      // The look's long step can put a change of side just across a spacing: look one spacing to either side before giving it up.
      if (known() === before) refine(a.headingDeg - LOOK_SPACING_DEG, b.headingDeg + LOOK_SPACING_DEG);
    } else if ((a.miss !== null && a.miss <= 0) || (b.miss !== null && b.miss > 0)) {
      // The way there may lie between a heading that arrives and one that runs off what is covered: halve toward the edge.
      let arrives = (a.miss === null ? b : a).headingDeg;
      let fails = (a.miss === null ? a : b).headingDeg;
      for (let halving = 0; halving < EDGE_HALVINGS; halving++) {
        const between = (arrives + fails) / 2;
        const miss = missAt(between);
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
    const miss = missAt(turnDeg);
    if (miss === null || miss > 0 === ((looks[i] as Look).miss as number) > 0) continue;
    refine((looks[i - 1] as Look).headingDeg, turnDeg);
    refine(turnDeg, (looks[i + 1] as Look).headingDeg);
  }
}

/** Where the parabola through three misses on one side turns back before it comes to nothing; null where they do not turn or change side. */
function turnOfMiss(a: Look, b: Look, c: Look): number | null {
  if (a.miss === null || b.miss === null || c.miss === null) return null;
  if (a.miss > 0 !== b.miss > 0 || b.miss > 0 !== c.miss > 0) return null;
  if (Math.abs(b.miss) > Math.abs(a.miss) || Math.abs(b.miss) > Math.abs(c.miss)) return null;
  const bend = a.miss - 2 * b.miss + c.miss;
  return bend === 0 ? null : b.headingDeg + ((a.miss - c.miss) / (2 * bend)) * LOOK_SPACING_DEG;
}

/** The look that tells why no heading leads there: the straightest if it is stopped, else the nearest on the side of the way there that wants data; null: the water. */
function tellingLook(looks: readonly Look[]): Look | null {
  const middle = (looks.length - 1) / 2;
  const straightest = looks[middle] as Look;
  if (straightest.why !== null) return straightest;
  const side = (straightest.miss as number) > 0;
  for (let i = middle; i >= 0 && i < looks.length; i += side ? -1 : 1) {
    const look = looks[i] as Look;
    if (look.why !== null && "coveredUntil" in look.why) return look;
    if (look.miss === null || look.miss > 0 !== side) break;
  }
  return null;
}
