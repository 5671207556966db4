import { epochSeconds } from "../../units/index.ts";
import type { Tide } from "../../water/index.ts";

/** The tide at an anchorage: computed, or the lowest and highest that the skipper states for the stay. Heights above chart datum, metres. */
export type TideAtAnchor =
  | { readonly kind: "computed"; readonly name: string; readonly tide: Pick<Tide, "heightAt" | "highsAndLows"> }
  | { readonly kind: "stated"; readonly lowestMetres: number; readonly highestMetres: number };

/** A depth and when: null where the tide is stated, without a time. */
export interface DepthThen {
  readonly depthMetres: number;
  readonly at: number | null;
}

/**
 * The least and the greatest depth of a stay, charted depth and tide: of a computed tide the turns within it and its two ends, between
 * which the water only rises or only falls. The same depth twice where it is stated so.
 */
export function depthsOfStay(
  chartedMetres: number,
  tide: TideAtAnchor,
  from: number,
  until: number,
): { readonly least: DepthThen; readonly greatest: DepthThen } {
  if (tide.kind === "stated") {
    const then = (height: number): DepthThen => ({ depthMetres: chartedMetres + height, at: null });
    return { least: then(tide.lowestMetres), greatest: then(tide.highestMetres) };
  }
  const times = [from, ...tide.tide.highsAndLows(epochSeconds(from), epochSeconds(until)).map(({ at }) => at), until];
  const depths = times.map((at) => ({ depthMetres: chartedMetres + tide.tide.heightAt(epochSeconds(at)), at }));
  const pick = (sign: 1 | -1) => depths.reduce((best, one) => (sign * (one.depthMetres - best.depthMetres) > 0 ? one : best));
  return { least: pick(-1), greatest: pick(1) };
}

/** The least height of the tide to reckon with at an instant: the computed one, or the lowest that is stated. */
export function heightAtAnchor(tide: TideAtAnchor, at: number): number {
  return tide.kind === "computed" ? tide.tide.heightAt(epochSeconds(at)) : tide.lowestMetres;
}
