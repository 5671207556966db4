import type { SkyPlace } from "../../earth/index.ts";
import { turnDeg } from "../../units/index.ts";
import type { EntranceReason, ReadByEye } from "./entrance.ts";

/** A sun higher than this is overhead and blinds on no course, degrees (common practice). */
export const OVERHEAD_SUN_DEG = 60;

/** What the sun withholds from an eye that reads the water: too low, or in the eye. Below the horizon it does not blind. */
export function eyeReasons({ sunAboveDeg, offBow }: ReadByEye, { altitudeDeg, azimuthDegTrue }: SkyPlace): EntranceReason[] {
  const reasons: EntranceReason[] = [];
  if (altitudeDeg < sunAboveDeg) reasons.push({ kind: "sunLow", altitudeDeg, leastDeg: sunAboveDeg });
  if (offBow !== null && altitudeDeg > 0 && altitudeDeg <= OVERHEAD_SUN_DEG) {
    const offBowDeg = Math.abs(turnDeg(offBow.courseDegTrue, azimuthDegTrue));
    if (offBowDeg < offBow.leastDeg) reasons.push({ kind: "sunAhead", offBowDeg, leastDeg: offBow.leastDeg });
  }
  return reasons;
}
