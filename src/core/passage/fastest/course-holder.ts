import type { BoatModel, Propulsion } from "../../boat/index.ts";
import { COVERED, NO_PLACE, NO_VARIABLE } from "../../fields/index.ts";
import { degFromRad, radFromDeg, wrap360Deg } from "../../units/index.ts";
import { isOnSheet } from "../../water/index.ts";
import { middleOf, WIND_SLOTS } from "../../weather/index.ts";
import { HeadSeas } from "../head-seas.ts";
import type { Surroundings } from "../helm.ts";

const MOST_ROUNDS = 25;
const SETTLED_DEG = 1e-8;
/** Added to a coverage code where it is the wind's. */
export const OF_WIND = 10;
/** The boat can't go that way: the current carries her off it, or back along it. */
export const NOT_THAT_WAY = -1;

/**
 * What a boat does when she is to go over the ground in a given direction, in the real water and wind: the heading and the speed made
 * good. Directions and currents on the plane's sheet. One instance serves many calls; the answer stands in its fields.
 */
export class CourseHolder {
  readonly propulsion: Propulsion = { speedThroughWaterMps: 0, leewayDeg: 0, engineOn: true, burnLitresPerHour: 0 };
  madeGoodMps = 0;
  headingDegTrue = 0;
  eastMps = 0;
  northMps = 0;
  private readonly around: Surroundings;
  private readonly boat: BoatModel;
  /** Null where head seas don't slow the boat, or no sea is known. */
  protected seas: HeadSeas | null;
  private readonly currentOut = new Float64Array(2);
  private readonly windOut = new Float64Array(WIND_SLOTS);

  constructor(around: Surroundings, boat: BoatModel) {
    this.around = around;
    this.boat = boat;
    this.seas = boat.headSeas == null || around.sea == null ? null : new HeadSeas(around.sea);
  }

  /** Reads water and wind at a place and goes along the unit vector (east, north share). `COVERED`, or what stands in the way. */
  goAlong(eastShare: number, northShare: number, x: number, y: number, at: number): number {
    const { plane, current, wind } = this.around;
    if (!isOnSheet(plane, x, y)) return NO_PLACE;
    const coverage = current.sampleInto(this.currentOut, x, y, at);
    if (coverage !== COVERED) return coverage;
    this.eastMps = this.currentOut[0] as number;
    this.northMps = this.currentOut[1] as number;
    const convergenceDeg = plane.convergenceDegAt(x, y);
    if (!this.boat.dependsOnWind) return this.holdIn(eastShare, northShare, 0, 0, 0, convergenceDeg);
    if (wind === null) return OF_WIND + NO_VARIABLE;
    const windCoverage = wind.readInto(this.windOut, x, y, at);
    if (windCoverage !== COVERED) return OF_WIND + windCoverage;
    const middle = middleOf(this.windOut);
    if (middle.fromDegTrue === null) {
      this.lookAtSeas(x, y, at, 0, 0);
      return this.holdIn(eastShare, northShare, 0, 0, middle.speedMps, convergenceDeg);
    }
    const fromRad = radFromDeg(middle.fromDegTrue - convergenceDeg);
    const [windEastMps, windNorthMps] = [-middle.speedMps * Math.sin(fromRad), -middle.speedMps * Math.cos(fromRad)];
    this.lookAtSeas(x, y, at, windEastMps, windNorthMps);
    return this.holdIn(eastShare, northShare, windEastMps, windNorthMps, 0, convergenceDeg);
  }

  /** Reads the seas for what is held next, in the current of `eastMps`, `northMps`; the wind's motion over the ground. */
  lookAtSeas(x: number, y: number, at: number, windEastMps: number, windNorthMps: number): void {
    const rule = this.boat.headSeas ?? null;
    if (rule !== null) this.seas?.lookAt(rule, x, y, at, this.eastMps, this.northMps, windEastMps, windNorthMps);
  }

  /**
   * The same in a given wind over the ground (a motion, east and north on the sheet, and a part without direction that blows from dead
   * ahead) and the current in `eastMps`, `northMps`. The heading leans up-stream by asin(cross-current / speed), less the leeway; with
   * the wind in it speed and leeway follow the heading, and a few rounds settle it.
   */
  holdIn(
    eastShare: number,
    northShare: number,
    windEastMps: number,
    windNorthMps: number,
    variableWindMps: number,
    convergenceDeg: number,
  ): number {
    const { propulsion: p, boat, eastMps, northMps } = this;
    const wantedDeg = degFromRad(Math.atan2(eastShare, northShare));
    const crossMps = eastMps * northShare - northMps * eastShare;
    const overEast = windEastMps - eastMps;
    const overNorth = windNorthMps - northMps;
    const windMps = Math.sqrt(overEast * overEast + overNorth * overNorth);
    const windFromDegTrue = boat.dependsOnWind ? wrap360Deg(degFromRad(Math.atan2(-overEast, -overNorth)) + convergenceDeg) : 0;
    const rounds = boat.dependsOnWind ? MOST_ROUNDS : 1;
    let sheetDeg = wantedDeg;
    let leanRad = 0;
    let before = 0;
    let offBefore = 0;
    for (let round = 0; round < rounds; round++) {
      const headingDegTrue = wrap360Deg(sheetDeg + convergenceDeg);
      if (variableWindMps > 0) {
        const headingRad = radFromDeg(sheetDeg);
        const into = eastMps * Math.sin(headingRad) + northMps * Math.cos(headingRad);
        boat.propelInto(p, headingDegTrue, Math.max(0, variableWindMps + into), headingDegTrue, p.engineOn);
      } else boat.propelInto(p, headingDegTrue, boat.dependsOnWind ? windMps : 0, windFromDegTrue, p.engineOn);
      if (this.seas !== null && boat.headSeas != null) p.speedThroughWaterMps *= this.seas.leftOn(boat.headSeas, sheetDeg);
      if (!(Math.abs(crossMps) < p.speedThroughWaterMps)) return NOT_THAT_WAY;
      leanRad = Math.asin(crossMps / p.speedThroughWaterMps);
      const off = wantedDeg - degFromRad(leanRad) - p.leewayDeg - sheetDeg;
      if (Math.abs(off) < SETTLED_DEG || rounds === 1) {
        sheetDeg += off;
        break;
      }
      // By secants, as long as they shorten the step.
      const secant = round === 0 || off === offBefore ? off : (-off * (sheetDeg - before)) / (off - offBefore);
      before = sheetDeg;
      offBefore = off;
      sheetDeg += Math.abs(secant) < 2 * Math.abs(off) ? secant : off;
    }
    this.headingDegTrue = wrap360Deg(sheetDeg + convergenceDeg);
    this.madeGoodMps = eastMps * eastShare + northMps * northShare + p.speedThroughWaterMps * Math.cos(leanRad);
    return this.madeGoodMps > 0 ? COVERED : NOT_THAT_WAY;
  }
}
