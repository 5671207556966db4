import type { Plane } from "../earth/index.ts";
import { wrap180Deg } from "../units/index.ts";
import type { GeoBox } from "./land-area.ts";

/** Points looked at along each side of the sheet. */
const LOOKS_A_SIDE = 32;
/** Added on every side, as a share of the box: more than the sides of a sheet bend between two looks. */
const MARGIN_SHARE = 0.02;

/** The part of the earth that a plane's square lies in, a little widened: what a coastline is cut to before it is laid on the plane. */
export function boxAround(plane: Plane): GeoBox {
  const { radiusMetres: reach, centre } = plane;
  let south = centre.latitudeDeg;
  let north = centre.latitudeDeg;
  let west = 0;
  let east = 0;
  for (let i = 0; i <= LOOKS_A_SIDE; i++) {
    const along = ((2 * i) / LOOKS_A_SIDE - 1) * reach;
    for (const [x, y] of [
      [along, reach],
      [along, -reach],
      [reach, along],
      [-reach, along],
    ] as const) {
      const { latitudeDeg, longitudeDeg } = plane.toPosition(x, y);
      const off = wrap180Deg(longitudeDeg - centre.longitudeDeg);
      south = Math.min(south, latitudeDeg);
      north = Math.max(north, latitudeDeg);
      west = Math.min(west, off);
      east = Math.max(east, off);
    }
  }
  const up = (north - south) * MARGIN_SHARE;
  const aside = (east - west) * MARGIN_SHARE;
  return {
    southDeg: Math.max(-90, south - up),
    northDeg: Math.min(90, north + up),
    westDeg: wrap180Deg(centre.longitudeDeg + Math.max(-179, west - aside)),
    eastDeg: wrap180Deg(centre.longitudeDeg + Math.min(179, east + aside)),
  };
}
