import { degFromRad, METRES_PER_NM, radFromDeg, wrap180Deg, wrap360Deg } from "../units/index.ts";
import { type Position, positionOf } from "./position.ts";
import type { Ellipsoid } from "./wgs84.ts";

/** The sphere of nautical tables: a minute of arc is one nautical mile. */
export const NAVIGATORS_SPHERE: Ellipsoid = { equatorialRadiusMetres: (METRES_PER_NM * 60 * 180) / Math.PI, flattening: 0 };

/**
 * Great-circle sailing on the sphere, as nautical tables work it. The program's own distances are geodesics on WGS84; this serves
 * the vertex and whoever checks by hand.
 */
export interface GreatCircle {
  /** Arc, minutes: nautical miles on the navigator's sphere. */
  readonly arcMinutes: number;
  readonly initialBearingDegTrue: number;
  readonly finalBearingDegTrue: number;
  /** The next vertex ahead (it may lie beyond the destination): the north one when leaving northward, the south one when southward. */
  readonly vertex: Position;
  /** The next crossing of the equator ahead (it may lie beyond the destination), and the course there; null along the equator. */
  readonly equator: { readonly longitudeDeg: number; readonly bearingDegTrue: number } | null;
}

/**
 * Solves the spherical triangle of pole, from and to: by tangents, so that short and nearly antipodal arcs keep their digits; vertex and
 * equator by Napier's rules from the node (W. M. Smart, "Textbook on Spherical Astronomy", ch. I). Throws for equal, antipodal or
 * polar ends, where no single circle is meant.
 */
export function greatCircleBetween(from: Position, to: Position): GreatCircle {
  const a = positionOf(from.latitudeDeg, from.longitudeDeg);
  const b = positionOf(to.latitudeDeg, to.longitudeDeg);
  const sinLat1 = Math.sin(radFromDeg(a.latitudeDeg));
  const cosLat1 = Math.cos(radFromDeg(a.latitudeDeg));
  const sinLat2 = Math.sin(radFromDeg(b.latitudeDeg));
  const cosLat2 = Math.cos(radFromDeg(b.latitudeDeg));
  const changeRad = radFromDeg(wrap180Deg(b.longitudeDeg - a.longitudeDeg));
  const sinChange = Math.sin(changeRad);
  const cosChange = Math.cos(changeRad);

  const east = cosLat2 * sinChange;
  const north = cosLat1 * sinLat2 - sinLat1 * cosLat2 * cosChange;
  const sinArc = Math.hypot(east, north);
  if (sinArc < 1e-12 || cosLat1 < 1e-12 || cosLat2 < 1e-12) {
    throw new Error(`no single great circle from ${a.latitudeDeg}, ${a.longitudeDeg} to ${b.latitudeDeg}, ${b.longitudeDeg}`);
  }
  const finalRad = Math.atan2(cosLat1 * sinChange, sinLat2 * cosLat1 * cosChange - cosLat2 * sinLat1);

  // The node is where the circle crosses the equator northward: its course there, and the arc from it to the start.
  const sinCourse = east / sinArc;
  const cosCourse = north / sinArc;
  const sinNodeCourse = sinCourse * cosLat1;
  const cosNodeCourse = Math.hypot(cosCourse, sinCourse * sinLat1);
  const startRad = Math.atan2(sinLat1, cosCourse * cosLat1);
  const lonFromNodeRad = (arcRad: number): number => Math.atan2(sinNodeCourse * Math.sin(arcRad), Math.cos(arcRad));
  const longitudeAt = (arcRad: number): number =>
    wrap180Deg(a.longitudeDeg + degFromRad(lonFromNodeRad(arcRad) - lonFromNodeRad(startRad)));

  const vertexRad = cosCourse > 0 ? Math.PI / 2 : cosCourse < 0 ? -Math.PI / 2 : startRad;
  const equatorRad = startRad < 0 ? 0 : Math.PI;
  return {
    arcMinutes: degFromRad(Math.atan2(sinArc, sinLat1 * sinLat2 + cosLat1 * cosLat2 * cosChange)) * 60,
    initialBearingDegTrue: wrap360Deg(degFromRad(Math.atan2(east, north))),
    finalBearingDegTrue: wrap360Deg(degFromRad(finalRad)),
    vertex: {
      latitudeDeg: degFromRad(Math.atan2(cosNodeCourse * Math.sin(vertexRad), Math.abs(sinNodeCourse))),
      longitudeDeg: longitudeAt(vertexRad),
    },
    equator:
      cosNodeCourse < 1e-12
        ? null
        : {
            longitudeDeg: longitudeAt(equatorRad),
            bearingDegTrue: wrap360Deg(degFromRad(Math.atan2(sinNodeCourse, cosNodeCourse * Math.cos(equatorRad)))),
          },
  };
}
