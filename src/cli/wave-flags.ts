import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import type { GivenPeriod } from "../core/sea/index.ts";
import {
  GREATEST_SEA_METRES,
  LONGEST_PERIOD_SECONDS,
  parseBearing,
  parseDuration,
  parseLength,
  parseSpeed,
  parseWindRange,
  quoted,
  tidy,
  type WindRange,
} from "../core/units/index.ts";
import { Typed } from "./typed.ts";

export interface WaveFlags {
  readonly height?: string;
  readonly period?: string;
  readonly from?: string;
  readonly set?: string;
  readonly rate?: string;
  readonly depth?: string;
  readonly here?: boolean;
  readonly periodIs?: string;
  readonly currentInIt?: boolean;
  readonly total?: boolean;
  readonly wind?: string;
  readonly fetch?: string;
  readonly for?: string;
  readonly dropped?: string;
  readonly boatSpeed?: string;
  readonly course?: string;
  readonly boatLength?: string;
  readonly json?: boolean;
}

/** What was asked, in SI; null where it was not typed. */
export interface WaveQuestion {
  readonly waves: { readonly heightMetres: number; readonly periodSeconds: number; readonly fromDegTrue: number } | null;
  readonly periodGiven: GivenPeriod;
  readonly heightGivenThere: boolean;
  readonly currentAlreadyIn: boolean;
  readonly isTotal: boolean;
  /** Still water: toward null. */
  readonly current: { readonly towardDegTrue: number | null; readonly rateMps: number };
  readonly depthMetres: number | null;
  readonly wind: {
    readonly range: WindRange;
    readonly fetchMetres: number | null;
    readonly durationSeconds: number | null;
    readonly droppedSeconds: number | null;
  } | null;
  readonly boat: { readonly speedMps: number; readonly headingDegTrue: number; readonly lengthMetres: number | null } | null;
}

/** Bounds past which a figure or a unit was mistyped; ours. */
const FASTEST_MPS = 30;
const DEEPEST_METRES = 12_000;
const SHORTEST_PERIOD_SECONDS = 0.5;
const LONGEST_FETCH_METRES = 20_000e3;
const LONGEST_BLOW_SECONDS = 30 * 86_400;
const LONGEST_BOAT_METRES = 500;

const PERIODS: Readonly<Record<string, GivenPeriod>> = { peak: "peak", energy: "energy", mean: "mean", "zero-crossing": "zeroCrossing" };

/** Reads the flags of `wave`; everything wrong with them at once. */
export function readWaveFlags(flags: WaveFlags): Parsed<WaveQuestion> {
  const typed = new Typed();
  typed.issues.push(...missing(flags));
  const heightMetres = typed.read("--height", flags.height, (text, path) => parseLength(text, path, { min: 0, max: GREATEST_SEA_METRES }));
  const periodSeconds = typed.read("--period", flags.period, (text, path) =>
    parseDuration(text, path, { min: SHORTEST_PERIOD_SECONDS, max: LONGEST_PERIOD_SECONDS }),
  );
  const fromDegTrue = typed.read("--from", flags.from, parseBearing);
  const setDegTrue = typed.read("--set", flags.set, parseBearing);
  const rateMps = typed.read("--rate", flags.rate, (text, path) => parseSpeed(text, path, { min: 0, max: FASTEST_MPS }));
  const depthMetres = typed.read("--depth", flags.depth, (text, path) => parseLength(text, path, { positive: true, max: DEEPEST_METRES }));
  const periodGiven = typed.read("--period-is", flags.periodIs, readPeriodKind) ?? "notSaid";
  const range = typed.read("--wind", flags.wind, parseWindRange);
  const fetchMetres = typed.read("--fetch", flags.fetch, (text, path) => parseLength(text, path, { min: 0, max: LONGEST_FETCH_METRES }));
  const blow = (text: string, path: string): Parsed<number> => parseDuration(text, path, { min: 0, max: LONGEST_BLOW_SECONDS });
  const durationSeconds = typed.read("--for", flags.for, blow);
  const droppedSeconds = typed.read("--dropped", flags.dropped, blow);
  const boatSpeedMps = typed.read("--boat-speed", flags.boatSpeed, (text, path) => parseSpeed(text, path, { min: 0, max: FASTEST_MPS }));
  const headingDegTrue = typed.read("--course", flags.course, parseBearing);
  const lengthMetres = typed.read("--boat-length", flags.boatLength, (text, path) =>
    parseLength(text, path, { positive: true, max: LONGEST_BOAT_METRES }),
  );
  if (typed.issues.length > 0) return bad(...typed.issues);
  const waves =
    heightMetres === null || periodSeconds === null || fromDegTrue === null ? null : { heightMetres, periodSeconds, fromDegTrue };
  return good({
    waves,
    periodGiven,
    heightGivenThere: flags.here === true,
    currentAlreadyIn: flags.currentInIt === true,
    isTotal: flags.total === true,
    current: { towardDegTrue: rateMps === null || rateMps === 0 ? null : setDegTrue, rateMps: rateMps ?? 0 },
    depthMetres,
    wind: range === null ? null : { range, fetchMetres, durationSeconds, droppedSeconds },
    boat: boatSpeedMps === null || headingDegTrue === null ? null : { speedMps: boatSpeedMps, headingDegTrue, lengthMetres },
  });
}

/** Flags that are missing beside others. */
function missing(flags: WaveFlags): readonly Issue[] {
  const issues: Issue[] = [];
  const absent = (flag: string, message: string, cure: string): void => {
    issues.push(issue(flag, "argument-missing", message, cure));
  };
  const trio = [
    ["--height", flags.height, `"3 ft"`],
    ["--period", flags.period, `"10 s"`],
    ["--from", flags.from, "045"],
  ] as const;
  const anyWave = trio.some(([, text]) => text !== undefined);
  if (!anyWave && flags.wind === undefined)
    absent(
      "--height",
      "neither waves nor a wind were typed",
      'Add --height "3 ft" --period "10 s" --from 045, or --wind "NE 20" with --fetch or --for.',
    );
  if (anyWave)
    for (const [flag, text, example] of trio)
      if (text === undefined)
        absent(flag, `waves need a height, a period and where they come from: ${flag} was not typed`, `Add it, as in ${flag} ${example}.`);
  if (flags.wind !== undefined && flags.fetch === undefined && flags.for === undefined)
    absent(
      "--fetch",
      "a wind raises a sea over a distance and in a time; neither was typed",
      'Add --fetch "40 nm" to the shore up-wind, or --for "6 h", or both.',
    );
  if (flags.wind === undefined)
    for (const [flag, text] of [
      ["--fetch", flags.fetch],
      ["--for", flags.for],
      ["--dropped", flags.dropped],
    ] as const)
      if (text !== undefined) absent("--wind", `${flag} belongs to a wind, and none was typed`, 'Add the wind, as in --wind "NE 20".');
  const pairs = [
    ["--set", flags.set, "225", "--rate", flags.rate, '"3 kn"', "a current"],
    ["--boat-speed", flags.boatSpeed, '"6 kn"', "--course", flags.course, "080", "the boat's motion"],
  ] as const;
  for (const [one, oneText, oneExample, other, otherText, otherExample, what] of pairs) {
    if (oneText === undefined && otherText !== undefined)
      absent(one, `${what} needs both ${one} and ${other}`, `Add ${one} ${oneExample}.`);
    if (oneText !== undefined && otherText === undefined)
      absent(other, `${what} needs both ${one} and ${other}`, `Add ${other} ${otherExample}.`);
  }
  if (flags.boatLength !== undefined && flags.boatSpeed === undefined && flags.course === undefined)
    absent("--boat-speed", "--boat-length is of use only beside the boat's motion", 'Add --boat-speed "6 kn" --course 080.');
  if (flags.here === true && flags.depth === undefined)
    absent("--depth", "--here says the height holds in a depth, and none was typed", 'Add --depth "4 m".');
  if (flags.total === true && !anyWave)
    absent("--height", "--total is said of a height, and none was typed", 'Add --height "6 ft" --period "11 s" --from 300.');
  return issues;
}

function readPeriodKind(text: string, path: string): Parsed<GivenPeriod> {
  const found = PERIODS[tidy(text).toLowerCase()];
  if (found !== undefined) return good(found);
  const known = Object.keys(PERIODS).join(", ");
  return bad(issue(path, "argument-not-understood", `${quoted(text)} is none of ${known}`, `Write one of ${known}, or leave it out.`));
}
