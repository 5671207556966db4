import type { WaveSystem } from "./wave-system.ts";

/** From this period the dominant waves of a total are swell. Common practice: "10–11 s is swell". */
export const SWELL_FROM_SECONDS = 10;

/** Below this period they are wind sea. Common practice: "under 9 s is wind sea". */
export const WIND_SEA_BELOW_SECONDS = 9;

/** Swell and wind sea told apart, or why they can't be. */
export type SplitSea =
  /** The period is a swell's; the swell is what the wind sea leaves of the total, by squares. Null: the wind sea alone is as high. */
  | { readonly kind: "split"; readonly swell: WaveSystem | null; readonly windSea: WaveSystem | null }
  /** The period is a wind sea's: all of the height is taken as wind sea, the steeper and so the safer reading; a swell under it stays unknown. */
  | { readonly kind: "allWindSea"; readonly windSea: WaveSystem }
  /** Between the two, or a swell's period and no wind known to reckon the wind sea from: ask for the two apart. */
  | { readonly kind: "notToldApart"; readonly why: "period-between" | "wind-not-known" };

/**
 * Tells swell and wind sea apart where a forecast gives one height and one (dominant) period for both together. `windSea` is what the wind
 * raises by itself (`windSea`, `windSeaSystem`): null where it raises none, "notKnown" where no wind is known. Never guessed further.
 */
export function splitSea(total: WaveSystem, windSea: WaveSystem | null | "notKnown"): SplitSea {
  if (total.periodSeconds < WIND_SEA_BELOW_SECONDS) return { kind: "allWindSea", windSea: total };
  if (total.periodSeconds < SWELL_FROM_SECONDS) return { kind: "notToldApart", why: "period-between" };
  if (windSea === "notKnown") return { kind: "notToldApart", why: "wind-not-known" };
  const squared = total.heightMetres ** 2 - (windSea?.heightMetres ?? 0) ** 2;
  return { kind: "split", swell: squared > 0 ? { ...total, heightMetres: Math.sqrt(squared) } : null, windSea };
}
