import { degFromRad, type Motion, motionToward, radFromDeg, speedOf, towardOf, wrap360Deg } from "../units/index.ts";

/** A wind and where it comes from, degrees true in [0, 360); a calm comes from nowhere. */
export interface WindFrom {
  readonly windMps: number;
  readonly windFromDegTrue: number | null;
}

/**
 * The wind over the water, which is what a boat and the waves feel: the wind over the ground less the motion of the water (vectors).
 * `current` is over the ground, toward, m/s.
 */
export function windOverWater(overGround: WindFrom, current: Motion): WindFrom {
  const from = overGround.windFromDegTrue;
  // A wind from a bearing moves toward its reverse: the sign turns here and back below.
  const wind = from === null ? { eastMps: 0, northMps: 0 } : motionToward(-overGround.windMps, from);
  const moving = { eastMps: wind.eastMps - current.eastMps, northMps: wind.northMps - current.northMps };
  const toward = towardOf(moving);
  return { windMps: speedOf(moving), windFromDegTrue: toward === null ? null : wrap360Deg(toward + 180) };
}

/** A wind as it is felt or reckoned on board: speed, and the angle off the bow, 0 (ahead) to 180 (astern), the same on either side. */
export interface WindOffBow {
  readonly windMps: number;
  readonly angleDeg: number;
}

/**
 * Apparent wind speed, m/s, of a boat that goes at `boatMps` along its heading, in a true wind (over the water) of `windMps` whose angle
 * off the bow has the cosine `cosAngle`. Leeway is left out: it turns the apparent wind by less than its own few degrees.
 */
export function apparentWindMps(windMps: number, cosAngle: number, boatMps: number): number {
  // Rounding can carry the sum of squares a hair below nought when the boat runs exactly with the wind.
  return Math.sqrt(Math.max(0, windMps * windMps + boatMps * boatMps + 2 * windMps * boatMps * cosAngle));
}

/** Apparent wind from true wind (both off the bow) and the boat's speed through the water, m/s and degrees. No apparent wind: angle 0. */
export function apparentFromTrue(trueWind: WindOffBow, boatMps: number): WindOffBow {
  const trueRad = radFromDeg(trueWind.angleDeg);
  const ahead = trueWind.windMps * Math.cos(trueRad) + boatMps;
  const abeam = trueWind.windMps * Math.sin(trueRad);
  return { windMps: Math.hypot(ahead, abeam), angleDeg: degFromRad(Math.atan2(abeam, ahead)) };
}

/** True wind (over the water) from apparent wind, as from the instruments on board. The inverse of `apparentFromTrue`. */
export function trueFromApparent(apparent: WindOffBow, boatMps: number): WindOffBow {
  return apparentFromTrue(apparent, -boatMps);
}
