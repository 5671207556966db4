import { refugesJson } from "../api/index.ts";
import { bad, good, issue, type Parsed } from "../core/answers/index.ts";
import { WAY_NAMES, type WayName } from "../core/passage/index.ts";
import { type RefugesAnswer, refugesAt, steeringCompass } from "../core/plan/index.ts";
import { nearestWord } from "../core/units/index.ts";
import type { OpenedPassage } from "../storage/index.ts";
import {
  assumptionsInWords,
  compassInWords,
  entrancesInWords,
  REFUGE_WARNING,
  refugeAssumptionsInWords,
  refugesInWords,
  SAFETY_WORDS,
  soonestOf,
} from "../words/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { departureTyped } from "./departure-time.ts";
import { headText } from "./leave-command.ts";
import { DEMO_OPTION, DEMO_WORDS, openGiven } from "./opened.ts";
import { refugesText } from "./text/refuges-text.ts";
import { wrap } from "./text/wrap.ts";
import { Typed } from "./typed.ts";

const LONGEST_SPACING_MINUTES = 24 * 60;

interface Options {
  readonly at: string;
  readonly every?: string;
  readonly way?: string;
  readonly demo?: string;
  readonly json?: boolean;
}

export const refugesCommand: AddCommand = (program, context, done) => {
  program
    .command("refuges")
    .description("where to run to, hour by hour: the soonest that can be entered, the others struck out with why")
    .argument("[PASSAGE]", "a passage file")
    .requiredOption("--at <TIME>", "when to leave the berth: 2027-04-07 2200, THU 2200, 2027-04-08T06:00Z")
    .option("--every <MINUTES>", "how often along the way, minutes; 60 unless given")
    .option("--way <NAME>", `the way that is left, one of ${WAY_NAMES.join(", ")}; the advised one unless given`)
    .option(DEMO_OPTION, DEMO_WORDS)
    .option("--json", "the whole answer as JSON (athwart.refuges/1)")
    .addHelpText(
      "after",
      '\nExamples:\n  athwart refuges --demo --at "2027-04-07 2200"\n  athwart refuges --demo --at "2027-04-07 2200" --every 30 --json\n\nA time without a zone is ship\'s time. Exit: 0 some refuge can be entered from every\nhour, 1 none can from some hour (the reason is said), 2 bad input.',
    )
    .action(async (file: string | undefined, options: Options) => {
      const json = options.json === true;
      const opened = await openGiven(file, options.demo);
      if (!opened.ok) return done(tellIssues(context, opened.issues, json));
      const { prepared } = opened.value;
      const typed = new Typed();
      const at = typed.read("--at", options.at, (text, path) => departureTyped(text, path, prepared));
      const every = typed.read("--every", options.every, parseMinutes);
      const way = typed.read("--way", options.way, parseWay);
      if (at === null || typed.issues.length > 0) return done(tellIssues(context, typed.issues, json));
      const answer = refugesAt(prepared, at, {
        ...(every === null ? {} : { everySeconds: every * 60 }),
        ...(way === null ? {} : { way }),
      });
      context.out(json ? `${JSON.stringify(refugesJson(answer), null, 2)}\n` : refugesPage(opened.value, answer));
      done(answer.hours.length > 0 && answer.hours.every((hour) => soonestOf(hour) !== null) ? ANSWERED : NO_ANSWER);
    });
};

function parseMinutes(text: string, path: string): Parsed<number> {
  const minutes = /^[1-9]\d{0,3}$/.test(text.trim()) ? Number(text) : Number.NaN;
  if (minutes <= LONGEST_SPACING_MINUTES) return good(minutes);
  const message = `“${text.slice(0, 40)}” is not a number of minutes from 1 to ${LONGEST_SPACING_MINUTES}`;
  return bad(issue(path, "argument-not-understood", message));
}

function parseWay(text: string, path: string): Parsed<WayName> {
  const name = WAY_NAMES.find((one) => one === text.trim());
  if (name !== undefined) return good(name);
  const near = nearestWord(text.trim(), WAY_NAMES);
  const hint = near === null ? "" : `; did you mean ${near}?`;
  return bad(issue(path, "argument-not-understood", `“${text.slice(0, 40)}” is not one of ${WAY_NAMES.join(", ")}${hint}`));
}

/** The whole answer as text: the sentence to act on, the page hour by hour, what is asked of each entrance, what it rests on. */
export function refugesPage(opened: OpenedPassage, answer: RefugesAnswer): string {
  const { prepared } = opened;
  const compass = steeringCompass(prepared, answer.openWaterFrom);
  const line = (text: string): string => wrap(text, 80, "    ", "  ");
  const parts = [headText(opened, answer.departAt, answer.way?.arrivalAt ?? answer.departAt), wrap(refugesInWords(answer).join(" "))];
  if (answer.hours.length > 0) {
    parts.push(refugesText(answer, compass));
    parts.push(
      wrap(
        "→ the soonest that can be entered; – struck out on arrival, and why; ? not judged, and never counted among those that can be entered. Steer from the place at the head of the block; entrance: the arrival there; fuel: what is left then; light: first light there, and the wait for it.",
      ),
    );
  }
  parts.push(entrancesInWords(answer).map(line).join("\n"));
  parts.push(wrap(`${refugeAssumptionsInWords(answer, compass).join(" ")} ${compassInWords(compass)}`));
  parts.push(assumptionsInWords(prepared).map(line).join("\n"));
  parts.push(
    wrap(
      `${REFUGE_WARNING} ${SAFETY_WORDS}${prepared.passage.invented ? " Everything in this passage is invented, for demonstration." : ""}`,
    ),
  );
  return `${parts.join("\n\n")}\n`;
}
