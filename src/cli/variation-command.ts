import { type VariationAnswer, variationJson } from "../api/index.ts";
import { bad, issue, meaningOf, type Parsed } from "../core/answers/index.ts";
import { parseLocalDate, parseLocalTime } from "../core/calendar/index.ts";
import { type Position, VARIATION_MODEL, VARIATION_MODEL_HOLDS, variationAt } from "../core/earth/index.ts";
import { type EpochSeconds, epochSeconds, parsePosition, quoted, wrap180Deg } from "../core/units/index.ts";
import { eastWest, fullTime, position } from "../words/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { wrap } from "./text/wrap.ts";
import { Typed } from "./typed.ts";

interface VariationFlags {
  readonly near?: string;
  readonly at?: string;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  athwart variation --near "33 48.7S 118 02.2W" --at 2027-04-08
  athwart variation --near "48 18N 123 48W" --at "2026-08-05 0600 UTC-7" --json
  athwart variation --near "33 48.7S 118 02.2W" --at 2031-01-01          (exit 1)

A date alone is taken at 12:00 UTC. Exit: 0 answered, 1 the model has no answer
there and then, 2 bad input.`;

const ALONE = "a date alone is taken at 12:00 UTC.";
const SECONDS_PER_YEAR = 365.25 * 86400;

export const variationCommand: AddCommand = (program, context, done) => {
  program
    .command("variation")
    .description("the magnetic variation at a place and date, by the model")
    .option("--near <POSITION>", 'the place: "33 48.7S 118 02.2W"')
    .option("--at <DATE>", 'the date, or a time with its zone: 2027-04-08, "2027-04-08 0600 UTC-8"')
    .option("--json", "the whole answer as JSON (athwart.variation/1)")
    .addHelpText("after", EXAMPLES)
    .action((flags: VariationFlags) => {
      const json = flags.json === true;
      const typed = new Typed();
      const place = typed.need("--near", flags.near, '"33 48.7S 118 02.2W"', parsePosition);
      const at = typed.need("--at", flags.at, "2027-04-08", parseDateOrTime);
      if (typed.issues.length > 0) return done(tellIssues(context, typed.issues, json));
      if (place === null || at === null) throw new Error("a flag was neither read nor complained of");
      const variation = variationAt(at, place);
      const answer: VariationAnswer = { at, place, variation, changePerYearDeg: changePerYear(at, place) };
      context.out(json ? `${JSON.stringify(variationJson(answer), null, 2)}\n` : variationText(answer));
      done(variation.ok ? ANSWERED : NO_ANSWER);
    });
};

/** A date alone, at 12:00 UTC: the variation of a day is one. Or a time with its zone. */
function parseDateOrTime(text: string, path: string): Parsed<EpochSeconds> {
  const date = parseLocalDate(text, path);
  if (!date.ok) {
    if (/^\d{4}(?:[-/.]\d{1,2})?$/.test(text.trim())) {
      return bad(issue(path, "time-not-understood", `${quoted(text)} names no day`, `Write the whole date, as 2027-04-08; ${ALONE}`));
    }
    const time = parseLocalTime(text, null, path);
    if (time.ok) return time;
    return bad(
      ...time.issues.map((one) =>
        one.code === "zone-missing" ? { ...one, whatToDo: `${one.whatToDo} Or leave the time out: ${ALONE}` } : one,
      ),
    );
  }
  const { year, month, day } = date.value;
  return { ok: true, value: epochSeconds(Date.UTC(year, month - 1, day, 12) / 1000) };
}

/** The change over the year around an instant, as far as the model's years reach; null where it has no answer at either end. */
function changePerYear(at: EpochSeconds, place: Position): number | null {
  const from = epochSeconds(
    Math.max(VARIATION_MODEL_HOLDS.from, Math.min(at - SECONDS_PER_YEAR / 2, VARIATION_MODEL_HOLDS.until - 1 - SECONDS_PER_YEAR)),
  );
  const before = variationAt(from, place);
  const after = variationAt(epochSeconds(from + SECONDS_PER_YEAR), place);
  const holds = at >= VARIATION_MODEL_HOLDS.from && at < VARIATION_MODEL_HOLDS.until;
  return holds && before.ok && after.ok ? wrap180Deg(after.variationDeg - before.variationDeg) : null;
}

function variationText({ at, place, variation, changePerYearDeg }: VariationAnswer): string {
  const where = `${position(place.latitudeDeg, place.longitudeDeg)}, ${fullTime(at, "UTC")}`;
  const model = `${VARIATION_MODEL} (the World Magnetic Model), which holds from ${fullTime(VARIATION_MODEL_HOLDS.from, "UTC")} to ${fullTime(VARIATION_MODEL_HOLDS.until, "UTC")}`;
  if (!variation.ok) {
    const { meaning, whatToDo } = meaningOf(variation.code);
    return `${wrap(`No variation at ${where}. ${meaning}`)}\n\n${wrap(`By ${model}. ${whatToDo}`)}\n`;
  }
  const change = changePerYearDeg === null ? "" : `, changing ${changeWords(changePerYearDeg)}`;
  const caution = variation.caution ? " The horizontal field is weak here: use a magnetic compass with caution." : "";
  return `${wrap(`Variation ${eastWest(variation.variationDeg)} at ${where}${change}.${caution}`)}\n\n${wrap(`By ${model}. Local disturbances are not in the model: a current chart's own figure and notes come first.`)}\n`;
}

/** `6' W a year`, `less than a minute a year`. */
function changeWords(degPerYear: number): string {
  const minutes = Math.round(Math.abs(degPerYear) * 60);
  return minutes === 0 ? "hardly at all from year to year" : `${minutes}' ${degPerYear < 0 ? "W" : "E"} a year`;
}
