import type { NoAnswer } from "../answers/index.ts";
import { hoveToModel, type Tack } from "../boat/index.ts";
import { degFromRad, wrap360Deg } from "../units/index.ts";
import type { Crossing } from "./crossing.ts";
import type { BoatState, Surroundings } from "./helm.ts";
import { zeroBetween } from "./root.ts";
import { RunsTo, type RunThere } from "./run-to.ts";
import { Simulator } from "./simulate.ts";
import { nodeAt, placeAt, type Track } from "./track.ts";
import type { WayArrives } from "./way.ts";

/** Sea room kept off the destination while lying to, metres: five miles (common practice: clear of the entrance, its marks and its traffic). */
export const STAND_OFF_METRES = 5 * 1852;
/** Letting draw is told to the minute: so near is near enough, seconds. */
const WITHIN_SECONDS = 1;

/** Lying to on the way until it is time to go on: from where, drifting whither, until when, and the run in from there. */
export interface LiesTo {
  readonly kind: "liesTo";
  readonly tack: Tack;
  readonly fromAt: number;
  readonly from: { readonly xMetres: number; readonly yMetres: number };
  /** When to let draw, and where she is by then. */
  readonly drawAt: number;
  readonly until: { readonly xMetres: number; readonly yMetres: number };
  readonly driftMetres: number;
  readonly driftTowardDegTrue: number;
  readonly run: Extract<RunThere, { readonly kind: "arrives" }>;
}

/** No such lying to, and why: land or unknown water to leeward, or no way back from where she drifts. */
export interface CannotLieTo {
  readonly kind: "fails";
  readonly tack: Tack;
  readonly fromAt: number;
  readonly why: NoAnswer;
}

/**
 * Lies to on one tack so as to arrive at `arriveAt`, which is later than the way's own arrival: from where `STAND_OFF_METRES` are left to
 * go, or where the stream is left, whichever is later. `around` needs a wind. Limits are not judged.
 */
export function lieTo(crossing: Crossing, around: Surroundings, way: WayArrives, arriveAt: number, tack: Tack): LiesTo | CannotLieTo {
  const { line, boat } = crossing;
  const place = { xMetres: line.toX, yMetres: line.toY };
  const fromAt = lieFrom(way, place);
  const from = placeAt(way.track, fromAt);
  const hoveTo = hoveToModel(tack);
  const simulator = new Simulator(around);
  const home = new RunsTo(crossing, boat, place, boat.dependsOnWind ? around : crossing.around);
  const start: BoatState = { ...from, at: fromAt, engineOn: false };
  const lookAt = (drawAt: number): { readonly until: BoatState; readonly run: LiesTo["run"] } | NoAnswer => {
    const until = simulator.run(
      hoveTo,
      { kind: "bowOn", ...place },
      { kind: "at", ...place, byAt: drawAt },
      start,
      crossing.stepSeconds,
      null,
    );
    if (until.kind === "noAnswer") return until;
    const run = home.from(until.xMetres, until.yMetres, drawAt);
    return run.kind === "fails" ? run.why : { until, run };
  };
  let why: NoAnswer | null = null;
  const lateSeconds = (drawAt: number): number => {
    const look = lookAt(drawAt);
    if ("run" in look) return look.run.arrivalAt - arriveAt;
    why ??= look;
    return 0;
  };
  const [low, high] = [lateSeconds(fromAt), lateSeconds(arriveAt)];
  const drawAt = why === null ? (low >= 0 ? fromAt : zeroBetween(lateSeconds, fromAt, arriveAt, low, high, 0, WITHIN_SECONDS)) : fromAt;
  const look = lookAt(drawAt);
  if (why !== null || !("run" in look)) return { kind: "fails", tack, fromAt, why: why ?? (look as NoAnswer) };
  const { until, run } = look;
  const [dx, dy] = [until.xMetres - from.xMetres, until.yMetres - from.yMetres];
  const sheetDeg = degFromRad(Math.atan2(dx, dy));
  return {
    kind: "liesTo",
    tack,
    fromAt,
    from,
    drawAt,
    until: { xMetres: until.xMetres, yMetres: until.yMetres },
    driftMetres: Math.hypot(dx, dy),
    driftTowardDegTrue: wrap360Deg(sheetDeg + around.plane.convergenceDegAt(from.xMetres, from.yMetres)),
    run,
  };
}

/** When she is at the place to lie to. */
function lieFrom({ track, clear, departAt }: WayArrives, to: { readonly xMetres: number; readonly yMetres: number }): number {
  const toGo = (at: number): number => {
    const { xMetres, yMetres } = placeAt(track, at);
    return Math.hypot(to.xMetres - xMetres, to.yMetres - yMetres);
  };
  const near = firstNear(track, toGo);
  return Math.max(near, clear?.at ?? departAt);
}

/** The instant from which on she stays within the stand-off distance. */
function firstNear(track: Track, toGo: (at: number) => number): number {
  const first = track.atSeconds[0] as number;
  const last = track.atSeconds[track.count - 1] as number;
  if (toGo(first) <= STAND_OFF_METRES) return first;
  let node = nodeAt(track, last);
  while (node > 0 && toGo(track.atSeconds[node - 1] as number) <= STAND_OFF_METRES) node--;
  const [from, until] = [track.atSeconds[node - 1] as number, track.atSeconds[node] as number];
  const over = (at: number): number => toGo(at) - STAND_OFF_METRES;
  return zeroBetween(over, from, until, over(from), over(until), 0, 1);
}
