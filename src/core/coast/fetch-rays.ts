import type { Plane } from "../earth/index.ts";
import { wrap360Deg } from "../units/index.ts";
import type { Land } from "./land.ts";
import { type WayToLand, wayToLand } from "./way-to-land.ts";

/** Between the rays along which land is looked for, degrees. */
export const RAYS_APART_DEG = 3;
/** So many rays make a fetch, the wind's own and four to either side: their plain mean (Shore Protection Manual, 1984, ch. 3; from memory). */
export const RAYS_IN_A_FETCH = 9;
/** All round. */
export const RAYS: number = 360 / RAYS_APART_DEG;

/** The fetch of a wind at a place. */
export interface Fetch {
  /** The mean of the rays, metres. Where one of them reaches open water it is at least that. */
  readonly metres: number;
  /** Whether any of the rays reaches open water: then the sea outside comes in. */
  readonly open: boolean;
}

/** The fetch of a wind from one direction out of rays from north clockwise: the mean of those about the nearest one to it. */
export function fetchOfRays(ray: (index: number) => WayToLand, fromDegTrue: number): Fetch {
  const middle = Math.round(wrap360Deg(fromDegTrue) / RAYS_APART_DEG);
  const side = (RAYS_IN_A_FETCH - 1) / 2;
  let sum = 0;
  let open = false;
  for (let i = middle - side; i <= middle + side; i++) {
    const way = ray((i + RAYS) % RAYS);
    sum += way.metres;
    open ||= way.open;
  }
  return { metres: sum / RAYS_IN_A_FETCH, open };
}

/** How land is looked for along the rays. */
export interface FetchSought {
  /** No land within so far: open water. */
  readonly withinMetres: number;
  /** What a ray that finds no land counts as; left out: as far as was looked. */
  readonly openCountsMetres?: number;
}

/** Rays from a place, each sought when it is first asked for. Land null: none is known, all is open water. */
export class FetchRays {
  private readonly known: (WayToLand | undefined)[] = Array(RAYS);
  private readonly land: Land | null;
  private readonly plane: Plane;
  private readonly place: { readonly xMetres: number; readonly yMetres: number };
  private readonly sought: FetchSought;
  private readonly leanDeg: number;

  constructor(land: Land | null, plane: Plane, place: { readonly xMetres: number; readonly yMetres: number }, sought: FetchSought) {
    this.land = land;
    this.plane = plane;
    this.place = place;
    this.sought = sought;
    this.leanDeg = plane.convergenceDegAt(place.xMetres, place.yMetres);
  }

  /** The way to land along one ray, from north by `RAYS_APART_DEG`, clockwise. */
  ray(index: number): WayToLand {
    const known = this.known[index];
    if (known !== undefined) return known;
    const { withinMetres, openCountsMetres } = this.sought;
    const found: WayToLand =
      this.land === null
        ? { metres: withinMetres, open: true }
        : wayToLand(this.land, this.place, index * RAYS_APART_DEG - this.leanDeg, withinMetres, this.plane.radiusMetres);
    const counts = found.open && openCountsMetres !== undefined ? { metres: openCountsMetres, open: true } : found;
    this.known[index] = counts;
    return counts;
  }

  /** The longest fetch of a wind that may come from anywhere in an arc, clockwise from its beginning, metres. */
  longestIn(fromDegTrue: number, arcDeg: number): number {
    const count = Math.max(1, Math.ceil(arcDeg / RAYS_APART_DEG));
    let longest = this.from(fromDegTrue).metres;
    for (let i = 1; arcDeg > 0 && i <= count; i++) longest = Math.max(longest, this.from(fromDegTrue + (arcDeg * i) / count).metres);
    return longest;
  }

  /** The fetch of a wind from one direction. */
  from(fromDegTrue: number): Fetch {
    return fetchOfRays((index) => this.ray(index), fromDegTrue);
  }
}
