import { wrap180Deg } from "../units/index.ts";
import type { GeoBox, LandArea } from "./land-area.ts";

/**
 * The least box that holds all the areas, degrees: from west eastward to east, across 180° where that is shorter; longitudes in
 * [-180, 180). All the way round, -180 to 180. Null where there is no area.
 */
export function extentOf(areas: readonly Pick<LandArea, "rings">[]): GeoBox | null {
  let [southDeg, northDeg] = [90, -90];
  const spans: { west: number; east: number }[] = [];
  for (const { rings } of areas) {
    const outer = rings[0];
    if (outer === undefined) continue;
    let [west, east] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    let running = outer[0] ?? 0;
    for (let i = 0; i < outer.length; i += 2) {
      // Each edge goes the shorter way round.
      running += wrap180Deg(outer[i]! - running);
      west = Math.min(west, running);
      east = Math.max(east, running);
      southDeg = Math.min(southDeg, outer[i + 1]!);
      northDeg = Math.max(northDeg, outer[i + 1]!);
    }
    const start = wrap180Deg(west);
    spans.push({ west: start, east: start + east - west });
  }
  return spans.length === 0 ? null : { southDeg, northDeg, ...withoutWidestGap(spans) };
}

/** West and east of what is left of the circle without the widest stretch in which there is nothing. */
function withoutWidestGap(spans: readonly { readonly west: number; readonly east: number }[]): { westDeg: number; eastDeg: number } {
  // What runs on over 180° reaches into the circle's beginning.
  let reached = spans.reduce((most, { east }) => Math.max(most, east), Number.NEGATIVE_INFINITY) - 360;
  let gap = { width: 0, from: 0, to: 0 };
  for (const { west, east } of [...spans].sort((one, other) => one.west - other.west)) {
    if (west - reached > gap.width) gap = { width: west - reached, from: reached, to: west };
    reached = Math.max(reached, east);
  }
  if (gap.width === 0) return { westDeg: -180, eastDeg: 180 };
  return { westDeg: wrap180Deg(gap.to), eastDeg: wrap180Deg(gap.from) };
}
