import { good, type Parsed } from "../../answers/index.ts";
import { type EpochSeconds, epochSeconds } from "../../units/index.ts";
import { highsAndLows, type TideTurn } from "./highs-and-lows.ts";
import { type SecondaryStation, secondaryPort } from "./secondary-port.ts";
import { tideCurve } from "./tide-curve.ts";
import type { StationFacts, TideStation } from "./tide-station.ts";

/** A port's tide, however it is told: heights in metres above `datum`. */
export interface Tide {
  readonly station: StationFacts;
  readonly datum: string;
  /** The port whose tide it is reckoned from; null where it has constants of its own. */
  readonly reference: StationFacts | null;
  /** Height at an instant: the harmonic sum, or the cosine rule between a secondary port's turns. */
  heightAt(at: EpochSeconds): number;
  /** Every high and low water in [from, until), in order of time. */
  highsAndLows(from: EpochSeconds, until: EpochSeconds): readonly TideTurn[];
}

/** The tide of a station with constants, or what is wrong with them. */
export function harmonicTide(station: TideStation, path?: string): Parsed<Tide> {
  const curve = tideCurve(station, path);
  if (!curve.ok) return curve;
  return good({
    station,
    datum: station.datum,
    reference: null,
    heightAt: (at) => curve.value.heightAt(at),
    highsAndLows: (from, until) => highsAndLows(curve.value, from, until),
  });
}

/** The tide of a secondary port from its reference's constants, or what is wrong with either. */
export function secondaryTide(station: SecondaryStation, reference: TideStation, path?: string): Parsed<Tide> {
  const curve = tideCurve(reference);
  if (!curve.ok) return curve;
  const port = secondaryPort(station, curve.value, path);
  if (!port.ok) return port;
  return good({
    station,
    datum: station.datum,
    reference,
    heightAt: (at) => port.value.heightAt(epochSeconds(at)),
    highsAndLows: (from, until) => port.value.highsAndLows(from, until),
  });
}
