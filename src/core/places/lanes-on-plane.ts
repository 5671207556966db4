import { geodesicBetween, type Plane, type Position } from "../earth/index.ts";
import { radFromDeg } from "../units/index.ts";
import type { Lane } from "./lane.ts";
import { LaneRing } from "./lane-ring.ts";

/** A lane laid on a plane: its name, its flow in degrees true, its ring in metres on the sheet. */
export interface LaneOnPlane {
  readonly name: string;
  readonly flowDegTrue: number | null;
  readonly ring: LaneRing;
}

/** The lanes of a passage on its plane, in the order they were given. */
export interface LanesOnPlane {
  readonly lanes: readonly LaneOnPlane[];
  /** The lane a place is in; of several the first that has a flow, else the first; null where there is none. */
  laneAt(xMetres: number, yMetres: number): LaneOnPlane | null;
}

/** Lays lanes on a plane. An edge is straight on the sheet: within 10 m of the geodesic over 30 nm, to 100 nm from the middle. */
export function lanesOn(plane: Plane, lanes: readonly Lane[]): LanesOnPlane {
  const laid = lanes.map(({ name, flowDegTrue, ring }): LaneOnPlane => {
    return { name, flowDegTrue, ring: new LaneRing(ring.map((position) => placeOnSheet(plane, position))) };
  });
  const flowing = laid.filter((lane) => lane.flowDegTrue !== null);
  const still = laid.filter((lane) => lane.flowDegTrue === null);
  return {
    lanes: laid,
    laneAt: (xMetres, yMetres) => [...flowing, ...still].find((lane) => lane.ring.contains(xMetres, yMetres)) ?? null,
  };
}

/** A corner on the sheet or beyond it: distance and azimuth from the centre are what the sheet is made of (azimuthal equidistant). */
function placeOnSheet(plane: Plane, position: Position): { readonly xMetres: number; readonly yMetres: number } {
  const on = plane.toPlaneIfOn(position);
  if (on !== null) return on;
  const { distanceMetres, initialBearingDegTrue } = geodesicBetween(plane.centre, position);
  const bearingRad = radFromDeg(initialBearingDegTrue);
  return { xMetres: distanceMetres * Math.sin(bearingRad), yMetres: distanceMetres * Math.cos(bearingRad) };
}
