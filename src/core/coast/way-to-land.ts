import { RAD_PER_DEG } from "../units/index.ts";
import type { Land } from "./land.ts";

/** How far it is to land one way. `open`: no land as far as was looked, `metres`. */
export interface WayToLand {
  readonly metres: number;
  readonly open: boolean;
}

/**
 * Along a straight line on the sheet, from a place to the first land (or kept-out area, where the land holds such): metres.
 * It is looked for no farther than `withinMetres`, nor beyond the sheet, where nothing is known. 0 on land. `sheetDeg`: clockwise from the
 * sheet's y, true less convergence. `halfMetres`: half the sheet's side.
 */
export function wayToLand(
  land: Land,
  from: { readonly xMetres: number; readonly yMetres: number },
  sheetDeg: number,
  withinMetres: number,
  halfMetres: number,
): WayToLand {
  const [x, y] = [from.xMetres, from.yMetres];
  const east = Math.sin(sheetDeg * RAD_PER_DEG);
  const north = Math.cos(sheetDeg * RAD_PER_DEG);
  const reach = Math.min(withinMetres, metresToSide(x, east, halfMetres), metresToSide(y, north, halfMetres));
  const touched = land.firstTouched(x, y, x + reach * east, y + reach * north);
  return touched === undefined ? { metres: reach, open: true } : { metres: touched.share * reach, open: false };
}

function metresToSide(at: number, share: number, halfMetres: number): number {
  if (share === 0) return Number.POSITIVE_INFINITY;
  return Math.max(0, (Math.sign(share) * halfMetres - at) / share);
}
