import {
  type Crossing,
  carryOut,
  crossingOf,
  lineBetween,
  mendedInTime,
  offOf,
  oneHeading,
  outsideLanes,
  pointAt,
  runnerFor,
  Simulator,
  squareInLanes,
  startOf,
  turnsAcross,
  type WayArrives,
} from "../passage/index.ts";
import { metresFromNm } from "../units/index.ts";
import { scaledCurrent } from "../water/index.ts";
import { TOTAL_SPREAD_SHARE } from "../window/index.ts";
import { normalChanceAbove } from "./normal-chance.ts";

/** Miles up-stream of the destination that are aimed for, nm. */
export const BIAS_NM = [0, 1, 2, 3, 4] as const;
/** Strengths of the stream between which the one that brings the boat just to the destination is sought, shares of what was foretold. */
const WEAKEST_SHARE = 0;
const STRONGEST_SHARE = 3;
const SHARE_WITHIN = 1e-6;

/** Aiming so far up-stream of the destination. */
export interface BiasRow {
  readonly biasMetres: number;
  readonly headingDegTrue: number;
  /** Later than without bias, the stream being as foretold and the course mended when clear of it. */
  readonly costSeconds: number;
  /** The chance, 0 to 1, that on this heading she comes abeam of the destination down-stream of it. */
  readonly downStreamChance: number;
}

export interface UpStreamBias {
  readonly spreadShare: number;
  /** One for each of `BIAS_NM` that a heading leads to; the first is without bias. */
  readonly rows: readonly BiasRow[];
}

/**
 * The price of up-stream bias and what it buys: the order aims at a place so many miles up-stream of the destination, square to the line; with
 * the stream as foretold the course is mended when clear of it, or at the latest after `MEND_FROM_SHARE` of the line, which tells the minutes. For the chance the heading is held
 * until abeam of the destination with the whole stream at f times what was foretold: beyond one f she ends down-stream, and f is taken
 * as normal about 1 with `spreadShare`. `way` is one heading or square in the lanes. Null where the stream turns while she crosses:
 * then it is not its total that is uncertain.
 */
export function upStreamBias(
  crossing: Crossing,
  way: WayArrives,
  downStreamSide: 1 | -1,
  spreadShare: number = TOTAL_SPREAD_SHARE,
): UpStreamBias | null {
  const { line } = crossing;
  const { name, departAt } = way;
  if (name !== "oneHeading" && name !== "squareInLanes") throw new Error(`there is no bias to ${name}`);
  if (turnsAcross(way.track, line)) return null;
  const rows: BiasRow[] = [];
  let unbiasedAt: number | null = null;
  for (const nm of BIAS_NM) {
    const biasMetres = metresFromNm(nm);
    const aim = pointAt(line, line.lengthMetres, -biasMetres * downStreamSide);
    const toAim = lineBetween(line.plane, line.fromX, line.fromY, aim.xMetres, aim.yMetres);
    const aimed = crossingOf(toAim, crossing.around, crossing.boat, crossing.stepSeconds, crossing.engineStopped);
    const biased = nm === 0 ? way : (name === "oneHeading" ? oneHeading : squareInLanes)(aimed, departAt, { earliestOnly: true });
    if (biased.kind === "fails") break;
    const steer = outsideLanes(biased);
    if (steer?.kind !== "heading") throw new Error(`way ${name} has no heading`);
    const { run } = carryOut(crossing, mendedInTime(biased, line.lengthMetres), {});
    if (run.kind === "fails") break;
    unbiasedAt ??= run.end.at;
    const brings = shareThatBrings(crossing, biased, steer.headingDegTrue, downStreamSide);
    rows.push({
      biasMetres,
      headingDegTrue: steer.headingDegTrue,
      costSeconds: run.end.at - unbiasedAt,
      downStreamChance: normalChanceAbove((brings - 1) / spreadShare),
    });
  }
  return { spreadShare, rows };
}

/** The strength of the stream beyond which the heading ends down-stream: its bound where it always or never does. */
function shareThatBrings(crossing: Crossing, way: WayArrives, headingDegTrue: number, downStreamSide: 1 | -1): number {
  const { line, boat, stepSeconds } = crossing;
  const until = { kind: "along", line, metres: line.lengthMetres } as const;
  const endsDown = (share: number): boolean => {
    const scaled = new Simulator({ ...crossing.around, current: scaledCurrent(crossing.around.current, share) });
    const runner = runnerFor(crossing, way.name, scaled);
    const end = runner.run(boat, { kind: "heading", headingDegTrue }, until, startOf(crossing, way.departAt), stepSeconds, null);
    // Carried away or stopped in a stream that strong, she is not up-stream of anything.
    return end.kind === "noAnswer" ? share > 1 : offOf(line, end.xMetres, end.yMetres) * downStreamSide > 0;
  };
  let low = WEAKEST_SHARE;
  let high = STRONGEST_SHARE;
  if (endsDown(low)) return low;
  if (!endsDown(high)) return high;
  while (high - low > SHARE_WITHIN) {
    const middle = (low + high) / 2;
    if (endsDown(middle)) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
