import type { Plane } from "../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE } from "../fields/index.ts";
import { radFromDeg } from "../units/index.ts";
import { AnalyticCurrent, type CurrentSampler, type CurrentSource, isOnSheet } from "./current.ts";

class UniformCurrent extends AnalyticCurrent {
  private readonly plane: Plane;
  private readonly setDegTrue: number;
  private readonly rateMps: number;

  constructor(plane: Plane, setDegTrue: number, rateMps: number) {
    super();
    this.plane = plane;
    this.setDegTrue = setDegTrue;
    this.rateMps = rateMps;
  }

  override sampleInto(out: Float64Array, xMetres: number, yMetres: number): Coverage {
    if (!isOnSheet(this.plane, xMetres, yMetres)) return NO_PLACE;
    const setRad = radFromDeg(this.setDegTrue - this.plane.convergenceDegAt(xMetres, yMetres));
    out[0] = this.rateMps * Math.sin(setRad);
    out[1] = this.rateMps * Math.cos(setRad);
    return COVERED;
  }

  override reachesPlace(xMetres: number, yMetres: number): boolean {
    return isOnSheet(this.plane, xMetres, yMetres);
  }
}

/** The same set (degrees true, toward) and rate (m/s) everywhere and always. */
export function uniformCurrent(setDegTrue: number, rateMps: number): CurrentSource {
  return {
    name: "uniform current",
    covers: null,
    issuedAt: null,
    heldSteady: true,
    onPlane: (plane: Plane): CurrentSampler => new UniformCurrent(plane, setDegTrue, rateMps),
  };
}
