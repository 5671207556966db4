import type { NoAnswer } from "../answers/index.ts";
import type { BoatModel } from "../boat/index.ts";
import type { Crossing } from "./crossing.ts";
import type { BoatState, Helm, Until } from "./helm.ts";
import { type Line, lineBetween } from "./line.ts";
import type { Simulator } from "./simulate.ts";
import { type Track, TrackRecorder } from "./track.ts";

/** Whatever runs a boat as the simulator does: the simulator itself, or one that changes the order on the way. */
export type Runner = Pick<Simulator, "run">;

export interface LegPlan {
  readonly helm: Helm;
  readonly until: Until;
}

/** One leg to be run: the boat as she is then, and what she does, which may depend on where the leg begins; null: nothing is left to do. */
export interface Leg {
  readonly boat: BoatModel;
  plan(from: BoatState): LegPlan | NoAnswer | null;
}

export type LegsRun =
  | { readonly kind: "arrives"; readonly track: Track; readonly end: BoatState; readonly legEnds: readonly BoatState[] }
  | { readonly kind: "fails"; readonly why: NoAnswer };

/** Runs legs one after another into one track; the first that has no answer ends it. */
export function runLegs(crossing: Crossing, simulator: Runner, start: BoatState, legs: readonly Leg[]): LegsRun {
  const record = new TrackRecorder();
  const legEnds: BoatState[] = [];
  let state = start;
  for (const leg of legs) {
    const plan = leg.plan(state);
    if (plan !== null && "kind" in plan) return { kind: "fails", why: plan };
    if (plan !== null) {
      if (record.length > 0) record.dropLast();
      const end = simulator.run(leg.boat, plan.helm, plan.until, state, crossing.stepSeconds, record);
      if (end.kind === "noAnswer") return { kind: "fails", why: end };
      state = end;
    }
    legEnds.push(state);
  }
  return { kind: "arrives", track: record.finish(crossing.line.plane), end: state, legEnds };
}

/** Where the crossing begins. */
export function startOf(crossing: Crossing, departAt: number): BoatState {
  return { xMetres: crossing.line.fromX, yMetres: crossing.line.fromY, at: departAt, engineOn: false };
}

/** Nearer than this to the destination nothing is left to steer, metres. */
const NOTHING_LEFT_METRES = 1;

/** The straight line that is left from a state to the end of the crossing's line; null when the boat is there. */
export function restOf(line: Line, from: BoatState): Line | null {
  if (Math.hypot(line.toX - from.xMetres, line.toY - from.yMetres) < NOTHING_LEFT_METRES) return null;
  return lineBetween(line.plane, from.xMetres, from.yMetres, line.toX, line.toY);
}

/** A leg on which a helm is kept until a distance along a line. */
export function legAlong(boat: BoatModel, helm: Helm, line: Line, metres: number): Leg {
  return { boat, plan: () => ({ helm, until: { kind: "along", line, metres } }) };
}

/** A leg on which the straight track from wherever it begins to the end of the line is held. */
export function legOnTrackToEnd(boat: BoatModel, line: Line): Leg {
  return {
    boat,
    plan: (from) => {
      const rest = restOf(line, from);
      return rest === null
        ? null
        : { helm: { kind: "track", line: rest }, until: { kind: "along", line: rest, metres: rest.lengthMetres } };
    },
  };
}

/** A leg with the bow on the end of the line until it is reached. */
export function legBowOnEnd(boat: BoatModel, line: Line): Leg {
  const mark = { xMetres: line.toX, yMetres: line.toY };
  return { boat, plan: () => ({ helm: { kind: "bowOn", ...mark }, until: { kind: "at", ...mark } }) };
}
