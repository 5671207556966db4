import type { NoAnswer } from "../../answers/index.ts";
import { degFromRad, radFromDeg, wrap360Deg } from "../../units/index.ts";
import type { Crossing } from "../crossing.ts";
import type { BoatState, Until } from "../helm.ts";
import { alongOf } from "../line.ts";
import { type Leg, runLegs, startOf } from "../run-legs.ts";
import type { Track } from "../track.ts";
import type { HelmOrder } from "../way.ts";
import { oneHeading } from "../ways.ts";
import type { FastestArrives } from "./fastest-answer.ts";

/** An order made from the fastest way: headings, each held for at least the time chosen, that lead to the destination. */
export type HeldHeadings =
  | {
      readonly kind: "order";
      readonly orders: readonly HelmOrder[];
      readonly arrivalAt: number;
      /** What it loses against the fastest way. */
      readonly lossSeconds: number;
      readonly track: Track;
    }
  | { readonly kind: "fails"; readonly why: NoAnswer };

/** A heading is turned by so much to feel where it leads, degrees. */
const FEEL_DEG = 0.02;
/** Headings lead there when they end within so many metres, and are the best when none changes by more than so many degrees. */
const CLOSE_ENOUGH_METRES = 0.2;
const SETTLED_DEG = 0.002;
const MOST_ROUNDS = 40;
/** Headings that have not settled by then are only made to arrive. */
const ROUNDS_FOR_THE_BEST = 28;
/** A miss may grow while it is no more than this, metres; beyond this share of the line the miss alone is mended. */
const FREE_MISS_METRES = 500;
const FAR_MISS_SHARE = 0.02;
/** No heading changes by more than this in one round, degrees. */
const MOST_TURN_DEG = 20;
/** Farther than any leg: legs that end by the clock. */
const BEYOND_ALL_METRES = 1e9;

/**
 * Headings that are each held for `leastHoldSeconds` (the last for less than twice as long), the best such: Newton's method on the
 * headings and the time together, for the least time under the condition of arriving (Lagrange), each heading's own curvature being that
 * of a straight run. One heading where the passage is too short for two. Fails where the order leads nowhere or across land.
 */
export function helmOrder(crossing: Crossing, fastest: FastestArrives, leastHoldSeconds: number): HeldHeadings {
  if (!(leastHoldSeconds > 0)) throw new Error(`a heading must be held for some time: ${leastHoldSeconds} s`);
  const seconds = fastest.arrivalAt - fastest.departAt;
  const count = Math.max(1, Math.floor(seconds / leastHoldSeconds));
  if (count === 1) return single(crossing, fastest);
  const switches = Array.from({ length: count }, (_, k) => k * leastHoldSeconds);
  const headings = switches.map((from, k) => meanHeadingDeg(fastest, from, k + 1 < count ? from + leastHoldSeconds : seconds));
  const solved = new HeadingsSolver(crossing, fastest, switches).solve(headings, seconds);
  if ("kind" in solved) return { kind: "fails", why: solved };
  return carriedOut(crossing, fastest, switches, solved);
}

function single(crossing: Crossing, fastest: FastestArrives): HeldHeadings {
  const way = oneHeading(crossing, fastest.departAt);
  if (way.kind === "fails") return { kind: "fails", why: way.why };
  const { orders, arrivalAt, track } = way;
  return { kind: "order", orders, arrivalAt, lossSeconds: arrivalAt - fastest.arrivalAt, track };
}

/** Of unit vectors, by the time each is steered; degrees true. */
function meanHeadingDeg({ track, departAt }: FastestArrives, fromSeconds: number, untilSeconds: number): number {
  let east = 0;
  let north = 0;
  for (let i = 0; i + 1 < track.count; i++) {
    const from = Math.max(fromSeconds, (track.atSeconds[i] as number) - departAt);
    const until = Math.min(untilSeconds, (track.atSeconds[i + 1] as number) - departAt);
    if (until <= from) continue;
    const headingRad = radFromDeg(track.headingDegTrue[i] as number);
    east += (until - from) * Math.sin(headingRad);
    north += (until - from) * Math.cos(headingRad);
  }
  return wrap360Deg(degFromRad(Math.atan2(east, north)));
}

const untilClock = (crossing: Crossing, byAt: number): Until => ({
  kind: "along",
  line: crossing.line,
  metres: BEYOND_ALL_METRES,
  byAt,
});

/** Two ways of moving the end closer in direction than this, squared sines, are one. */
const LEAST_TOLD_APART = 1e-12;

class HeadingsSolver {
  private readonly crossing: Crossing;
  private readonly departAt: number;
  private readonly switches: readonly number[];
  private readonly speedMps: number;
  private starts: BoatState[] = [];

  constructor(crossing: Crossing, fastest: FastestArrives, switches: readonly number[]) {
    this.crossing = crossing;
    this.departAt = fastest.departAt;
    this.switches = switches;
    this.speedMps = fastest.throughWaterMetres / (fastest.arrivalAt - fastest.departAt);
  }

  /** The best headings, degrees true, from a first guess of them and of the time. */
  solve(firstGuessDeg: readonly number[], firstSeconds: number): readonly number[] | NoAnswer {
    const { line, stepSeconds } = this.crossing;
    const headings = [...firstGuessDeg];
    const count = headings.length;
    let seconds = firstSeconds;
    let leadX = -line.alongX / this.speedMps;
    let leadY = -line.alongY / this.speedMps;
    let turns: readonly number[] = headings.map(() => 0);
    let moreSeconds = 0;
    let stiffness = 1;
    let meritBefore = Number.POSITIVE_INFINITY;
    let missBefore = Number.POSITIVE_INFINITY;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const end = this.endOf(headings, 0, seconds, null);
      const missX = "kind" in end ? Number.POSITIVE_INFINITY : end.xMetres - line.toX;
      const missY = "kind" in end ? Number.POSITIVE_INFINITY : end.yMetres - line.toY;
      const miss = Math.sqrt(missX * missX + missY * missY);
      if ("kind" in end || miss > Math.max(missBefore, FREE_MISS_METRES)) {
        // Worse than before: half the way back.
        if ("kind" in end && round === 0) return end;
        turns = turns.map((turn) => turn / 2);
        moreSeconds /= 2;
        for (let k = 0; k < count; k++) headings[k] = (headings[k] as number) - (turns[k] as number);
        seconds -= moreSeconds;
        continue;
      }
      missBefore = miss;
      const merit = seconds + miss / this.speedMps;
      if (merit > meritBefore) stiffness *= 2;
      meritBefore = merit;
      const starts = this.starts;
      const later = this.endOf(headings, count - 1, seconds + stepSeconds / 10, starts);
      if ("kind" in later) return later;
      const goX = (later.xMetres - end.xMetres) / (stepSeconds / 10);
      const goY = (later.yMetres - end.yMetres) / (stepSeconds / 10);
      // By heading k the end moves by (sx, sy) metres a radian; curvature as of a straight run of that length.
      const byHeading: { readonly sx: number; readonly sy: number; readonly curvature: number }[] = [];
      let axx = 0;
      let axy = 0;
      let ayy = 0;
      for (let k = 0; k < count; k++) {
        const turned = headings.map((heading, i) => (i === k ? heading + FEEL_DEG : heading));
        const felt = this.endOf(turned, k, seconds, starts);
        if ("kind" in felt) return felt;
        const sx = (felt.xMetres - end.xMetres) / radFromDeg(FEEL_DEG);
        const sy = (felt.yMetres - end.yMetres) / radFromDeg(FEEL_DEG);
        const held = (k + 1 < count ? (this.switches[k + 1] as number) : seconds) - (this.switches[k] as number);
        const start = starts[k] as BoatState;
        const sheetRad = radFromDeg((headings[k] as number) - line.plane.convergenceDegAt(start.xMetres, start.yMetres));
        const ahead = -(leadX * Math.sin(sheetRad) + leadY * Math.cos(sheetRad)) * this.speedMps * held;
        const curvature = stiffness * Math.max(ahead, 0.1 * held);
        byHeading.push({ sx, sy, curvature });
        axx += (sx * sx) / curvature;
        axy += (sx * sy) / curvature;
        ayy += (sy * sy) / curvature;
      }
      // Headings that are all alike move the end along one line only: across it as stiffly as can be told apart.
      if (axx * ayy - axy * axy <= LEAST_TOLD_APART * axx * ayy) {
        const little = LEAST_TOLD_APART * (axx + ayy);
        axx += little;
        ayy += little;
      }
      const determinant = axx * ayy - axy * axy;
      const inverse = (x: number, y: number) => [(ayy * x - axy * y) / determinant, (axx * y - axy * x) / determinant] as const;
      const [mx, my] = inverse(missX, missY);
      const [gx, gy] = inverse(goX, goY);
      // Far from the destination the headings are first brought there, with least turning.
      const wanted = miss > FAR_MISS_SHARE * line.lengthMetres || round >= ROUNDS_FOR_THE_BEST ? 0 : 1;
      moreSeconds = -(wanted + goX * mx + goY * my) / (goX * gx + goY * gy);
      leadX = mx + gx * moreSeconds;
      leadY = my + gy * moreSeconds;
      turns = byHeading.map(({ sx, sy, curvature }) => -degFromRad((leadX * sx + leadY * sy) / curvature));
      const greatest = Math.max(...turns.map(Math.abs));
      if ((greatest < SETTLED_DEG || wanted === 0) && miss < CLOSE_ENOUGH_METRES) return headings;
      const share = Math.min(1, MOST_TURN_DEG / greatest);
      turns = turns.map((turn) => share * turn);
      moreSeconds *= share;
      for (let k = 0; k < count; k++) headings[k] = (headings[k] as number) + (turns[k] as number);
      seconds += moreSeconds;
      if (wanted === 0) [leadX, leadY] = [-goX / (goX * goX + goY * goY), -goY / (goX * goX + goY * goY)];
    }
    const where = line.plane.toPosition(line.fromX, line.fromY);
    return { kind: "noAnswer", code: "unreachable", at: this.departAt, where };
  }

  /** Where the headings lead in so many seconds, from leg `firstLeg` on whose start is known; keeps where the legs start. */
  private endOf(
    headingsDeg: readonly number[],
    firstLeg: number,
    seconds: number,
    known: readonly BoatState[] | null,
  ): BoatState | NoAnswer {
    const { crossing, departAt, switches } = this;
    let state: BoatState = known?.[firstLeg] ?? startOf(crossing, departAt);
    const starts: BoatState[] = [];
    for (let k = firstLeg; k < headingsDeg.length; k++) {
      starts.push(state);
      const byAt = departAt + (k + 1 < headingsDeg.length ? (switches[k + 1] as number) : seconds);
      const helm = { kind: "heading", headingDegTrue: wrap360Deg(headingsDeg[k] as number) } as const;
      const end = crossing.simulator.run(crossing.boat, helm, untilClock(crossing, byAt), state, crossing.stepSeconds, null);
      if (end.kind === "noAnswer") return end;
      state = { xMetres: end.xMetres, yMetres: end.yMetres, at: end.at, engineOn: end.engineOn };
    }
    if (known === null) this.starts = starts;
    return state;
  }
}

function carriedOut(
  crossing: Crossing,
  fastest: FastestArrives,
  switches: readonly number[],
  headingsDeg: readonly number[],
): HeldHeadings {
  const { line, boat, simulator } = crossing;
  const { departAt } = fastest;
  const orders: HelmOrder[] = [];
  const legs = headingsDeg.map((heading, k): Leg => {
    const steer = { kind: "heading", headingDegTrue: wrap360Deg(heading) } as const;
    const next = switches[k + 1];
    return {
      boat,
      plan: (from) => {
        orders.push({ fromAt: from.at, fromAlongMetres: alongOf(line, from.xMetres, from.yMetres), steer });
        const until: Until =
          next === undefined ? { kind: "along", line, metres: line.lengthMetres } : untilClock(crossing, departAt + next);
        return { helm: steer, until };
      },
    };
  });
  const run = runLegs(crossing, simulator, startOf(crossing, departAt), legs);
  if (run.kind === "fails") return run;
  return { kind: "order", orders, arrivalAt: run.end.at, lossSeconds: run.end.at - fastest.arrivalAt, track: run.track };
}
