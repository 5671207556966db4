import { geodesicBetween } from "../core/earth/index.ts";
import type { Prepared } from "../core/plan/index.ts";
import { knots, miles, threeFigures } from "./say-quantity.ts";
import { zoneLabel } from "./say-time.ts";

/** The boat and the line: `Tansy, 5.6 kn through the water. 52.0 nm of open water, 119 true.` */
export function boatAndLineInWords({ passage }: Prepared): string {
  const { boat } = passage;
  const leg = geodesicBetween(passage.from.position, passage.to.position);
  const under = { power: "power", sail: "sail", "motor-sail": "motor and sail" }[boat.goes];
  const speed =
    boat.goes === "power" && boat.power?.speedMps != null ? `, ${knots(boat.power.speedMps)} through the water` : ` under ${under}`;
  return `${boat.name}${speed}. ${miles(leg.distanceMetres)} nm of open water, ${threeFigures(leg.initialBearingDegTrue)} true.`;
}

/** Whose clock times are by, for an answer whose times run from `from` to `until`: `Times are ship's time, UTC-8.` */
export function zonesInWords({ passage }: Prepared, from: number, until: number): string {
  const arrivals = passage.arrivalZone === passage.shipZone ? "" : `; arrivals in ${zoneSpan(passage.arrivalZone, from, until)}`;
  return `Times are ship's time, ${zoneSpan(passage.shipZone, from, until)}${arrivals}.`;
}

/** A zone's offset over a stretch of time; both where the clocks change in it. */
function zoneSpan(zone: string, from: number, until: number): string {
  const [first, last] = [zoneLabel(from, zone), zoneLabel(until, zone)];
  return first === last ? first : `${first} and after the clocks change ${last}`;
}
