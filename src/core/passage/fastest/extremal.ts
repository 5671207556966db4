import { COVERED } from "../../fields/index.ts";
import { type CurrentSampler, isOnSheet } from "../../water/index.ts";
import type { Surroundings } from "../helm.ts";
import type { TurnedSheet } from "./turned-sheet.ts";
import type { WaterGrid } from "./water-grid.ts";

/** Steps of an extremal (Runge–Kutta 4), and no step longer than so many seconds. */
export const EXTREMAL_STEPS = 64;
const LONGEST_STEP_SECONDS = 900;
/** Newton's method ends within so many metres of the destination. */
const CLOSE_ENOUGH_METRES = 0.1;
const MOST_ROUNDS = 14;
/** How far a heading is turned to feel where it leads, radians. */
const FEEL_RAD = 1e-5;

/** A way along which no small change of heading saves time, that leads to the destination. */
export interface Extremal {
  readonly headingRad: number;
  readonly seconds: number;
  /** Places along and port, seconds since departure and headings from `along` toward `port`, at equal times. */
  readonly along: Float64Array;
  readonly port: Float64Array;
  readonly headings: Float64Array;
}

/**
 * Extremals of a boat at constant speed through the water V in a current (u, v):
 * x′ = V cos θ + u, y′ = V sin θ + v, θ′ = sin²θ ∂v/∂x + sin θ cos θ (∂u/∂x − ∂v/∂y) − cos²θ ∂u/∂y
 * (Zermelo 1931; Bryson & Ho, Applied Optimal Control, 1975, §2.7), which holds for a current that changes in
 * time as well. Gradients come from the search's copy; the current itself from the copy, or from the real water (`inRealWater`).
 */
export class ExtremalRunner {
  /** Where the last run ended, and how many steps it got through. */
  endAlong = 0;
  endPort = 0;
  endHeading = 0;
  stepsDone = 0;
  private readonly water: WaterGrid;
  private readonly sampler: CurrentSampler;
  private readonly around: Surroundings;
  private readonly sheet: TurnedSheet;
  private readonly speedMps: number;
  private readonly out = new Float64Array(2);
  private rateAlong = 0;
  private ratePort = 0;
  private rateHeading = 0;

  constructor(around: Surroundings, water: WaterGrid, sheet: TurnedSheet, speedMps: number) {
    this.around = around;
    this.water = water;
    this.sampler = around.current;
    this.sheet = sheet;
    this.speedMps = speedMps;
  }

  /**
   * Runs from the origin on a first heading for so long; with `into`, writes along, port and heading of every step one after another.
   * False where the water isn't known; then `into` holds what was got through, and `stepsDone` counts it.
   */
  run(headingRad: number, at: number, seconds: number, steps: number, inRealWater: boolean, into: Float64Array | null): boolean {
    const h = seconds / steps;
    let x = 0;
    let y = 0;
    let heading = headingRad;
    this.stepsDone = 0;
    if (into !== null) this.write(into, 0, x, y, heading);
    for (let step = 0; step < steps; step++) {
      const t = at + step * h;
      if (!this.rates(x, y, heading, t, inRealWater)) return false;
      const x1 = this.rateAlong;
      const y1 = this.ratePort;
      const a1 = this.rateHeading;
      if (!this.rates(x + (h / 2) * x1, y + (h / 2) * y1, heading + (h / 2) * a1, t + h / 2, inRealWater)) return false;
      const x2 = this.rateAlong;
      const y2 = this.ratePort;
      const a2 = this.rateHeading;
      if (!this.rates(x + (h / 2) * x2, y + (h / 2) * y2, heading + (h / 2) * a2, t + h / 2, inRealWater)) return false;
      const x3 = this.rateAlong;
      const y3 = this.ratePort;
      const a3 = this.rateHeading;
      if (!this.rates(x + h * x3, y + h * y3, heading + h * a3, t + h, inRealWater)) return false;
      x += (h / 6) * (x1 + 2 * x2 + 2 * x3 + this.rateAlong);
      y += (h / 6) * (y1 + 2 * y2 + 2 * y3 + this.ratePort);
      heading += (h / 6) * (a1 + 2 * a2 + 2 * a3 + this.rateHeading);
      this.stepsDone = step + 1;
      if (into !== null) this.write(into, step + 1, x, y, heading);
    }
    this.endAlong = x;
    this.endPort = y;
    this.endHeading = heading;
    return true;
  }

  /** Newton's method on the first heading and the time, so that the extremal ends at (`toAlong`, 0); null where it does not settle. */
  lead(headingRad: number, seconds: number, at: number, toAlong: number, inRealWater: boolean): Extremal | null {
    let heading = headingRad;
    let time = seconds;
    let missBefore = Number.POSITIVE_INFINITY;
    let headingStep = 0;
    let timeStep = 0;
    const steps = stepsFor(seconds);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      if (!(time > 0) || !this.run(heading, at, time, steps, inRealWater, null)) {
        if (round === 0) return null;
        headingStep /= 2;
        timeStep /= 2;
        heading -= headingStep;
        time -= timeStep;
        continue;
      }
      const missAlong = toAlong - this.endAlong;
      const missPort = -this.endPort;
      const miss = Math.sqrt(missAlong * missAlong + missPort * missPort);
      if (miss < CLOSE_ENOUGH_METRES) return this.found(heading, time, at, steps, inRealWater);
      if (miss > missBefore * 1.5 && round > 0) {
        headingStep /= 2;
        timeStep /= 2;
        heading -= headingStep;
        time -= timeStep;
        continue;
      }
      missBefore = miss;
      if (!this.rates(this.endAlong, this.endPort, this.endHeading, at + time, inRealWater)) return null;
      const byTimeAlong = this.rateAlong;
      const byTimePort = this.ratePort;
      const endAlong = this.endAlong;
      const endPort = this.endPort;
      if (!this.run(heading + FEEL_RAD, at, time, steps, inRealWater, null)) return null;
      const byHeadingAlong = (this.endAlong - endAlong) / FEEL_RAD;
      const byHeadingPort = (this.endPort - endPort) / FEEL_RAD;
      const determinant = byHeadingAlong * byTimePort - byHeadingPort * byTimeAlong;
      if (determinant === 0) return null;
      headingStep = (missAlong * byTimePort - missPort * byTimeAlong) / determinant;
      timeStep = (byHeadingAlong * missPort - byHeadingPort * missAlong) / determinant;
      const share = Math.min(1, 0.3 / Math.abs(headingStep), (0.2 * time) / Math.abs(timeStep));
      headingStep *= share;
      timeStep *= share;
      heading += headingStep;
      time += timeStep;
    }
    return null;
  }

  private found(heading: number, seconds: number, at: number, steps: number, inRealWater: boolean): Extremal | null {
    const into = new Float64Array(3 * (steps + 1));
    if (!this.run(heading, at, seconds, steps, inRealWater, into)) return null;
    const column = (k: number): Float64Array => Float64Array.from({ length: steps + 1 }, (_, i) => into[3 * i + k] as number);
    return { headingRad: heading, seconds, along: column(0), port: column(1), headings: column(2) };
  }

  private write(into: Float64Array, step: number, x: number, y: number, heading: number): void {
    into[3 * step] = x;
    into[3 * step + 1] = y;
    into[3 * step + 2] = heading;
  }

  private rates(x: number, y: number, heading: number, at: number, inRealWater: boolean): boolean {
    const { water, sheet } = this;
    if (water.fineAt(x, y, at) !== COVERED) return false;
    let u = water.alongMps;
    let v = water.portMps;
    if (inRealWater) {
      const px = sheet.xOf(x, y);
      const py = sheet.yOf(x, y);
      if (!isOnSheet(this.around.plane, px, py) || this.sampler.sampleInto(this.out, px, py, at) !== COVERED) return false;
      const east = this.out[0] as number;
      const north = this.out[1] as number;
      u = east * sheet.alongX + north * sheet.alongY;
      v = north * sheet.alongX - east * sheet.alongY;
    }
    const sin = Math.sin(heading);
    const cos = Math.cos(heading);
    this.rateAlong = this.speedMps * cos + u;
    this.ratePort = this.speedMps * sin + v;
    this.rateHeading = sin * sin * water.portByAlong + sin * cos * (water.alongByAlong - water.portByPort) - cos * cos * water.alongByPort;
    return true;
  }
}

/** Steps for so long a passage. */
export function stepsFor(seconds: number): number {
  return Math.max(EXTREMAL_STEPS, Math.ceil(seconds / LONGEST_STEP_SECONDS));
}
