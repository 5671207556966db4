import { COVERED, NO_PLACE, NO_VARIABLE } from "../../../fields/index.ts";
import { degFromRad, radFromDeg, wrap360Deg } from "../../../units/index.ts";
import { isOnSheet } from "../../../water/index.ts";
import { middleOf, WIND_SLOTS } from "../../../weather/index.ts";
import type { Surroundings } from "../../helm.ts";
import { NOT_THAT_WAY, OF_WIND } from "../course-holder.ts";

/** Reads the real water and the wind over it at a place and time; the answer stands in its fields, motions on the plane's sheet. */
export class AirAndWater {
  eastMps = 0;
  northMps = 0;
  /** The wind over the ground, a motion. */
  windEastMps = 0;
  windNorthMps = 0;
  /** The wind over the water. */
  windMps = 0;
  windFromDegTrue = 0;
  convergenceDeg = 0;
  answeredBy = 0;
  private readonly around: Surroundings;
  private readonly currentOut = new Float64Array(2);
  private readonly windOut = new Float64Array(WIND_SLOTS);

  constructor(around: Surroundings) {
    this.around = around;
  }

  /** `COVERED`, or what is lacking; a wind without direction is none to sail by. */
  readAt(x: number, y: number, at: number): number {
    const { plane, current, wind } = this.around;
    if (!isOnSheet(plane, x, y)) return NO_PLACE;
    const coverage = current.sampleInto(this.currentOut, x, y, at);
    if (coverage !== COVERED) return coverage;
    this.answeredBy = current.answeredBy;
    this.eastMps = this.currentOut[0];
    this.northMps = this.currentOut[1];
    this.convergenceDeg = plane.convergenceDegAt(x, y);
    if (wind === null) return OF_WIND + NO_VARIABLE;
    const windCoverage = wind.readInto(this.windOut, x, y, at);
    if (windCoverage !== COVERED) return OF_WIND + windCoverage;
    const { speedMps, fromDegTrue } = middleOf(this.windOut);
    if (fromDegTrue === null && speedMps > 0) return NOT_THAT_WAY;
    const fromRad = radFromDeg((fromDegTrue ?? 0) - this.convergenceDeg);
    this.windEastMps = -speedMps * Math.sin(fromRad);
    this.windNorthMps = -speedMps * Math.cos(fromRad);
    const overEast = this.windEastMps - this.eastMps;
    const overNorth = this.windNorthMps - this.northMps;
    this.windMps = Math.sqrt(overEast * overEast + overNorth * overNorth);
    this.windFromDegTrue = wrap360Deg(degFromRad(Math.atan2(-overEast, -overNorth)) + this.convergenceDeg);
    return COVERED;
  }
}
