import { GRAVITY_MPS2 } from "../boat/index.ts";
import { MPS_PER_KNOT, radFromDeg } from "../units/index.ts";
import type { Encounter } from "./encounter.ts";

/**
 * IMO MSC.1/Circ.1228 (2007), guidance in following and quartering seas. WRITTEN FOR SHIPS: for a boat of 12 m its 4 % of the length is
 * half a metre of sea. Shown as a note, never a limit.
 */
export type ShipNote =
  /** Fast enough to be caught by a wave and surf: the speed from which, m/s. */
  | { readonly kind: "surf-riding"; readonly fromMps: number }
  /** Long enough and high enough waves met at nearly their own pace. */
  | { readonly kind: "successive-high-waves" }
  /** Waves met at the boat's own period of roll; and, for rolling that builds of itself, at that or at half of it. */
  | { readonly kind: "synchronous-rolling" | "parametric-rolling" };

/** "Nearly" a period: within this share. The circular gives no figure; ours. */
export const NEARLY_A_PERIOD = 0.1;

/** What the notes look at. */
export interface ShipInSea {
  readonly lengthMetres: number;
  readonly speedMps: number;
  /** Natural period of roll, seconds; null where it isn't known: nothing is then said of rolling. */
  readonly rollPeriodSeconds: number | null;
}

/**
 * The speed from which surf-riding threatens in seas `offBowDeg` (135 to 180) off the bow, m/s: 1.8 √L / cos(180 − α), knots. Null outside.
 * Source: the circular's figure 1; its formula from memory.
 *
 * @example
 * knotsFromMps(surfRidingFromMps(10.06, 180) ?? 0) // => 5.709
 */
export function surfRidingFromMps(lengthMetres: number, offBowDeg: number): number | null {
  if (offBowDeg < 135) return null;
  return (1.8 * Math.sqrt(lengthMetres) * MPS_PER_KNOT) / Math.cos(radFromDeg(180 - offBowDeg));
}

/**
 * Natural period of roll, seconds, from breadth, draught, waterline length and metacentric height, all metres: 2 C B / √GM with
 * C = 0.373 + 0.023 B/d − 0.043 L/100. Source: IMO, 2008 IS Code, part A, 2.3; for ships.
 *
 * @example
 * rollPeriodSeconds({ beamMetres: 3.8, draughtMetres: 1.7, waterlineMetres: 10.06, metacentricMetres: 1.1 }) // => 3.044
 */
export function rollPeriodSeconds(hull: {
  readonly beamMetres: number;
  readonly draughtMetres: number;
  readonly waterlineMetres: number;
  readonly metacentricMetres: number;
}): number {
  const { beamMetres, draughtMetres, waterlineMetres, metacentricMetres } = hull;
  const c = 0.373 + (0.023 * beamMetres) / draughtMetres - (0.043 * waterlineMetres) / 100;
  return (2 * c * beamMetres) / Math.sqrt(metacentricMetres);
}

/** What the circular would warn a ship of, in waves of this height and length met so. */
export function notesForShips(
  ship: ShipInSea,
  wave: { readonly heightMetres: number; readonly lengthMetres: number },
  encounter: Encounter,
): readonly ShipNote[] {
  const notes: ShipNote[] = [];
  const fromMps = surfRidingFromMps(ship.lengthMetres, encounter.offBowDeg);
  if (fromMps !== null && ship.speedMps > fromMps) notes.push({ kind: "surf-riding", fromMps });
  const own = Math.sqrt((2 * Math.PI * wave.lengthMetres) / GRAVITY_MPS2);
  const met = encounter.periodSeconds === null ? null : encounter.periodSeconds / own;
  const high = wave.lengthMetres > 0.8 * ship.lengthMetres && wave.heightMetres > 0.04 * ship.lengthMetres;
  if (high && encounter.sector === "following" && met !== null && met >= 1.8 && met <= 3) notes.push({ kind: "successive-high-waves" });
  const roll = ship.rollPeriodSeconds;
  if (roll !== null && encounter.periodSeconds !== null) {
    const nearly = (seconds: number): boolean => Math.abs((encounter.periodSeconds ?? 0) - seconds) <= NEARLY_A_PERIOD * seconds;
    if (nearly(roll)) notes.push({ kind: "synchronous-rolling" });
    if (nearly(roll) || nearly(roll / 2)) notes.push({ kind: "parametric-rolling" });
  }
  return notes;
}
