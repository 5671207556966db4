import { inletJson } from "../api/index.ts";
import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import { addDays, dateAt, firstInstantAtOrPast, parseLocalDate } from "../core/calendar/index.ts";
import type { GateStop } from "../core/places/index.ts";
import { type InletAnswer, inletAt, inletsOf, isEntrance, type Prepared } from "../core/plan/index.ts";
import { epochSeconds, nearestWord, quoted } from "../core/units/index.ts";
import { SAFETY_WORDS } from "../words/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { DEMO_OPTION, DEMO_WORDS, openGiven } from "./opened.ts";
import { inletText } from "./text/inlet-text.ts";
import { wrap } from "./text/wrap.ts";
import { Typed } from "./typed.ts";

interface Options {
  readonly gate?: string;
  readonly on?: string;
  readonly demo?: string;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  athwart inlet examples/inlet/passage.yaml --gate "the bar of Gull Narrow"
  athwart inlet examples/inlet/passage.yaml --gate "the bar of Port Ansa" --on 2027-04-09 --json

The day and every time are by the clock of the gate. Exit: 0 it is open at some
time of the day, 1 it is not (the reasons are said), 2 bad input.`;

export const inletCommand: AddCommand = (program, context, done) => {
  program
    .command("inlet")
    .description("a bar, a cut or another gate half hour by half hour: water, stream, sea, wind, light; open, or why not")
    .argument("[PASSAGE]", "a passage file")
    .option("--gate <NAME>", "which of the passage's gates; the bar or cut unless given")
    .option("--on <DATE>", "the day: 2027-04-08; that of the first departure unless given")
    .option(DEMO_OPTION, DEMO_WORDS)
    .option("--json", "the whole answer as JSON (athwart.inlet/1)")
    .addHelpText("after", EXAMPLES)
    .action(async (file: string | undefined, options: Options) => {
      const json = options.json === true;
      const opened = await openGiven(file, options.demo);
      if (!opened.ok) return done(tellIssues(context, opened.issues, json));
      const { prepared } = opened.value;
      const typed = new Typed();
      const date = typed.read("--on", options.on, parseLocalDate);
      const stop = gateMeant(inletsOf(prepared), options.gate);
      const issues: readonly Issue[] = [...typed.issues, ...(stop.ok ? [] : stop.issues)];
      if (!stop.ok || issues.length > 0) return done(tellIssues(context, issues, json));
      const { zone } = stop.value.gate;
      const first = epochSeconds(prepared.passage.leaveFrom ?? prepared.weather.wind.covers.from);
      const day = date ?? dateAt(first, zone);
      const within = { from: firstInstantAtOrPast(day, 0, zone), until: firstInstantAtOrPast(addDays(day, 1), 0, zone) };
      const answer = inletAt(prepared, stop.value, within);
      context.out(json ? `${JSON.stringify(inletJson(answer), null, 2)}\n` : page(prepared, answer));
      done(answer.clock.spells.some(({ verdict }) => verdict === "open") ? ANSWERED : NO_ANSWER);
    });
};

/** The gate of a name, or the one bar or cut, or the only gate that there is. */
function gateMeant(stops: readonly GateStop[], name: string | undefined): Parsed<GateStop> {
  const names = stops.map(({ gate }) => gate.name);
  if (name !== undefined) {
    const found = stops.find(({ gate }) => gate.name === name.trim());
    if (found !== undefined) return good(found);
    const near = nearestWord(name.trim(), names);
    const hint = near !== null ? `; did you mean ${quoted(near)}?` : names.length === 0 ? "" : `; they are ${names.map(quoted).join(", ")}`;
    return bad(issue("--gate", "argument-not-understood", `${quoted(name)} is none of the passage's gates${hint}`));
  }
  const entrances = stops.filter(isEntrance);
  const [only, ...others] = entrances.length > 0 ? entrances : stops;
  if (only === undefined) {
    return bad(issue("PASSAGE", "inlet-none", "the passage has no gate that is passed afloat"));
  }
  if (others.length === 0) return good(only);
  const which = [only, ...others].map(({ gate }) => quoted(gate.name)).join(", ");
  return bad(issue("--gate", "argument-missing", `the passage has several: ${which}`, "Add --gate and the name of one."));
}

function page({ passage }: Prepared, answer: InletAnswer): string {
  const invented = passage.invented ? " Everything in this passage is invented, for demonstration." : "";
  return `${inletText(answer)}\n\n${wrap(`${SAFETY_WORDS}${invented}`)}\n`;
}
