import type { NoAnswer } from "../answers/index.ts";
import type { BoatModel } from "../boat/index.ts";
import { RAD_PER_DEG, turnDeg, wrap360Deg } from "../units/index.ts";
import { type Crossing, crossingOf } from "./crossing.ts";
import { type FastestArrives, fastestWay } from "./fastest/index.ts";
import { headingNear } from "./heading-near.ts";
import type { BoatState, Surroundings } from "./helm.ts";
import { alongOf, type Line, lineBetween } from "./line.ts";
import { findHeadings, type HeadingFound } from "./one-heading.ts";
import { Simulator } from "./simulate.ts";
import { sumsOf, TrackRecorder } from "./track.ts";
import type { HelmOrder } from "./way.ts";

/**
 * A way from anywhere to one place: one heading, or where none leads there the fastest way, of which `orders` are the headings as it turns:
 * enough to see where it goes, not to be held step by step.
 */
export type RunThere =
  | {
      readonly kind: "arrives";
      readonly by: "oneHeading" | "fastest";
      readonly departAt: number;
      readonly arrivalAt: number;
      readonly orders: readonly HelmOrder[];
      readonly fuelLitres: number;
    }
  | { readonly kind: "fails"; readonly departAt: number; readonly why: NoAnswer };

/** Nearer than this to the place the boat is there, metres: a boat's length or two. */
const THERE_METRES = 20;
/**
 * From one hour to the next the heading to a place turns little, so that it is sought near where the last ones point; every so many runs
 * it is sought afresh all round, in case another heading has become the earlier.
 */
const FRESH_EVERY = 6;

/** On the fastest way the helm is told a new heading when it has turned so far from the last one told, degrees, or so long after it, seconds. */
const TOLD_TURN_DEG = 10;
const TOLD_AFTER_SECONDS = 3600;

/**
 * Runs to one place from anywhere, one after another. Holds the headings of its last runs; runs in order of time are the quickest.
 * `orFastest`: where no single heading leads there the fastest way is sought.
 */
export class RunsTo {
  private readonly around: Surroundings;
  private readonly boat: BoatModel;
  private readonly place: { readonly xMetres: number; readonly yMetres: number };
  private readonly simulator: Simulator;
  private readonly stepSeconds: number;
  private readonly orFastest: boolean;
  private sinceFresh = 0;
  /** How much the miss changes for each degree of heading and second of a run, m/(° s); null before the first run. */
  private missRate: number | null = null;
  /** How far the heading lay from the bearing of the place, degrees, at the last runs that arrived: at most two, each with its instant. */
  private leans: { readonly at: number; readonly deg: number }[] = [];

  constructor(
    crossing: Crossing,
    boat: BoatModel,
    place: { readonly xMetres: number; readonly yMetres: number },
    around: Surroundings = crossing.around,
    orFastest = true,
  ) {
    this.around = around;
    this.boat = boat;
    this.place = place;
    this.simulator = around === crossing.around ? crossing.simulator : new Simulator(around);
    this.stepSeconds = crossing.stepSeconds;
    this.orFastest = orFastest;
  }

  /** The way there from a place on the plane at an instant. */
  from(xMetres: number, yMetres: number, at: number): RunThere {
    const { plane } = this.around;
    if (Math.hypot(this.place.xMetres - xMetres, this.place.yMetres - yMetres) < THERE_METRES) {
      return { kind: "arrives", by: "oneHeading", departAt: at, arrivalAt: at, orders: [], fuelLitres: 0 };
    }
    const line = lineBetween(plane, xMetres, yMetres, this.place.xMetres, this.place.yMetres);
    const start: BoatState = { xMetres, yMetres, at, engineOn: false };
    const bearingDegTrue = line.sheetDeg + plane.convergenceDegAt(xMetres, yMetres);
    let best: HeadingFound | null = this.sinceFresh < FRESH_EVERY ? this.near(line, start, bearingDegTrue) : null;
    this.sinceFresh = best === null ? 1 : this.sinceFresh + 1;
    if (best === null) {
      const { found, why } = findHeadings(this.simulator, this.boat, line, start, this.stepSeconds, { earliestOnly: true });
      best = found[0] ?? null;
      if (best === null) {
        this.leans = [];
        return this.byFastest(line, at, why as NoAnswer);
      }
      // A first rate: as if she went straight there at the speed that she made good.
      this.missRate ??= (line.lengthMetres / Math.max(1, best.arrivalAt - at)) * RAD_PER_DEG;
    }
    this.leans = [...this.leans, { at, deg: turnDeg(bearingDegTrue, best.headingDegTrue) }].slice(-2);
    const steer = { kind: "heading", headingDegTrue: best.headingDegTrue } as const;
    return {
      kind: "arrives",
      by: "oneHeading",
      departAt: at,
      arrivalAt: best.arrivalAt,
      orders: [{ fromAt: at, fromAlongMetres: 0, steer }],
      fuelLitres: this.fuelLitres(line, start, best.headingDegTrue, best.arrivalAt),
    };
  }

  /** The heading near where the last ones point; null where there were none, or it is not found there. */
  private near(line: Line, start: BoatState, bearingDegTrue: number): HeadingFound | null {
    const lean = this.expectedLean(start.at);
    if (lean === null || this.missRate === null) return null;
    const guessDegTrue = wrap360Deg(bearingDegTrue + lean);
    const found = headingNear(this.simulator, this.boat, line, start, this.stepSeconds, guessDegTrue, this.missRate);
    if (found !== null) this.missRate = found.missRate;
    return found;
  }

  /** Where the last two leans point, or the last one alone; null where there is none. */
  private expectedLean(at: number): number | null {
    const [before, last] = this.leans.length === 2 ? this.leans : [undefined, this.leans[0]];
    if (last === undefined) return null;
    if (before === undefined || !(last.at > before.at)) return last.deg;
    return last.deg + ((at - last.at) / (last.at - before.at)) * (last.deg - before.deg);
  }

  /** Where the water or the land, and not what is known of them, stops a single heading, the fastest way may lead there all the same. */
  private byFastest(line: Line, at: number, why: NoAnswer): RunThere {
    if (!this.orFastest || "coveredUntil" in why) return { kind: "fails", departAt: at, why };
    const crossing = { ...crossingOf(line, this.around, this.boat, this.stepSeconds), simulator: this.simulator };
    const way = fastestWay(crossing, at, { crossCheck: false });
    if (way.kind === "fails") return way;
    if (way.underSail === null) {
      const { arrivalAt, fuelLitres } = way;
      return { kind: "arrives", by: "fastest", departAt: at, arrivalAt, orders: ordersOn(way, line), fuelLitres };
    }
    // Under sail she is there by the plan: boards kept and tacks paid for.
    const { plan } = way.underSail;
    if (plan.kind === "fails") return { kind: "fails", departAt: at, why: plan.why };
    const orders = plan.boards.map(
      (board): HelmOrder => ({
        fromAt: board.fromAt,
        fromAlongMetres: board.alongMetres,
        steer: { kind: "heading", headingDegTrue: board.headingDegTrue },
      }),
    );
    return { kind: "arrives", by: "fastest", departAt: at, arrivalAt: plan.arrivalAt, orders, fuelLitres: plan.fuelLitres };
  }

  /** A boat that the wind does not move burns the same all the way; another is run once more to see when her engine goes. */
  private fuelLitres(line: Line, start: BoatState, headingDegTrue: number, arrivalAt: number): number {
    if (!this.boat.dependsOnWind) {
      const moved = { speedThroughWaterMps: 0, leewayDeg: 0, engineOn: false, burnLitresPerHour: 0 };
      this.boat.propelInto(moved, headingDegTrue, 0, 0, true);
      return (moved.burnLitresPerHour * (arrivalAt - start.at)) / 3600;
    }
    const record = new TrackRecorder();
    const until = { kind: "along", line, metres: line.lengthMetres } as const;
    this.simulator.run(this.boat, { kind: "heading", headingDegTrue }, until, start, this.stepSeconds, record);
    return sumsOf(record.finish(this.around.plane)).fuelLitres;
  }
}

/** The headings of the fastest way as it turns. */
function ordersOn({ nodes }: FastestArrives, line: Line): readonly HelmOrder[] {
  const orders: HelmOrder[] = [];
  let toldAt = Number.NEGATIVE_INFINITY;
  let toldDeg = 0;
  for (const { at, xMetres, yMetres, headingDegTrue } of nodes.slice(0, -1)) {
    if (at - toldAt < TOLD_AFTER_SECONDS && Math.abs(turnDeg(toldDeg, headingDegTrue)) < TOLD_TURN_DEG) continue;
    orders.push({ fromAt: at, fromAlongMetres: alongOf(line, xMetres, yMetres), steer: { kind: "heading", headingDegTrue } });
    toldAt = at;
    toldDeg = headingDegTrue;
  }
  return orders;
}
