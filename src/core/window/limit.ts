/** What the boat feels along a passage and a limit may be set on. Units in the names. */
export type Felt = "windMps" | "gustMps" | "windAgainstCurrentMps2" | "seaHeightMetres" | "seaPeriodSeconds" | "sunAltitudeDeg";

/**
 * A limit the skipper sets, two numbers: at `happy` and beyond untroubled, at `never` and beyond closed.
 * margin = (never − value) / (never − happy); the same form serves minima (never below happy), the signs turn by themselves.
 */
export interface Limit {
  readonly felt: Felt;
  readonly happy: number;
  readonly never: number;
  /** Where it is judged: along the whole passage, in open water only, or from the arrival point to the berth. */
  readonly during: "wholePassage" | "openWater" | "arrival";
  /** How long an exceedance may last before it counts, seconds. */
  readonly toleratedSeconds: number;
}
