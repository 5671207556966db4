import { type Fetch, FetchRays, fetchOfRays, type Land, RAYS, RAYS_APART_DEG, RAYS_IN_A_FETCH } from "../../coast/index.ts";
import type { Plane } from "../../earth/index.ts";
import { metresFromNm, wrap360Deg } from "../../units/index.ts";

export { type Fetch, RAYS_APART_DEG, RAYS_IN_A_FETCH };

/** No land within so far one way: it is open water there, metres. Ours: over a longer fetch the sea outside is asked instead. */
export const OPEN_WATER_METRES: number = metresFromNm(20);

/** How far land lies off a place all round. */
export interface FetchRose {
  /** From north by `RAYS_APART_DEG`, clockwise, metres. */
  readonly rayMetres: readonly number[];
  readonly rayOpen: readonly boolean[];
}

/** Land sought all round a place; null where the place lies on land by this coastline, so that nothing can be said. */
export function fetchRose(
  land: Land | null,
  plane: Plane,
  place: { readonly xMetres: number; readonly yMetres: number },
): FetchRose | null {
  if (land === null) return { rayMetres: Array<number>(RAYS).fill(OPEN_WATER_METRES), rayOpen: Array<boolean>(RAYS).fill(true) };
  if (land.contains(place.xMetres, place.yMetres)) return null;
  const rays = new FetchRays(land, plane, place, { withinMetres: OPEN_WATER_METRES });
  const ways = Array.from({ length: RAYS }, (_, i) => rays.ray(i));
  return { rayMetres: ways.map(({ metres }) => metres), rayOpen: ways.map(({ open }) => open) };
}

/** The fetch of a wind from one direction: the mean of the rays about the nearest one to it. */
export function fetchFrom({ rayMetres, rayOpen }: FetchRose, fromDegTrue: number): Fetch {
  return fetchOfRays((index) => ({ metres: rayMetres[index] as number, open: rayOpen[index] as boolean }), fromDegTrue);
}

/** The directions of the rays within an arc, and its two ends: what a wind out of the arc is tried from, degrees true. */
export function directionsIn(fromDegTrue: number, arcDeg: number): readonly number[] {
  const count = Math.max(1, Math.ceil(arcDeg / RAYS_APART_DEG));
  return arcDeg === 0 ? [fromDegTrue] : Array.from({ length: count + 1 }, (_, i) => wrap360Deg(fromDegTrue + (arcDeg * i) / count));
}
