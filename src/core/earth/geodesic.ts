import geographiclib from "geographiclib-geodesic";
import { wrap180Deg, wrap360Deg } from "../units/index.ts";
import { type Position, positionOf } from "./position.ts";

/** The shortest way between two places over the WGS84 ellipsoid. */
export interface GeodesicLeg {
  readonly distanceMetres: number;
  /** The bearing on leaving, true, [0, 360). For two equal places it is a convention, not a fact. */
  readonly initialBearingDegTrue: number;
  /** The bearing on arriving, true, [0, 360): forward, not the way back. */
  readonly finalBearingDegTrue: number;
}

/** Where a geodesic leads, and the forward bearing there. */
export interface GeodesicEnd {
  readonly position: Position;
  readonly finalBearingDegTrue: number;
}

const earth = geographiclib.Geodesic.WGS84;

function given(value: number | undefined, what: string): number {
  if (value === undefined || !Number.isFinite(value)) throw new Error(`the geodesic gave no ${what}: ${value}`);
  return value;
}

/**
 * Distance and bearings of the shortest way, exact to nanometres (C. F. F. Karney, "Algorithms for geodesics", J. Geodesy 87, 2013).
 * Throws on a position that is none.
 */
export function geodesicBetween(from: Position, to: Position): GeodesicLeg {
  const a = positionOf(from.latitudeDeg, from.longitudeDeg);
  const b = positionOf(to.latitudeDeg, to.longitudeDeg);
  const leg = earth.Inverse(a.latitudeDeg, a.longitudeDeg, b.latitudeDeg, b.longitudeDeg);
  return {
    distanceMetres: given(leg.s12, "distance"),
    initialBearingDegTrue: wrap360Deg(given(leg.azi1, "initial bearing")),
    finalBearingDegTrue: wrap360Deg(given(leg.azi2, "final bearing")),
  };
}

/** Where the geodesic from a place on an initial true bearing is after a distance in metres (negative: astern). Same source. */
export function geodesicFrom(from: Position, initialBearingDegTrue: number, distanceMetres: number): GeodesicEnd {
  const a = positionOf(from.latitudeDeg, from.longitudeDeg);
  const end = earth.Direct(a.latitudeDeg, a.longitudeDeg, initialBearingDegTrue, distanceMetres);
  return {
    position: {
      latitudeDeg: given(end.lat2, `latitude from bearing ${initialBearingDegTrue}, distance ${distanceMetres}`),
      longitudeDeg: wrap180Deg(given(end.lon2, "longitude")),
    },
    finalBearingDegTrue: wrap360Deg(given(end.azi2, "final bearing")),
  };
}
