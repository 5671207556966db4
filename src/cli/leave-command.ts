import { leaveJson } from "../api/index.ts";
import { formatInstant } from "../core/calendar/index.ts";
import { type LeaveAnswer, tryDeparture } from "../core/plan/index.ts";
import { epochSeconds } from "../core/units/index.ts";
import { type BoardRow, spellsOf } from "../core/window/index.ts";
import type { OpenedPassage } from "../storage/index.ts";
import {
  assumptionsInWords,
  bestOf,
  boatAndLineInWords,
  chanceAssumptionsInWords,
  coarseWeatherInWords,
  forecastsAgreeInWords,
  fullTime,
  handMeansInWords,
  leaveInWords,
  limitInWords,
  notFitInWords,
  SAFETY_WORDS,
  seamsUnderInWords,
  sourcesInWords,
  streamDoubtsUnder,
  unsetLimitsInWords,
  zonesInWords,
} from "../words/index.ts";
import type { AddCommand } from "./add-command.ts";
import { tryAll, workersTyped } from "./all-departures.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { departureTyped } from "./departure-time.ts";
import { DEMO_OPTION, DEMO_WORDS, openGiven, typedAs } from "./opened.ts";
import { boardText } from "./text/board-text.ts";
import { chanceText, tenthsInWords } from "./text/chance-text.ts";
import { gatesText } from "./text/gates-text.ts";
import { whyText } from "./text/why-text.ts";
import { wrap } from "./text/wrap.ts";

interface LeaveOptions {
  readonly demo?: string;
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
    .option(DEMO_OPTION, DEMO_WORDS)
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
      const opened = await openGiven(file, options.demo);
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
    notFitText(prepared),
    closerText(opened, answer),
    openGatesText(answer),
    boardText(answer, every),
    wrap(
      `Bars: █ open, ▒ marginal, ░ closed, - not judged; right of the rule is room left before never, left of it past never, a cell is 0.15. At the left █ night and ▒ twilight at departure. ${handMeansInWords()} Your limits, happy to never: ${passage.limits.map(limitInWords).join("; ")}.${passage.limits.some((one) => one.felt === "windAgainstCurrentMps2") ? " kn²: knots of wind against the set times knots of stream." : ""}${tenthsInWords(answer)}`,
    ),
    wrap(unsetLimitsInWords(passage.limits)),
    wrap(forecastsAgreeInWords(answer)),
    chanceText(answer, spellsOf(answer.rows).flatMap((spell) => (spell.kind === "open" ? [bestOf(spell.rows)] : []))[0]),
    wrap(coarseWeatherInWords(answer)),
    wrap(streamDoubtsUnder(answer)),
    wrap(seamsUnderInWords(answer)),
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
    notFitText(prepared),
    wrap(forecastsAgreeInWords(one)),
    chanceText(one, row),
    wrap(coarseWeatherInWords(one)),
    wrap(streamDoubtsUnder(one)),
    wrap(seamsUnderInWords(one)),
    [...assumptionsInWords(prepared), ...chanceAssumptionsInWords(one)].map((line) => wrap(line, 80, "    ", "  ")).join("\n"),
    wrap(`${SAFETY_WORDS}${prepared.passage.invented ? " Everything in this passage is invented, for demonstration." : ""}`),
  ];
  return `${parts.filter((part) => part !== "").join("\n\n")}\n`;
}

/** Forecasts of current that are not fit by a tidal station, a paragraph; empty where there is none. */
export function notFitText(prepared: OpenedPassage["prepared"]): string {
  return wrap(notFitInWords(prepared).join(" "));
}

/** The head of every answer about a passage, whose times run from `from` to `until`. */
export function headText({ prepared }: OpenedPassage, from: number, until: number): string {
  const { passage } = prepared;
  const title = `${passage.name}${passage.invented ? "   (invented, for demonstration)" : ""}`;
  return `${title}\n${wrap(`${boatAndLineInWords(prepared)} ${zonesInWords(prepared, from, until)}`)}`;
}

/** The command that looks at the departure of the opening sentence closely. */
function closerText({ path }: OpenedPassage, { prepared, rows }: LeaveAnswer): string {
  const first = spellsOf(rows).find((spell) => spell.kind === "open");
  if (first === undefined) return "";
  const { isoDate, time } = formatInstant(epochSeconds(bestOf(first.rows).departAt), prepared.passage.shipZone);
  return `For the order: athwart cross ${typedAs(path)} --at "${isoDate} ${time.replace(":", "")}"`;
}

/** The gates of the departure that the opening sentence tells of; with none open, those of the first. */
function openGatesText({ rows }: LeaveAnswer): string {
  const open = spellsOf(rows).find((spell) => spell.kind === "open");
  const row = open === undefined ? rows[0] : bestOf(open.rows);
  return row === undefined ? "" : gatesText(row);
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
