/** When the engine goes on and off under sail: speeds under sail through the water, m/s. `offAboveMps` is above `onBelowMps`. */
export interface EngineRule {
  readonly onBelowMps: number;
  readonly offAboveMps: number;
}

/**
 * Whether the engine runs: on when the sails alone give less than `onBelowMps`, off when they give more than `offAboveMps`, and between
 * the two as it was, so that it isn't started and stopped at every puff.
 */
export function engineRuns(rule: EngineRule, sailSpeedMps: number, engineWasOn: boolean): boolean {
  if (sailSpeedMps < rule.onBelowMps) return true;
  if (sailSpeedMps > rule.offAboveMps) return false;
  return engineWasOn;
}
