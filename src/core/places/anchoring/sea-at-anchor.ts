import { windSea } from "../../sea/index.ts";
import { wrap360Deg } from "../../units/index.ts";
import { directionsIn, type FetchRose, fetchFrom, RAYS_APART_DEG, RAYS_IN_A_FETCH } from "./fetch-rose.ts";
import { comesIn, type OpenSector } from "./open-sector.ts";

/** What shelters an anchorage. */
export interface Shelter {
  /** The directions that the skipper notes as open; empty: none noted, and the coastline says. */
  readonly openTo: readonly OpenSector[];
  /** How far the shore, the reef or the breakwater lies in every other direction, as the skipper notes it, metres; null: by the coastline. */
  readonly fetchMetres: number | null;
  /** The coastline all round; null: none is reckoned, or the place lies on land by it. */
  readonly rose: FetchRose | null;
}

/** A wind from anywhere in an arc, as strong as it may be. */
export interface WindEnd {
  readonly windMps: number;
  readonly fromDegTrue: number;
  readonly arcDeg: number;
}

/** The sea outside, in open water off the place, significant height. */
export interface SeaOutside {
  readonly heightMetres: number;
  readonly periodSeconds: number | null;
  /** Where it comes from, as the skipper says; null: not known. */
  readonly fromDegTrue: number | null;
}

/** A swell reaches in from so far to either side of where it comes from, degrees: as wide as a wind's own rays. Ours. */
export const SWELL_TO_EITHER_SIDE_DEG: number = ((RAYS_IN_A_FETCH - 1) / 2) * RAYS_APART_DEG;

/** The highest sea that a wind may bring to an anchorage, and what brings it. */
export type SeaAtAnchor =
  | {
      /** `atLeast`: the place lies open and what the sea does outside isn't known; only what the wind raises nearer by. */
      readonly kind: "known" | "atLeast";
      readonly heightMetres: number;
      readonly periodSeconds: number | null;
      /** `seaOutside`: with a wind that comes over open water; `swell`: by itself, from where it is said to come. */
      readonly brings: "wind" | "seaOutside" | "swell";
      readonly fromDegTrue: number;
      /** Of that wind, metres; null where open and no coastline is known. */
      readonly fetchMetres: number | null;
      readonly open: boolean;
    }
  /** Neither the coastline nor the skipper says what lies up-wind. */
  | { readonly kind: "unknown"; readonly fromDegTrue: number };

/** What lies up-wind. Where the skipper's notes and the coastline differ, the notes of open water and of a near shore both count. */
function upWind(shelter: Shelter, fromDegTrue: number, sideDeg = 0): { readonly open: boolean; readonly metres: number | null } | null {
  const byCoast = shelter.rose === null ? null : fetchFrom(shelter.rose, fromDegTrue);
  if (comesIn(shelter.openTo, wrap360Deg(fromDegTrue - sideDeg), 2 * sideDeg)) return { open: true, metres: byCoast?.metres ?? null };
  return shelter.fetchMetres === null ? byCoast : { open: false, metres: shelter.fetchMetres };
}

/**
 * The highest sea at anchor under a wind of one or two ends: what it raises over its fetch (`windSea`, blowing long enough and in deep
 * water, which is the higher), and the whole sea outside where that wind comes over open water, or where it is said to come from an open
 * side itself. No account of swell that bends round a point.
 */
export function seaAtAnchor(shelter: Shelter, ends: readonly WindEnd[], outside: SeaOutside | null): SeaAtAnchor {
  let worst: SeaAtAnchor | null = null;
  let unknown: SeaAtAnchor | null = null;
  let atLeast = false;
  for (const { windMps, fromDegTrue, arcDeg } of ends) {
    for (const from of directionsIn(fromDegTrue, arcDeg)) {
      const up = upWind(shelter, from);
      if (up === null) {
        unknown ??= { kind: "unknown", fromDegTrue: from };
        continue;
      }
      const raised = raisedBy(windMps, up.metres);
      const enters = up.open && outside !== null && outside.heightMetres > raised.heightMetres;
      if (up.open && outside === null) atLeast = true;
      const { heightMetres, periodSeconds } = enters ? outside : raised;
      if (worst !== null && heightMetres <= worst.heightMetres) continue;
      const brings = enters ? "seaOutside" : "wind";
      worst = { kind: "known", heightMetres, periodSeconds, brings, fromDegTrue: from, fetchMetres: up.metres, open: up.open };
    }
  }
  if (unknown !== null) return unknown;
  if (outside !== null && outside.fromDegTrue !== null && worst !== null && outside.heightMetres > worst.heightMetres) {
    const { heightMetres, periodSeconds, fromDegTrue } = outside;
    const up = upWind(shelter, fromDegTrue, SWELL_TO_EITHER_SIDE_DEG);
    if (up === null) return { kind: "unknown", fromDegTrue };
    if (up.open) return { kind: "known", heightMetres, periodSeconds, brings: "swell", fromDegTrue, fetchMetres: up.metres, open: true };
  }
  if (worst === null) throw new Error("a sea at anchor without a wind");
  return atLeast ? { ...worst, kind: "atLeast" } : worst;
}

function raisedBy(windMps: number, fetchMetres: number | null): Pick<SeaOutside, "heightMetres" | "periodSeconds"> {
  if (!(windMps > 0) || fetchMetres === null || !(fetchMetres > 0)) return { heightMetres: 0, periodSeconds: null };
  return windSea({ windMps, fetchMetres, durationSeconds: null, depthMetres: null });
}

/** Whether the sea outside can come in from anywhere at all. */
export function liesOpen({ openTo, fetchMetres, rose }: Shelter): boolean {
  return openTo.length > 0 || (fetchMetres === null && rose?.rayOpen.includes(true) === true);
}
