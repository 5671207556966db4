import type { NoAnswer } from "../../answers/index.ts";
import { liesOpen, type SeaAtAnchor, type SeaOutside, type Shelter, seaAtAnchor, type WindEnd } from "./sea-at-anchor.ts";
import { heightAtAnchor, type TideAtAnchor } from "./water-at-anchor.ts";

/** The weather at an anchorage at an instant, by the forecast there; the worse end of every range. */
export type WeatherAtAnchor =
  | {
      readonly kind: "known";
      readonly at: number;
      readonly ends: readonly WindEnd[];
      readonly gustMps: number;
      /** Null: no source tells the sea there and then. */
      readonly outside: SeaOutside | null;
    }
  | { readonly kind: "unknown"; readonly at: number; readonly why: NoAnswer };

/** What the depth is judged by. */
export interface DepthByWhich {
  readonly chartedMetres: number;
  readonly tide: TideAtAnchor;
  readonly draughtMetres: number;
  /** Null: the significant height of the sea reckoned there. */
  readonly wavesMetres: number | null;
}

/** How she lies at one instant of a night. */
export type LookAtAnchor = { readonly at: number; readonly water: WaterUnder | null } & (
  | { readonly kind: "unknown"; readonly why: NoAnswer }
  | {
      readonly kind: "known";
      /** The strongest wind, and the arc it comes from. */
      readonly wind: WindEnd;
      readonly gustMps: number;
      readonly sea: SeaAtAnchor;
      /** The sea outside while the wind does not bring it in though the place lies open somewhere: as swell it may come in. Null: none. */
      readonly outsideMetres: number | null;
    }
);

/** The water under her. */
export interface WaterUnder {
  readonly depthMetres: number;
  readonly underKeelMetres: number;
  /** What is allowed for waves in that figure; null where no sea is known and none is told: they come on top. */
  readonly wavesMetres: number | null;
}

/** One look: wind, sea, and the water under the keel. `by` null: depth, tide or draught is not stated. */
export function lookAtAnchor(weather: WeatherAtAnchor, shelter: Shelter, by: DepthByWhich | null): LookAtAnchor {
  const { at } = weather;
  if (weather.kind === "unknown") return { kind: "unknown", at, why: weather.why, water: by === null ? null : waterUnder(by, at, null) };
  const { ends, gustMps, outside } = weather;
  const wind = ends.reduce((most, one) => (one.windMps > most.windMps ? one : most));
  const sea = seaAtAnchor(shelter, ends, outside);
  // Where the wind comes over open water, or it is said where the swell comes from, the sea outside is judged already.
  const counted = outside?.fromDegTrue != null || (sea.kind !== "unknown" && sea.open);
  return {
    kind: "known",
    at,
    wind,
    gustMps,
    sea,
    outsideMetres: outside === null || counted || !liesOpen(shelter) ? null : outside.heightMetres,
    water: by === null ? null : waterUnder(by, at, sea.kind === "unknown" ? null : sea.heightMetres),
  };
}

/** Charted depth and tide less draught, and less what the boat falls in the waves (the significant height, unless told: common practice). */
function waterUnder({ chartedMetres, tide, draughtMetres, wavesMetres }: DepthByWhich, at: number, seaMetres: number | null): WaterUnder {
  const depthMetres = chartedMetres + heightAtAnchor(tide, at);
  const waves = wavesMetres ?? seaMetres;
  return { depthMetres, underKeelMetres: depthMetres - draughtMetres - (waves ?? 0), wavesMetres: waves };
}
