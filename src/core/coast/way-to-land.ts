import { RAD_PER_DEG } from "../units/index.ts";
import type { Land } from "./land.ts";

/** How nearly the distance is found unless told, metres: a coastline is no better than tens of them. */
const FOUND_TO_METRES = 5;

/** How far it is to land one way. `open`: no land as far as was looked, `metres`. */
export interface WayToLand {
  readonly metres: number;
  readonly open: boolean;
}

/**
 * Along a straight line on the sheet, from a place to the first land (or kept-out area, where the land holds such): metres, to within five or `toMetres`.
 * It is looked for no farther than `withinMetres`, nor beyond the sheet, where nothing is known. 0 on land. `sheetDeg`: clockwise from the
 * sheet's y, true less convergence. `halfMetres`: half the sheet's side.
 */
export function wayToLand(
  land: Land,
  from: { readonly xMetres: number; readonly yMetres: number },
  sheetDeg: number,
  withinMetres: number,
  halfMetres: number,
  toMetres: number = FOUND_TO_METRES,
): WayToLand {
  const [x, y] = [from.xMetres, from.yMetres];
  const east = Math.sin(sheetDeg * RAD_PER_DEG);
  const north = Math.cos(sheetDeg * RAD_PER_DEG);
  const reach = Math.min(withinMetres, metresToSide(x, east, halfMetres), metresToSide(y, north, halfMetres));
  const touches = (metres: number): boolean => land.crosses(x, y, x + metres * east, y + metres * north);
  if (touches(0)) return { metres: 0, open: false };
  if (!touches(reach)) return { metres: reach, open: true };
  let [clear, touched] = [0, reach];
  // A longer leg touches all that a shorter one does.
  while (touched - clear > toMetres) {
    const middle = (clear + touched) / 2;
    if (touches(middle)) touched = middle;
    else clear = middle;
  }
  return { metres: touched, open: false };
}

function metresToSide(at: number, share: number, halfMetres: number): number {
  if (share === 0) return Number.POSITIVE_INFINITY;
  return Math.max(0, (Math.sign(share) * halfMetres - at) / share);
}
