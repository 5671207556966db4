import { leaveJson } from "../api/index.ts";
import { formatInstant } from "../core/calendar/index.ts";
import { geodesicBetween } from "../core/earth/index.ts";
import { type LeaveAnswer, tryDeparture } from "../core/plan/index.ts";
import { epochSeconds } from "../core/units/index.ts";
import { SHARPEST_STEADY_TURN_DEG } from "../core/weather/index.ts";
import { type BoardRow, ENGINE_STOPS_SECONDS, LATEST_TRIED_SECONDS, SPEED_SHARES, spellsOf } from "../core/window/index.ts";
import type { OpenedPassage } from "../storage/index.ts";
import {
  assumptionsInWords,
  bestOf,
  chanceAssumptionsInWords,
  duration,
  fullTime,
  knots,
  leaveInWords,
  limitInWords,
  miles,
  SAFETY_WORDS,
  seamInWords,
  sourcesInWords,
  threeFigures,
  unsetLimitsInWords,
  zoneLabel,
} from "../words/index.ts";
import type { AddCommand } from "./add-command.ts";
import { tryAll, workersTyped } from "./all-departures.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { departureTyped } from "./departure-time.ts";
import { DEMO_PASSAGE, openGiven } from "./opened.ts";
import { boardText } from "./text/board-text.ts";
import { chanceText, tenthsInWords } from "./text/chance-text.ts";
import { gatesText } from "./text/gates-text.ts";
import { whyText } from "./text/why-text.ts";
import { wrap } from "./text/wrap.ts";

interface LeaveOptions {
  readonly demo?: boolean;
  readonly why?: string;
  readonly workers?: string;
  readonly every?: boolean;
  readonly json?: boolean;
}

export const leaveCommand: AddCommand = (program, context, done) => {
  program
    .command("leave")
    .description("try every departure: open, marginal or closed, why, and how much time is in hand")
    .argument("[PASSAGE]", "a passage file")
    .option("--demo", "use the demo's passage")
    .option("--why <TIME>", "all about one departure: every limit, the ways, the time in hand")
    .option("--workers <N>", "how many threads to work on; by the machine's cores unless given")
    .option("--every", "a line for every departure; long shut runs are not folded")
    .option("--json", "the whole answer as JSON (athwart.leave/1)")
    .addHelpText(
      "after",
      '\nExamples:\n  athwart leave --demo\n  athwart leave --demo --every\n  athwart leave --demo --why "2027-04-09 0200"\n  athwart leave --demo --json\n\nExit: 0 a departure is open (with --why: answered), 1 none is, 2 bad input.',
    )
    .action(async (file: string | undefined, options: LeaveOptions) => {
      const json = options.json === true;
      const opened = await openGiven(file, options.demo === true);
      if (!opened.ok) return done(tellIssues(context, opened.issues, json));
      const { prepared } = opened.value;
      const workers = workersTyped(options.workers);
      if (!workers.ok) return done(tellIssues(context, workers.issues, json));
      if (options.why !== undefined) {
        const at = departureTyped(options.why, "--why", prepared);
        if (!at.ok) return done(tellIssues(context, at.issues, json));
        const one = tryDeparture(prepared, at.value);
        const board = json ? one : await tryAll(opened.value, workers.value, context);
        if (board === null) return done(NO_ANSWER);
        context.out(json ? `${JSON.stringify(leaveJson(one), null, 2)}\n` : leaveWhyText(opened.value, one, board));
        return done(ANSWERED);
      }
      const answer = await tryAll(opened.value, workers.value, context);
      if (answer === null) return done(NO_ANSWER);
      context.out(json ? `${JSON.stringify(leaveJson(answer), null, 2)}\n` : leaveText(opened.value, answer, options.every === true));
      done(answer.rows.some((row) => row.verdict.kind === "open") ? ANSWERED : NO_ANSWER);
    });
};

/** The whole answer as text: the sentence, the board, what it rests on. */
export function leaveText(opened: OpenedPassage, answer: LeaveAnswer, every: boolean): string {
  const { prepared } = opened;
  const { passage } = prepared;
  const first = answer.departures[0] ?? passage.leaveFrom ?? prepared.weather.wind.covers.from;
  const parts = [
    headText(opened, first, answer.rows.at(-1)?.arrivalAt ?? answer.departures.at(-1) ?? first),
    wrap(leaveInWords(answer).join(" ")),
    closerText(opened, answer),
    openGatesText(answer),
    boardText(answer, every),
    wrap(
      `Bars: █ open, ▒ marginal, ░ closed, - not judged; right of the rule is room left before never, left of it past never, a cell is 0.15. At the left █ night and ▒ twilight at departure. In hand: until which a later start, a slower boat or a stopped engine shuts a limit; “no door” where none shuts within ${LATEST_TRIED_SECONDS / 3600} h, at ${Math.min(...SPEED_SHARES)} of the speed and with the engine off for ${Math.max(...ENGINE_STOPS_SECONDS) / 3600} h. Your limits, happy to never: ${passage.limits.map(limitInWords).join("; ")}.${passage.limits.some((one) => one.felt === "windAgainstCurrentMps2") ? " kn²: knots of wind against the set times knots of stream." : ""}${tenthsInWords(answer)}`,
    ),
    wrap(unsetLimitsInWords(passage.limits)),
    membersText(answer),
    chanceText(answer, spellsOf(answer.rows).flatMap((spell) => (spell.kind === "open" ? [bestOf(spell.rows)] : []))[0]),
    weatherText(answer),
    seamsText(answer),
    [...sourcesInWords(prepared).map((line) => wrap(line, 80, "    ", "  ")), ...oddText(opened)].join("\n"),
    [...assumptionsInWords(prepared), ...chanceAssumptionsInWords(answer)].map((line) => wrap(line, 80, "    ", "  ")).join("\n"),
    wrap(`${SAFETY_WORDS}${passage.invented ? " Everything in this passage is invented, for demonstration." : ""}`),
  ];
  return `${parts.filter((part) => part !== "").join("\n\n")}\n`;
}

/** One departure as text: all that makes its verdict, and what it rests on. */
function leaveWhyText(opened: OpenedPassage, one: LeaveAnswer, board: LeaveAnswer): string {
  const { prepared } = opened;
  const row = one.rows[0] as BoardRow;
  const parts = [
    headText(opened, row.departAt, row.arrivalAt ?? row.departAt),
    whyText(one, board),
    membersText(one),
    chanceText(one, row),
    weatherText(one),
    seamsText(one),
    [...assumptionsInWords(prepared), ...chanceAssumptionsInWords(one)].map((line) => wrap(line, 80, "    ", "  ")).join("\n"),
    wrap(`${SAFETY_WORDS}${prepared.passage.invented ? " Everything in this passage is invented, for demonstration." : ""}`),
  ];
  return `${parts.filter((part) => part !== "").join("\n\n")}\n`;
}

/** The head of every answer about a passage, whose times run from `from` to `until`. */
export function headText({ prepared }: OpenedPassage, from: number, until: number): string {
  const { passage } = prepared;
  const { boat } = passage;
  const leg = geodesicBetween(passage.from.position, passage.to.position);
  const under = { power: "power", sail: "sail", "motor-sail": "motor and sail" }[boat.goes];
  const speed =
    boat.goes === "power" && boat.power?.speedMps != null ? `, ${knots(boat.power.speedMps)} through the water` : ` under ${under}`;
  const title = `${passage.name}${passage.invented ? "   (invented, for demonstration)" : ""}`;
  const arrivals = passage.arrivalZone === passage.shipZone ? "" : `; arrivals in ${zoneSpan(passage.arrivalZone, from, until)}`;
  const zones = `Times are ship's time, ${zoneSpan(passage.shipZone, from, until)}${arrivals}.`;
  return `${title}\n${wrap(`${boat.name}${speed}. ${miles(leg.distanceMetres)} nm of open water, ${threeFigures(leg.initialBearingDegTrue)} true. ${zones}`)}`;
}

/** A zone's offset over a stretch of time; both where the clocks change in it. */
function zoneSpan(zone: string, from: number, until: number): string {
  const [first, last] = [zoneLabel(from, zone), zoneLabel(until, zone)];
  return first === last ? first : `${first} and after the clocks change ${last}`;
}

/** The command that looks at the departure of the opening sentence closely. */
function closerText({ path }: OpenedPassage, { prepared, rows }: LeaveAnswer): string {
  const first = spellsOf(rows).find((spell) => spell.kind === "open");
  if (first === undefined) return "";
  const { isoDate, time } = formatInstant(epochSeconds(bestOf(first.rows).departAt), prepared.passage.shipZone);
  const passage = path === DEMO_PASSAGE ? "--demo" : /\s/.test(path) ? `"${path}"` : path;
  return `For the order: athwart cross ${passage} --at "${isoDate} ${time.replace(":", "")}"`;
}

/** The gates of the departure that the opening sentence tells of; with none open, those of the first. */
function openGatesText({ rows }: LeaveAnswer): string {
  const open = spellsOf(rows).find((spell) => spell.kind === "open");
  const row = open === undefined ? rows[0] : bestOf(open.rows);
  return row === undefined ? "" : gatesText(row);
}

/** What the members say, and when it last blew against the stream, for the first open departure. */
function membersText(answer: LeaveAnswer): string {
  const row = answer.rows.find((one) => one.verdict.kind === "open");
  if (row === undefined) return "";
  const { agree, of } = row.forecastsAgreeing;
  const zone = answer.prepared.passage.shipZone;
  const sentences: string[] = [];
  if (of > 1) sentences.push(`For the first open departure, ${fullTime(row.departAt, zone)}, ${agree} of ${of} forecasts agree.`);
  if (row.sinceAgainst !== null) {
    sentences.push(
      row.sinceAgainst.kind === "blew"
        ? `The wind last blew 10 kn or more against the stream ${duration(row.sinceAgainst.seconds)} before mid-stream.`
        : `The wind has not blown 10 kn against the stream in the ${duration(row.sinceAgainst.seconds)} before mid-stream that the forecast covers; what went before is not known.`,
    );
  }
  if (!answer.prepared.passage.limits.some((limit) => limit.felt === "calmBeforeSeconds"))
    sentences.push("Two or three calm days before leaving are wanted (common practice).");
  return wrap(sentences.join(" "));
}

/** Where the forecast is too coarse for a shift, and where gusts had to be assumed. */
function weatherText(answer: LeaveAnswer): string {
  const felt = answer.kept.filter((one) => !one.onlyLater).flatMap((one) => (one.planned === null ? [] : [one.planned]));
  const shifts = felt.filter((one) => one.shiftSteps > 0).length;
  const assumed = felt.filter((one) => one.gustAssumed).length;
  const sentences: string[] = [];
  if (shifts > 0)
    sentences.push(
      `On ${shifts} of ${felt.length} departures the wind turns by more than ${SHARPEST_STEADY_TURN_DEG}° within a step of the forecast, or two winds are given for one time: there the worse of both is taken for the whole of it.`,
    );
  if (assumed > 0)
    sentences.push(`On ${assumed} of ${felt.length} departures no gust is given for part of the way and it is assumed from the wind.`);
  return sentences.length === 0 ? "" : wrap(sentences.join(" "));
}

/** The departures under which two runs of a forecast are joined, and the first of the seams. */
function seamsText(answer: LeaveAnswer): string {
  const joined = answer.seams.filter((seams) => seams.length > 0);
  const first = joined[0]?.[0];
  if (first === undefined) return "";
  const which = `For ${joined.length} of ${answer.rows.length} departures no run of a forecast covers the passage whole, and two are joined under it`;
  return wrap(`${which}: ${seamInWords(first, answer.prepared.passage.shipZone)}`);
}

/** What is odd about the files read. */
function oddText(opened: OpenedPassage): readonly string[] {
  const zone = opened.prepared.passage.shipZone;
  const files = opened.readings.flatMap((reading) =>
    reading.oddities.map((odd) => wrap(`Note: ${reading.name}: ${odd.message}`, 80, "    ", "  ")),
  );
  const together = opened.together.map((odd) => wrap(`Note: ${odd.message}`, 80, "    ", "  "));
  const letters = opened.letters.flatMap(({ file, letter }) =>
    letter.noted.map((noted) =>
      wrap(
        `Note: ${file}: ${noted.kind} of ${noted.quantity} from ${fullTime(noted.from, zone)} to ${fullTime(noted.until, zone)}`,
        80,
        "    ",
        "  ",
      ),
    ),
  );
  return [...files, ...together, ...letters];
}
