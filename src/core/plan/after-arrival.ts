import type { SeaSampler, WindSampler } from "../weather/index.ts";
import type { Anchorage } from "./anchorage.ts";
import { type LyingSpell, lyingThere } from "./lying-there.ts";
import type { Prepared } from "./prepare.ts";
import { type WayHome, wayHome } from "./way-home.ts";

/** What comes after an arrival: how the anchorage lies for three days, and when the way home is open again. */
export interface AfterArrival {
  /** At the berth. */
  readonly berthAt: number;
  /** null: no anchorage is stated. */
  readonly anchorage: { readonly stated: Anchorage; readonly spells: readonly LyingSpell[] } | null;
  readonly home: WayHome;
}

/** `wind` and `sea` (known whole) as they serve for the passage and the days after it. */
export function afterArrival(prepared: Prepared, berthAt: number, wind: WindSampler, sea: SeaSampler | null): AfterArrival {
  const { anchorage } = prepared.passage;
  const { weather, wholeSea, plane } = prepared;
  const around = { wind, windCovers: weather.wind.covers, sea, seaCovers: wholeSea?.covers ?? null };
  const place = anchorage == null ? null : plane.toPlane(anchorage.position);
  return {
    berthAt,
    anchorage: anchorage == null || place === null ? null : { stated: anchorage, spells: lyingThere(anchorage, place, around, berthAt) },
    home: wayHome(prepared, berthAt),
  };
}
