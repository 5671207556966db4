import { type SteerAnswer, type SteerCompass, steerJson } from "../api/index.ts";
import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import { parseLocalTime } from "../core/calendar/index.ts";
import { compassHeading, type DeviationCard, trueHeading, variationAt } from "../core/earth/index.ts";
import { courseToSteer, madeGood } from "../core/passage/index.ts";
import { parseAngle, parseBearing, parseLength, parsePosition, parseSpeed, quoted, tidy, wrap360Deg } from "../core/units/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { steerText } from "./text/steer-text.ts";
import { Typed } from "./typed.ts";

interface SteerFlags {
  readonly track?: string;
  readonly heading?: string;
  readonly speed?: string;
  readonly set?: string;
  readonly rate?: string;
  readonly distance?: string;
  readonly variation?: string;
  readonly deviation?: string;
  readonly at?: string;
  readonly near?: string;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  athwart steer --track 090 --speed "6 kn" --set 210 --rate "2 kn"
  athwart steer --track 119 --speed "5.6 kn" --set N --rate "3.2 kn" --variation 10W --deviation 2E
  athwart steer --track 090 --speed "6 kn" --set 210 --rate "2 kn" --distance "45 nm" --json
  athwart steer --heading "092 C" --speed "5.6 kn" --set 030 --rate "3 kn" --near "33 36S 118 30W" --at "2027-04-08 0200 UTC-8"
  athwart steer --track 090 --speed "2 kn" --set 270 --rate "3 kn"                          (exit 1)

A bearing alone is true. Exit: 0 answered, 1 the track can't be held, 2 bad
input.`;

/** Bounds of what a small boat and a current do, m/s: past them a unit or a figure was mistyped. Ours. */
const FASTEST_MPS = 30;

export const steerCommand: AddCommand = (program, context, done) => {
  program
    .command("steer")
    .description("the course to steer to make good a track in a current, or what a heading makes good")
    .option("--track <BEARING>", "the course to make good, true: 090, ESE")
    .option("--heading <BEARING>", 'instead of --track: the heading steered: 080, "080 C" by compass, "080 M" magnetic')
    .option("--speed <SPEED>", `the boat's, through the water: "6 kn"`)
    .option("--set <BEARING>", "where the current sets toward, true: 210, SW")
    .option("--rate <SPEED>", 'how fast the current runs: "2 kn"')
    .option("--distance <LENGTH>", 'over the ground, for the time it takes: "45 nm"')
    .option("--variation <ANGLE>", `for headings by compass: 10W, "12°30'E"`)
    .option("--deviation <ANGLE>", "on this heading: 2E")
    .option("--near <POSITION>", `with --at, instead of --variation: the magnetic model's there: "33 48.7S 118 02.2W"`)
    .option("--at <TIME>", 'when, with its zone: "2027-04-08 0600 UTC-8"')
    .option("--json", "the whole answer as JSON (athwart.steer/1)")
    .addHelpText("after", EXAMPLES)
    .action((flags: SteerFlags) => {
      const read = solve(flags);
      if (!read.ok) return done(tellIssues(context, read.issues, flags.json === true));
      const answer = read.value;
      context.out(flags.json === true ? `${JSON.stringify(steerJson(answer), null, 2)}\n` : steerText(answer));
      done(answer.headingDegTrue === null ? NO_ANSWER : ANSWERED);
    });
};

/** Reads the flags, everything wrong with them at once, and solves the triangle. */
function solve(flags: SteerFlags): Parsed<SteerAnswer> {
  const typed = new Typed();
  typed.issues.push(...clashes(flags));
  const speedMps = typed.need("--speed", flags.speed, '"6 kn"', (text, path) =>
    parseSpeed(text, path, { positive: true, max: FASTEST_MPS }),
  );
  const setDegTrue = typed.need("--set", flags.set, "210", parseBearing);
  const rateMps = typed.need("--rate", flags.rate, '"2 kn"', (text, path) => parseSpeed(text, path, { min: 0, max: FASTEST_MPS }));
  const distanceMetres = typed.read("--distance", flags.distance, (text, path) => parseLength(text, path, { positive: true }));
  const trackDegTrue = typed.read("--track", flags.track, parseBearing);
  const { correction, deviationCard } = readCorrection(flags, typed);
  const known = correction?.kind === "compass" ? { variationDeg: correction.variationDeg, deviationCard } : null;
  const headingDegTrue = typed.read("--heading", flags.heading, (text, path) => readHeading(text, path, known));
  if (typed.issues.length > 0) return bad(...typed.issues);
  if (speedMps === null || setDegTrue === null || rateMps === null) throw new Error("a flag was neither read nor complained of");
  const steered = triangle(trackDegTrue, headingDegTrue, speedMps, setDegTrue, rateMps);
  const { speedMadeGoodMps } = steered;
  const makesWay = speedMadeGoodMps !== null && speedMadeGoodMps > 0;
  return good({
    ...steered,
    speedThroughWaterMps: speedMps,
    currentTowardDegTrue: setDegTrue,
    currentRateMps: rateMps,
    trackDegTrue,
    distanceMetres,
    durationSeconds: distanceMetres !== null && makesWay ? distanceMetres / speedMadeGoodMps : null,
    compass:
      correction?.kind === "compass" && known !== null && steered.headingDegTrue !== null
        ? { ...correction, heading: compassHeading(steered.headingDegTrue, known) }
        : correction,
  });
}

/** Flags that are missing beside others, or that can't stand together. */
function clashes(flags: SteerFlags): readonly Issue[] {
  const issues: Issue[] = [];
  if (flags.track === undefined && flags.heading === undefined) {
    const cure = "Add the course to make good, as in --track 090.";
    issues.push(issue("--track", "argument-missing", "neither --track nor --heading was typed", cure));
  }
  if (flags.track !== undefined && flags.heading !== undefined) {
    issues.push(issue("--heading", "options-clash", "either --track or --heading, not both: the other one is what comes out"));
  }
  if (flags.variation !== undefined && (flags.near !== undefined || flags.at !== undefined)) {
    issues.push(issue("--variation", "options-clash", "either --variation, or --near and --at for the magnetic model's, not both"));
  }
  if ((flags.near === undefined) !== (flags.at === undefined)) {
    const absent = flags.near === undefined ? "--near" : "--at";
    const cure = `Add ${absent}, or give the variation itself: --variation 10W.`;
    issues.push(issue(absent, "argument-missing", `the magnetic model needs a place and a time: ${absent} was not typed`, cure));
  }
  if (flags.deviation !== undefined && flags.variation === undefined && flags.near === undefined && flags.at === undefined) {
    const cure = "Add the variation: --variation 10W.";
    issues.push(issue("--deviation", "argument-missing", "a deviation alone does not lead from true to compass", cure));
  }
  return issues;
}

/** What lies between true and compass, as typed or by the model; null where neither was asked for. */
function readCorrection(flags: SteerFlags, typed: Typed): { correction: SteerCompass | null; deviationCard: DeviationCard } {
  const eastWest = (text: string, path: string): Parsed<number> => parseAngle(text, path, { sense: "eastWest", min: -180, max: 180 });
  const variationDeg = typed.read("--variation", flags.variation, eastWest);
  const deviationDeg = typed.read("--deviation", flags.deviation, eastWest);
  const near = typed.read("--near", flags.near, parsePosition);
  const at = typed.read("--at", flags.at, (text, path) => parseLocalTime(text, null, path));
  const hasDeviation = deviationDeg !== null;
  // One deviation alone stands for every heading.
  const deviationCard: DeviationCard = deviationDeg === null ? [] : [{ headingDegMag: 0, deviationDeg }];
  const compass = (deg: number, from: "typed" | "model", caution: boolean): SteerCompass => ({
    kind: "compass",
    variationDeg: deg,
    from,
    caution,
    hasDeviation,
    heading: null,
  });
  if (variationDeg !== null) return { correction: compass(variationDeg, "typed", false), deviationCard };
  if (near === null || at === null) return { correction: null, deviationCard };
  const variation = variationAt(at, near);
  const correction: SteerCompass = variation.ok
    ? compass(variation.variationDeg, "model", variation.caution)
    : { kind: "true", why: variation.code };
  return { correction, deviationCard };
}

function triangle(trackDegTrue: number | null, headingDegTrue: number | null, speedMps: number, setDegTrue: number, rateMps: number) {
  if (headingDegTrue !== null) {
    const made = madeGood(headingDegTrue, speedMps, setDegTrue, rateMps);
    return { given: "heading" as const, headingDegTrue, courseMadeGoodDegTrue: made.courseDeg, speedMadeGoodMps: made.speed };
  }
  if (trackDegTrue === null) throw new Error("neither a track nor a heading was read");
  const given = "track" as const;
  const found = courseToSteer(trackDegTrue, speedMps, setDegTrue, rateMps);
  if (found === "cannotHold") return { given, headingDegTrue: null, courseMadeGoodDegTrue: null, speedMadeGoodMps: null };
  return { given, headingDegTrue: found.headingDeg, courseMadeGoodDegTrue: trackDegTrue, speedMadeGoodMps: found.speedMadeGood };
}

/** A heading as typed, true, magnetic (`080 M`) or by compass (`080 C`), as degrees true. */
function readHeading(
  text: string,
  path: string,
  correction: { readonly variationDeg: number; readonly deviationCard: DeviationCard } | null,
): Parsed<number> {
  const written = tidy(text);
  const north = /\d[° ]*c(?:ompass)?$/i.test(written) ? "compass" : /\d[° ]*m(?:ag\.?|agnetic)?$/i.test(written) ? "magnetic" : "true";
  const read = parseBearing(text, path, { north });
  if (!read.ok || north === "true") return read;
  if (correction === null) {
    const message = `${quoted(text)} is ${north === "compass" ? "by compass" : "magnetic"}, and no variation is given`;
    return bad(issue(path, "argument-missing", message, "Add --variation 10W, or --near and --at for the magnetic model's."));
  }
  return good(north === "compass" ? trueHeading(read.value, correction).headingDegTrue : wrap360Deg(read.value + correction.variationDeg));
}
