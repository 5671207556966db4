import { degFromRad, radFromDeg, wrap360Deg } from "../units/index.ts";

/** Bearings in degrees (all from the same north), speeds in any one unit. */
export interface CourseToSteer {
  readonly headingDeg: number;
  readonly speedMadeGood: number;
}

/**
 * The course to steer to make good a course in a current: sin α = −drift·sin(set − CMG)/S, heading = CMG + α,
 * SMG = S·cos α + drift·cos(set − CMG) (the plane triangle of velocities; any handbook of navigation, "current sailing").
 * `cannotHold` when the current across the course is as strong as the boat or stronger, or when it sets the boat back faster than she goes.
 *
 * @example
 * ```ts
 * courseToSteer(90, 6, 0, 3).headingDeg // => 120
 * ```
 */
export function courseToSteer(courseMadeGoodDeg: number, speed: number, setDeg: number, drift: number): CourseToSteer | "cannotHold" {
  const angleRad = radFromDeg(setDeg - courseMadeGoodDeg);
  const sine = (-drift * Math.sin(angleRad)) / speed;
  if (!(Math.abs(sine) < 1)) return "cannotHold";
  const alphaRad = Math.asin(sine);
  const speedMadeGood = speed * Math.cos(alphaRad) + drift * Math.cos(angleRad);
  if (!(speedMadeGood > 0)) return "cannotHold";
  return { headingDeg: wrap360Deg(courseMadeGoodDeg + degFromRad(alphaRad)), speedMadeGood };
}

/** The course and speed made good when a heading is steered in a current: the sum of both motions. Bearings in degrees, speeds in one unit. */
export function madeGood(
  headingDeg: number,
  speed: number,
  setDeg: number,
  drift: number,
): { readonly courseDeg: number | null; readonly speed: number } {
  const headingRad = radFromDeg(headingDeg);
  const setRad = radFromDeg(setDeg);
  const east = speed * Math.sin(headingRad) + drift * Math.sin(setRad);
  const north = speed * Math.cos(headingRad) + drift * Math.cos(setRad);
  const over = Math.sqrt(east * east + north * north);
  return { courseDeg: over === 0 ? null : wrap360Deg(degFromRad(Math.atan2(east, north))), speed: over };
}

/** The heading and speed needed to make good both a course and a speed. Bearings in degrees, speeds in one unit. */
export function headingAndSpeedFor(
  courseDeg: number,
  speedMadeGood: number,
  setDeg: number,
  drift: number,
): { readonly headingDeg: number | null; readonly speed: number } {
  const needed = madeGood(courseDeg, speedMadeGood, setDeg + 180, drift);
  return { headingDeg: needed.courseDeg, speed: needed.speed };
}

/** The set and drift that took a boat from where dead reckoning put her to where the fix is: from DR to FIX, never the other way. */
export function setAndDrift(drToFixDeg: number, distance: number, hours: number): { readonly setDeg: number; readonly drift: number } {
  if (!(hours > 0)) throw new Error(`a drift needs time: ${hours} h`);
  return { setDeg: wrap360Deg(drToFixDeg), drift: distance / hours };
}
