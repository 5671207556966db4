import { type Land, wayToLand } from "../../coast/index.ts";
import type { Plane } from "../../earth/index.ts";
import { metresFromNm, wrap360Deg } from "../../units/index.ts";

/** Between the rays along which land is looked for, degrees. */
export const RAYS_APART_DEG = 3;
/** So many rays make a fetch, the wind's own and four to either side: their plain mean (Shore Protection Manual, 1984, ch. 3; from memory). */
export const RAYS_IN_A_FETCH = 9;
/** No land within so far one way: it is open water there, metres. Ours: over a longer fetch the sea outside is asked instead. */
export const OPEN_WATER_METRES: number = metresFromNm(20);

const RAYS = 360 / RAYS_APART_DEG;

/** The fetch of a wind at a place. */
export interface Fetch {
  /** The mean of the rays, metres. Where one of them reaches open water it is at least that. */
  readonly metres: number;
  /** Whether any of the rays reaches open water: then the sea outside comes in. */
  readonly open: boolean;
}

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
  const leanDeg = plane.convergenceDegAt(place.xMetres, place.yMetres);
  const ways = Array.from({ length: RAYS }, (_, i) =>
    wayToLand(land, place, i * RAYS_APART_DEG - leanDeg, OPEN_WATER_METRES, plane.radiusMetres),
  );
  return { rayMetres: ways.map(({ metres }) => metres), rayOpen: ways.map(({ open }) => open) };
}

/** The fetch of a wind from one direction: the mean of the rays about the nearest one to it. */
export function fetchFrom({ rayMetres, rayOpen }: FetchRose, fromDegTrue: number): Fetch {
  const middle = Math.round(wrap360Deg(fromDegTrue) / RAYS_APART_DEG);
  const side = (RAYS_IN_A_FETCH - 1) / 2;
  let sum = 0;
  let open = false;
  for (let i = middle - side; i <= middle + side; i++) {
    const ray = (i + RAYS) % RAYS;
    sum += rayMetres[ray] as number;
    open ||= rayOpen[ray] as boolean;
  }
  return { metres: sum / RAYS_IN_A_FETCH, open };
}

/** The directions of the rays within an arc, and its two ends: what a wind out of the arc is tried from, degrees true. */
export function directionsIn(fromDegTrue: number, arcDeg: number): readonly number[] {
  const count = Math.max(1, Math.ceil(arcDeg / RAYS_APART_DEG));
  return arcDeg === 0 ? [fromDegTrue] : Array.from({ length: count + 1 }, (_, i) => wrap360Deg(fromDegTrue + (arcDeg * i) / count));
}
