import { meaningOf } from "../core/answers/index.ts";
import type { HelmOrder, WayArrives, WayName } from "../core/passage/index.ts";
import { type CrossAnswer, forTheHelm, type Prepared, type SteeringCompass } from "../core/plan/index.ts";
import { arrivalInWords } from "./say-leave.ts";
import { eastWest, miles, threeFigures } from "./say-quantity.ts";
import { clock, dayAndClock } from "./say-time.ts";

/** A way's name in words. */
export function wayName(name: WayName): string {
  return {
    oneHeading: "one heading",
    acrossThenTurn: "straight across, then turn",
    holdTrack: "hold the track",
    bowOnDestination: "bow on the destination",
  }[name];
}

/** A heading as the helm is told it: `117 compass`, or `117 true` where no variation is to be had. */
export function headingInWords(prepared: Prepared, compass: SteeringCompass, headingDegTrue: number): string {
  const heading = forTheHelm(prepared, compass, headingDegTrue);
  return heading === null ? `${threeFigures(headingDegTrue)} true` : `${threeFigures(heading.headingDegCompass)} compass`;
}

/** What lies between true and compass, or why headings are true. */
export function compassInWords(compass: SteeringCompass): string {
  if (compass.kind === "true") return `Headings are true: ${meaningOf(compass.why).meaning} ${meaningOf(compass.why).whatToDo}`;
  const from = compass.from === "typed" ? "as typed in the passage file" : "from the magnetic model";
  const caution = compass.caution ? "; the field is weak here, use the compass with caution" : "";
  return `Variation ${eastWest(compass.variationDeg)} ${from}${compass.hasDeviationCard ? "; deviation from the card" : "; no deviation card"}${caution}.`;
}

/** The order to the helm in sentences. */
export function orderInWords(answer: CrossAnswer, compass: SteeringCompass, way: WayArrives): readonly string[] {
  const { prepared } = answer;
  const zone = prepared.passage.shipZone;
  const place = prepared.passage.from.name;
  const first = way.orders[0] as HelmOrder;
  const steer = (order: HelmOrder): string =>
    order.steer.kind === "heading"
      ? `steer ${headingInWords(prepared, compass, order.steer.headingDegTrue)}`
      : order.steer.kind === "holdTrack"
        ? `hold the track ${threeFigures(order.steer.trackDegTrue)} true`
        : "keep the bow on the destination";
  const opening = steer(first);
  const sentences = [
    `${opening.charAt(0).toUpperCase()}${opening.slice(1)} from ${place}${way.orders.length === 1 && first.steer.kind === "heading" ? ", and hold it" : ""}.`,
  ];
  for (const order of way.orders.slice(1))
    sentences.push(`At ${dayAndClock(order.fromAt, zone)}, ${miles(order.fromAlongMetres)} miles across, ${steer(order)}.`);
  const clear = way.clear === null ? "never clear of the stream before the destination" : `clear ${clock(way.clear.at, zone)}`;
  sentences.push(`Mid-stream ${dayAndClock(way.axis.at, zone)}, ${clear}.`);
  sentences.push(
    `Expect to be carried up to ${miles(way.downStreamMetres)} miles down-stream and ${miles(way.upStreamMetres)} up-stream of the straight line.`,
  );
  const { passage } = prepared;
  const arrive = (at: number): string => arrivalInWords(at, passage.arrivalZone, answer.departAt, zone);
  const { arrivalAt } = answer.row;
  const berth = arrivalAt !== null && way === answer.advised && passage.pilotageIn !== null ? `, at the berth ${arrive(arrivalAt)}` : "";
  sentences.push(`Arrive at ${passage.to.name} ${arrive(way.arrivalAt)}${berth}.`);
  if (way.name !== "holdTrack" && way.name !== "bowOnDestination") sentences.push("Do not let the pilot steer to a waypoint.");
  return sentences;
}
