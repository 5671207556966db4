import { epochSeconds, type Motion, mpsFromKnots, speedOf, towardOf } from "../../core/units/index.ts";
import { clock, knots, longDate, miles, position, streamDoubtsOf, threeFigures, zoneLabel } from "../../words/index.ts";
import { SLACK_BELOW_MPS, STREAM_CAUTION, type StreamAnswer } from "../stream-answer.ts";
import { cell, wrap } from "./wrap.ts";

/** A tidal stream on a day as text: its turns, a line each, then each hour's set and rate; what is doubtful said. */
export function streamText(answer: StreamAnswer): string {
  const { stream, zone, from, until, turns, hours, slower } = answer;
  const label = zoneLabel(epochSeconds(from), zone);
  const lines = turns.map(({ kind, at, rateMps, motion }) => {
    const slack = kind.startsWith("slack");
    const still = slack && rateMps < LEAST_MPS;
    return `  ${cell(`${clock(at, zone)} ${zoneLabel(at, zone)}`, 15)}${cell(kind, 20)}${still ? "" : `${setOf(motion)}  ${knots(rateMps)}`}`.trimEnd();
  });
  const byHour = hours.map(({ at, motion }) => `  ${cell(clock(at, zone), 7)}${setOf(motion)}  ${knots(speedOf(motion))}`);
  const told = {
    constants: "from its harmonic constants",
    subordinate: `by its differences from ${stream.told.kind === "constants" ? "" : stream.told.of}`,
    byHours: `by its table of hours from high water at ${stream.told.kind === "constants" ? "" : stream.told.of}`,
  }[stream.told.kind];
  const slack = slower.map((span) => `${clock(span.from, zone)} to ${clock(span.until, zone)}`).join("; ");
  const { latitudeDeg, longitudeDeg } = stream.position;
  const head = `${longDate(epochSeconds(from), zone)}, ${stream.name}, ${position(latitudeDeg, longitudeDeg)}, ${told}: flood ${threeFigures(stream.floodTowardDegTrue)}°, ebb ${threeFigures(stream.ebbTowardDegTrue)}°, degrees true.`;
  const parts = [
    wrap(head),
    lines.length > 0 ? lines.join("\n") : "  no turn this day",
    ...(turns.some(({ kind }) => kind.startsWith("slack")) ? [] : [wrap("It doesn't turn this day: there is no slack.")]),
    wrap(
      slack === ""
        ? `It never runs slower than ${knots(SLACK_BELOW_MPS)} this day.`
        : `${knots(SLACK_BELOW_MPS)} or less: ${slack} ${label}.`,
    ),
    `Each hour, ${label}, set (true) and rate:\n${byHour.join("\n")}`,
    ...streamDoubtsOf(stream, from, until, zone).map((line) => wrap(line)),
    wrap(
      `${stream.withinMetres === null ? "It is not used as a source of water: it has no `within`." : `It is taken to hold within ${miles(stream.withinMetres)} nm.`} ${STREAM_CAUTION} A planning aid, not for navigation: check official tables of tidal streams.`,
    ),
    wrap(`Constants and tables: ${answer.credit}.`),
  ];
  return `${parts.join("\n\n")}\n`;
}

/** Told to a tenth of a knot it is nought. */
const LEAST_MPS = mpsFromKnots(0.05);

function setOf(motion: Motion): string {
  const toward = towardOf(motion);
  return toward === null || speedOf(motion) < LEAST_MPS ? " -- " : `${threeFigures(toward)}°`;
}
