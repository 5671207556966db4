import { resolve } from "node:path";
import { inspectJson } from "../api/index.ts";
import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import { quoted } from "../core/units/index.ts";
import {
  type FilesTogether,
  filesTogether,
  type InspectedFile,
  inspectFile,
  type OfferedQuantity,
  type PassageNeeds,
  readPassageNeeds,
  worth,
} from "../storage/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { DEMO_NAMES, DEMO_OPTION, demoTyped } from "./opened.ts";
import { fileText, togetherText } from "./text/inspect-text.ts";
import { Typed } from "./typed.ts";

interface InspectFlags {
  readonly for?: string;
  readonly demo?: string;
  readonly zone?: string;
  readonly issued?: string;
  readonly strikeOut?: string;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  athwart inspect demo/morrel/wind.grib2
  athwart inspect demo/morrel/current.nc demo/morrel/letter.txt --demo
  athwart inspect demo/morrel/letter.txt --strike-out 5
  athwart inspect demo/morrel/wind.grib2 --for demo/morrel/passage.yaml --json

Files are told by what they hold, never by their names. Exit: 0 every file was
read (and serves, all or in part), 1 one does not serve, 2 bad input.`;

export const inspectCommand: AddCommand = (program, context, done) => {
  program
    .command("inspect")
    .description("what a forecast, current, letter, sail table, land or passage file holds, and whether it serves")
    .argument("<FILE...>", "one file or several")
    .option("--for <PASSAGE>", "hold the files against this passage: its waters, its departures, what it needs")
    .option(DEMO_OPTION, `hold the files against the demo's passage, or another's: ${DEMO_NAMES}`)
    .option("--zone <ZONE>", "the zone of a letter that names none: UTC-8, Pacific/Tahiti")
    .option("--issued <TIME>", "when a letter that doesn't say was issued: 2027-04-06 0730 UTC-8")
    .option("--strike-out <LINES>", "lines of a letter to leave out, by number: 5, 9")
    .option("--json", "the whole answer as JSON (athwart.inspect/1)")
    .addHelpText("after", EXAMPLES)
    .action(async (paths: string[], flags: InspectFlags) => {
      const json = flags.json === true;
      const typed = new Typed();
      const strikeOutLines = typed.read("--strike-out", flags.strikeOut, parseLines) ?? [];
      const demo = typed.read("--demo", flags.demo, demoTyped);
      if (demo !== null && flags.for !== undefined) typed.issues.push(issue("--demo", "options-clash", "either --for or --demo, not both"));
      if (typed.issues.length > 0) return done(tellIssues(context, typed.issues, json));
      const against = demo?.path ?? flags.for;
      const needs = against === undefined ? null : await readPassageNeeds(against);
      if (needs?.ok === false) return done(tellIssues(context, needs.issues, json));
      const passage = needs === null ? null : needs.value;
      const beside = { zone: flags.zone ?? null, issued: flags.issued ?? null, strikeOutLines, needs: passage };
      const files: InspectedFile[] = [];
      const issues: Issue[] = [];
      for (const path of paths) {
        const file = await inspectFile(path, beside);
        if (file.ok) files.push(file.value);
        else issues.push(...file.issues.filter((one) => !issues.some((known) => isSame(known, one))));
      }
      if (json && issues.length > 0) return done(tellIssues(context, issues, json));
      const asOne = passage === null ? null : filesTogether(files, passage);
      const together =
        passage === null
          ? null
          : { ...togetherOf(files, asOne, passage), asOne, passage: passage.passage, takesSeconds: passage.takesSeconds };
      if (json) context.out(`${JSON.stringify(inspectJson(files, together), null, 2)}\n`);
      else {
        const zone = passage?.passage.shipZone ?? "UTC";
        const parts = files.map((file) => fileText(file, zone, passage));
        if (passage !== null && together !== null && files.length > 0)
          parts.push(togetherText(passage, asOne, together.missing, together.alsoNamed));
        if (parts.length > 0) context.out(`${parts.join("\n\n")}\n`);
      }
      if (issues.length > 0) return done(tellIssues(context, issues, json));
      done(files.some((file) => file.serving?.verdict === "doesNotServe") ? NO_ANSWER : ANSWERED);
    });
};

/** The same thing found in one file by two ways: named on the command line, and by a passage file in its own folder. */
function isSame(known: Issue, one: Issue): boolean {
  const ends = (long: string, short: string): boolean => long === short || long.endsWith(`/${short}`) || long.endsWith(`\\${short}`);
  return known.code === one.code && known.message === one.message && (ends(known.path, one.path) || ends(one.path, known.path));
}

/** `5`, `5, 9`, `5 9` → line numbers. */
function parseLines(text: string, path: string): Parsed<readonly number[]> {
  const words = text.trim().split(/[\s,]+/);
  if (words.every((word) => /^[1-9]\d{0,5}$/.test(word))) return good(words.map(Number));
  return bad(
    issue(path, "argument-not-understood", `${quoted(text)} is no list of line numbers`, "Write the numbers, as in --strike-out 5,9."),
  );
}

/** What the passage needs that none of the files gives it, and the files that it names beside them. */
function togetherOf(
  files: readonly InspectedFile[],
  asOne: FilesTogether | null,
  needs: PassageNeeds,
): { missing: OfferedQuantity[]; alsoNamed: string[] } {
  const given = new Set(
    [...files.map((file) => file.serving), asOne?.serving ?? null].flatMap((serving) =>
      (serving?.offers ?? []).filter((offer) => worth(offer) > 0).map((offer) => offer.quantity),
    ),
  );
  const seen = new Set(files.map((file) => resolve(file.name)));
  return {
    missing: [...needs.quantities].filter((quantity) => !given.has(quantity)),
    alsoNamed: needs.namedFiles.filter((name) => !seen.has(resolve(needs.folder, name))),
  };
}
