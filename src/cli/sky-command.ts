import { type SkyAnswer, skyJson } from "../api/index.ts";
import { bad, good, type Parsed } from "../core/answers/index.ts";
import { addDays, dateAt, firstInstantAtOrPast, isoDate, type LocalDate, parseLocalDate, parseZone } from "../core/calendar/index.ts";
import { lightOver, moonIlluminatedShare, moonOver } from "../core/earth/index.ts";
import { departureTimes } from "../core/plan/index.ts";
import { type EpochSeconds, epochSeconds, parsePosition } from "../core/units/index.ts";
import { openPassage, readPassageNeeds } from "../storage/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, tellIssues } from "./context.ts";
import { DEMO_OPTION, DEMO_WORDS, pathGiven } from "./opened.ts";
import { skyText } from "./text/sky-text.ts";
import { Typed } from "./typed.ts";

interface SkyFlags {
  readonly near?: string;
  readonly on?: string;
  readonly zone?: string;
  readonly demo?: string;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  athwart sky --near "33 48.7S 118 02.2W" --on 2027-04-08 --zone UTC-8
  athwart sky --demo
  athwart sky --demo --on 2027-04-13 --json
  athwart sky --near "69 39N 018 57E" --on 2027-06-21 --zone Europe/Oslo

With a passage the place is its destination, the zone that of arrival, and the
day that of its first departure: leave.from, else the first that its forecasts
cover. Exit: 0 answered, 2 bad input.`;

export const skyCommand: AddCommand = (program, context, done) => {
  program
    .command("sky")
    .description("sunrise, sunset, twilights and moon of a day at a place")
    .argument("[PASSAGE]", "a passage file, for its destination and zone")
    .option(DEMO_OPTION, DEMO_WORDS)
    .option("--near <POSITION>", 'the place: "33 48.7S 118 02.2W"')
    .option("--on <DATE>", "the day by the zone's calendar: 2027-04-08")
    .option("--zone <ZONE>", "the zone of the day and of every time: UTC-8, Pacific/Tahiti")
    .option("--json", "the whole answer as JSON (athwart.sky/1)")
    .addHelpText("after", EXAMPLES)
    .action(async (file: string | undefined, flags: SkyFlags) => {
      const json = flags.json === true;
      const answer = await skyOf(file, flags);
      if (!answer.ok) return done(tellIssues(context, answer.issues, json));
      context.out(json ? `${JSON.stringify(skyJson(answer.value), null, 2)}\n` : skyText(answer.value));
      done(ANSWERED);
    });
};

async function skyOf(file: string | undefined, flags: SkyFlags): Promise<Parsed<SkyAnswer>> {
  const given = pathGiven(file, flags.demo);
  if (!given.ok) return given;
  const path = given.value;
  const needs = path === null ? null : await readPassageNeeds(path);
  if (needs?.ok === false) return needs;
  const passage = needs === null ? null : needs.value.passage;
  const typed = new Typed();
  const near =
    passage === null
      ? typed.need("--near", flags.near, '"33 48.7S 118 02.2W"', parsePosition)
      : typed.read("--near", flags.near, parsePosition);
  const typedZone = passage === null ? typed.need("--zone", flags.zone, "UTC-8", parseZone) : typed.read("--zone", flags.zone, parseZone);
  const zone = typedZone ?? passage?.arrivalZone ?? null;
  const leaveFrom =
    path === null || passage === null ? null : (passage.leaveFrom ?? (flags.on === undefined ? await firstCovered(path) : null));
  const first = leaveFrom !== null && zone !== null ? dateAt(leaveFrom, zone) : null;
  const typedDate =
    first === null ? typed.need("--on", flags.on, "2027-04-08", parseLocalDate) : typed.read("--on", flags.on, parseLocalDate);
  if (typed.issues.length > 0) return bad(...typed.issues);
  const date = typedDate ?? first;
  const place = near !== null ? { name: null, ...near } : passage !== null ? { name: passage.to.name, ...passage.to.position } : null;
  if (place === null || zone === null || date === null) throw new Error("a flag was neither read nor complained of");
  return good(skyAt(place, date, zone));
}

/** The first departure that the passage's forecasts cover; null where they cover none or can't all be read. */
async function firstCovered(path: string): Promise<EpochSeconds | null> {
  const opened = await openPassage(path);
  return opened.ok ? (departureTimes(opened.value.prepared)[0] ?? null) : null;
}

/** The local day's light at a place. */
function skyAt(place: SkyAnswer["place"], date: LocalDate, zone: string): SkyAnswer {
  const from = firstInstantAtOrPast(date, 0, zone);
  const until = firstInstantAtOrPast(addDays(date, 1), 0, zone);
  const middle = epochSeconds((from + until) / 2);
  const day = { from, until };
  return {
    isoDate: isoDate(date),
    zone,
    place,
    from,
    until,
    light: lightOver(day, place),
    moon: moonOver(day, place),
    moonLitShare: moonIlluminatedShare(middle),
    moonLitAt: middle,
    moonWaxing: moonIlluminatedShare(until) > moonIlluminatedShare(from),
  };
}
