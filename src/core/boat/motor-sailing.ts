/** How the thrusts of engine and sails add: squares (drag goes with the square of the speed); up to 3 near the hull speed. */
export const MOTOR_SAILING_EXPONENT = 2;

/** The sails help an engine only with the apparent wind beyond this angle off the bow; closer, a headsail shakes. Common practice. */
export const HEADSAIL_ONLY_BEYOND_DEG = 35;

/**
 * Speed under engine and sails together, m/s: (Vm^n + Vs^n)^(1/n). Drag goes as the speed to the power n, thrusts add, and each thrust is
 * the drag at the speed it gives alone; n is 2 well below the hull speed and nearer 3 close to it. (A plain balance of forces; it gives
 * about a knot from a headsail in 5.5 kn of motoring, as common practice has it.)
 *
 * The sum is capped at `hullSpeedMps` (null: not known, no cap), but never below what engine or sails give alone.
 */
export function combinedSpeedMps(motorMps: number, sailMps: number, exponent: number, hullSpeedMps: number | null): number {
  const together =
    exponent === 2 ? Math.sqrt(motorMps * motorMps + sailMps * sailMps) : (motorMps ** exponent + sailMps ** exponent) ** (1 / exponent);
  return hullSpeedMps === null ? together : Math.min(together, Math.max(hullSpeedMps, motorMps, sailMps));
}
