import { degFromRad, radFromDeg, wrap360Deg } from "./angles.ts";

/** A motion in metres a second, toward the east and toward the north. The frame (through the water, over the ground) is said by its user. */
export interface Motion {
  readonly eastMps: number;
  readonly northMps: number;
}

/** The motion of given speed toward a bearing in degrees clockwise from north. */
export function motionToward(speedMps: number, towardDeg: number): Motion {
  const towardRad = radFromDeg(towardDeg);
  return { eastMps: speedMps * Math.sin(towardRad), northMps: speedMps * Math.cos(towardRad) };
}

/** Speed of a motion, m/s. */
export function speedOf(motion: Motion): number {
  return Math.sqrt(motion.eastMps * motion.eastMps + motion.northMps * motion.northMps);
}

/** The bearing toward which a motion goes, degrees in [0, 360); null when it stands still. */
export function towardOf(motion: Motion): number | null {
  if (motion.eastMps === 0 && motion.northMps === 0) return null;
  return wrap360Deg(degFromRad(Math.atan2(motion.eastMps, motion.northMps)));
}
