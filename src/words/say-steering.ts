import { meaningOf } from "../core/answers/index.ts";
import { type HelmOrder, rateAtNode, type WayArrives, type WayName } from "../core/passage/index.ts";
import { type CrossAnswer, forTheHelm, type Prepared, type SteeringCompass } from "../core/plan/index.ts";
import { squareToInWords } from "./say-lanes.ts";
import { arrivalInWords } from "./say-leave.ts";
import { eastWest, knots, miles, threeFigures } from "./say-quantity.ts";
import { clock, dayAndClock } from "./say-time.ts";

/** A way's name in words. */
export function wayName(name: WayName): string {
  return {
    oneHeading: "one heading",
    squareInLanes: "square in the lanes",
    acrossThenTurn: "straight across, then turn",
    holdTrack: "hold the track",
    bowOnDestination: "bow on the destination",
    changingHeadings: "changing headings",
  }[name];
}

/** What headings are by: `compass`, `magnetic` where there is no deviation card, `true` where no variation is to be had. */
export function northInWords(compass: SteeringCompass): "compass" | "magnetic" | "true" {
  if (compass.kind === "true") return "true";
  return compass.hasDeviationCard ? "compass" : "magnetic";
}

/** A heading as the helm is told it: `117 compass`, `117 magnetic`, `117 true`. */
export function headingInWords(prepared: Prepared, compass: SteeringCompass, headingDegTrue: number): string {
  return `${headingFigure(prepared, compass, headingDegTrue)} ${northInWords(compass)}`;
}

/** The same without what it is by. */
export function headingFigure(prepared: Prepared, compass: SteeringCompass, headingDegTrue: number): string {
  const heading = forTheHelm(prepared, compass, headingDegTrue);
  return threeFigures(heading === null ? headingDegTrue : heading.headingDegCompass);
}

/** What lies between true and compass, or why headings are true. */
export function compassInWords(compass: SteeringCompass): string {
  if (compass.kind === "true") return `Headings are true: ${meaningOf(compass.why).meaning} ${meaningOf(compass.why).whatToDo}`;
  const from = compass.from === "typed" ? "as typed in the passage file" : "from the magnetic model";
  const caution = compass.caution ? "; the field is weak here, use the compass with caution" : "";
  return `Variation ${eastWest(compass.variationDeg)} ${from}${compass.hasDeviationCard ? "; deviation from the card" : "; no deviation card"}${caution}.`;
}

/** One line of an order: `steer 117 compass`, `hold the track 118 true`. */
function steerInWords(prepared: Prepared, compass: SteeringCompass, { steer }: HelmOrder): string {
  if (steer.kind === "heading") {
    const square = steer.squareTo === undefined ? "" : `, ${squareToInWords(steer.squareTo)}`;
    return `steer ${headingInWords(prepared, compass, steer.headingDegTrue)}${square}`;
  }
  return steer.kind === "holdTrack" ? `hold the track ${threeFigures(steer.trackDegTrue)} true` : "keep the bow on the destination";
}

/** A way's orders with their words; what reads as the order before it is not said again. */
function ordersInWords(
  prepared: Prepared,
  compass: SteeringCompass,
  way: WayArrives,
): { readonly order: HelmOrder; readonly words: string }[] {
  return way.orders
    .map((order) => ({ order, words: steerInWords(prepared, compass, order) }))
    .filter(({ words }, i, all) => words !== all[i - 1]?.words);
}

/** A whole order in a line, for the ways that are not advised: `steer 117 compass, from Thu 05:04 steer 068 compass`. */
export function ordersInALine(prepared: Prepared, compass: SteeringCompass, way: WayArrives): string {
  const zone = prepared.passage.shipZone;
  return ordersInWords(prepared, compass, way)
    .map(({ order, words }, i) => `${i === 0 ? "" : `from ${dayAndClock(order.fromAt, zone)} `}${words}`)
    .join(", ");
}

/** Below this share of its greatest rate somewhere on the way a stream has a middle worth naming. */
const EVEN_STREAM_SHARE = 0.8;

/** Where the stream is strongest and where it is left; a stream that is much the same all the way has no middle. */
function streamInWords(way: WayArrives, zone: string): string {
  let least = way.axis.rateMps;
  for (let i = 0; i < way.track.count; i++) least = Math.min(least, rateAtNode(way.track, i));
  if (way.clear === null && least > EVEN_STREAM_SHARE * way.axis.rateMps)
    return `The stream runs up to ${knots(way.axis.rateMps)} all the way.`;
  const clear = way.clear === null ? "never clear of the stream before the destination" : `clear ${clock(way.clear.at, zone)}`;
  return `Mid-stream ${dayAndClock(way.axis.at, zone)}, ${clear}.`;
}

/** The order to the helm in sentences. */
export function orderInWords(answer: CrossAnswer, compass: SteeringCompass, way: WayArrives): readonly string[] {
  const { prepared } = answer;
  const { passage } = prepared;
  const zone = passage.shipZone;
  const [first, ...others] = ordersInWords(prepared, compass, way);
  if (first === undefined) throw new Error(`way ${way.name} has no order`);
  const opening = first.words;
  const hold = others.length === 0 && first.order.steer.kind === "heading" ? ", and hold it" : "";
  const sentences = [`${opening.charAt(0).toUpperCase()}${opening.slice(1)} from ${passage.from.name}${hold}.`];
  for (const { order, words } of others)
    sentences.push(`At ${dayAndClock(order.fromAt, zone)}, ${miles(order.fromAlongMetres)} miles across, ${words}.`);
  if (way.laneCrossings.some((crossing) => crossing.flagged))
    sentences.push("It is not square in a traffic lane, which rule 10(c) asks for: see the lanes below.");
  sentences.push(streamInWords(way, zone));
  sentences.push(
    `Expect to be up to ${miles(way.upStreamMetres)} miles up-stream and ${miles(way.downStreamMetres)} down-stream of the straight line.`,
  );
  const arrive = (at: number): string => arrivalInWords(at, passage.arrivalZone, answer.departAt, zone);
  const { arrivalAt } = answer.row;
  const berth = arrivalAt !== null && way === answer.advised && passage.pilotageIn !== null ? `, at the berth ${arrive(arrivalAt)}` : "";
  sentences.push(`Arrive at ${passage.to.name} ${arrive(way.arrivalAt)}${berth}.`);
  if (way.name !== "holdTrack" && way.name !== "bowOnDestination") sentences.push("Do not let the autopilot steer to a waypoint.");
  return sentences;
}
