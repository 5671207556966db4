/** Standard acceleration of gravity, m/s² (3rd General Conference on Weights and Measures, 1901). */
export const GRAVITY_MPS2 = 9.80665;

/**
 * Share of the hull speed at which a displacement boat cruises under power. Common practice: 60 to 70 % is economical and 75 % the most
 * that pays, so that a boat with a hull speed of 8 kn cruises at about 6.
 */
export const CRUISE_SHARE_OF_HULL_SPEED = 0.7;

/**
 * Hull speed of a displacement boat, m/s, from the length of its waterline in metres: the speed of a deep-water wave as long as the
 * waterline, √(g·L/2π) (linear wave theory; in knots and feet 1.34·√L, as handbooks give it). Throws on a length that is not above 0.
 */
export function hullSpeedMps(waterlineLengthMetres: number): number {
  if (!(waterlineLengthMetres > 0)) throw new Error(`not a waterline length in metres: ${waterlineLengthMetres}`);
  return Math.sqrt((GRAVITY_MPS2 * waterlineLengthMetres) / (2 * Math.PI));
}
