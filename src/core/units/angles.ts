export const RAD_PER_DEG = Math.PI / 180;
export const radFromDeg = (degrees: number): number => degrees * RAD_PER_DEG;
export const degFromRad = (radians: number): number => radians / RAD_PER_DEG;

/** Any angle in degrees to [0, 360). */
export function wrap360Deg(degrees: number): number {
  const wrapped = degrees % 360;
  const turned = wrapped < 0 ? wrapped + 360 : wrapped;
  // A hair below 0 rounds up to 360 itself; and −0 is 0.
  return turned >= 360 || turned === 0 ? 0 : turned;
}

/** Any angle in degrees to [-180, 180). */
export function wrap180Deg(degrees: number): number {
  return wrap360Deg(degrees + 180) - 180;
}

/** The turn from one bearing to another by the shorter way, degrees, clockwise positive, in [-180, 180). */
export function turnDeg(fromDeg: number, toDeg: number): number {
  return wrap180Deg(toDeg - fromDeg);
}
