import type { Issue, Parsed } from "../../core/answers/index.ts";
import { bad, good, issue } from "../../core/answers/index.ts";
import type { BoatSpec } from "../../core/boat/index.ts";
import { parseAngle, parseDuration, parseLength, parseShare, parseSpeed, parseSpeedProduct, parseVolume } from "../../core/units/index.ts";
import {
  DAY_BEGINS_SECOND,
  type FeltAlong,
  type FeltOnce,
  type Limit,
  type LimitAlong,
  LONGEST_LOOK_BACK_SECONDS,
} from "../../core/window/index.ts";
import type { Cursor } from "./cursor.ts";
import { parsePeriodToHeight, parseSteepness, parseTimeOfDay } from "./quantities.ts";
import type { ReadRoute } from "./read-route.ts";
import type { LimitName, PassageData } from "./schema.ts";

type Read = (text: string, path: string) => Parsed<number>;
type Limits = Cursor<PassageData["limits"]>;

/** How a limit is written and where it is judged. `most`: trouble lies above `never`; `least`: below it. */
interface Kind<F> {
  readonly felt: F;
  readonly sense: "most" | "least";
  readonly parse: Read;
}

interface AlongKind extends Kind<FeltAlong> {
  readonly during: LimitAlong["during"];
}

const height: Read = (text, path) => parseLength(text, path, { min: 0 });
const wind: Read = (text, path) => parseSpeed(text, path, { min: 0 });
const sun: Read = (text, path) => parseAngle(text, path, { sense: "plain", min: -90, max: 90 });
/** Farther back than one looks no limit can be judged. */
const hours: Read = (text, path) => parseDuration(text, path, { min: 0, max: LONGEST_LOOK_BACK_SECONDS });

export const LIMITS_ALONG: Readonly<
  Record<
    | "wind"
    | "gust"
    | "windAgainstCurrent"
    | "seaHeight"
    | "seaPeriod"
    | "seaSteepness"
    | "seaOnCurrent"
    | "seaPeriodToHeight"
    | "visibility"
    | "thunderstorms"
    | "lightAtArrival",
    AlongKind
  >
> = {
  wind: { felt: "windMps", during: "wholePassage", sense: "most", parse: wind },
  gust: { felt: "gustMps", during: "wholePassage", sense: "most", parse: wind },
  windAgainstCurrent: {
    felt: "windAgainstCurrentMps2",
    during: "openWater",
    sense: "most",
    parse: (text, path) => parseSpeedProduct(text, path, { min: 0 }),
  },
  seaHeight: { felt: "seaHeightMetres", during: "wholePassage", sense: "most", parse: height },
  seaPeriod: {
    felt: "seaPeriodSeconds",
    during: "wholePassage",
    sense: "least",
    parse: (text, path) => parseDuration(text, path, { min: 0, max: 60 }),
  },
  seaSteepness: { felt: "seaSteepness", during: "openWater", sense: "most", parse: parseSteepness },
  seaOnCurrent: { felt: "seaOnCurrentMetres", during: "openWater", sense: "most", parse: height },
  seaPeriodToHeight: { felt: "seaSecondsPerMetre", during: "openWater", sense: "least", parse: parsePeriodToHeight },
  visibility: { felt: "visibilityMetres", during: "wholePassage", sense: "least", parse: height },
  thunderstorms: {
    felt: "thunderstormShare",
    during: "wholePassage",
    sense: "most",
    parse: (text, path) => parseShare(text, path, { min: 0, max: 1 }),
  },
  lightAtArrival: { felt: "sunAltitudeDeg", during: "arrival", sense: "least", parse: sun },
};

/** What is read by eye, under `eyeball`. */
const BY_EYE: Readonly<Record<"sunAltitude" | "sunOffBow", AlongKind>> = {
  sunAltitude: { felt: "eyeballSunAltitudeDeg", during: "arrival", sense: "least", parse: sun },
  sunOffBow: {
    felt: "sunOffBowDeg",
    during: "arrival",
    sense: "least",
    parse: (text, path) => parseAngle(text, path, { sense: "plain", min: 0, max: 180 }),
  },
};

/** Limits on one figure of the passage. */
function limitsOnce(
  boat: BoatSpec,
): Readonly<Record<"sinceAgainst" | "calmBefore" | "underKeel" | "fuelLeft" | "hoursAwake" | "bedtime", Kind<FeltOnce>>> {
  return {
    sinceAgainst: { felt: "sinceAgainstSeconds", sense: "least", parse: hours },
    calmBefore: { felt: "calmBeforeSeconds", sense: "least", parse: hours },
    underKeel: { felt: "underKeelMetres", sense: "least", parse: height },
    fuelLeft: { felt: "fuelLeftLitres", sense: "least", parse: (text, path) => parseFuel(text, path, boat) },
    hoursAwake: { felt: "awakeSeconds", sense: "most", parse: hours },
    bedtime: { felt: "arrivalClockSeconds", sense: "most", parse: parseBedtime },
  };
}

/** Litres, or a share of the usable fuel, which must be stated then. */
function parseFuel(text: string, path: string, boat: BoatSpec): Parsed<number> {
  if (!text.includes("%")) return parseVolume(text, path, { min: 0 });
  const share = parseShare(text, path, { min: 0, max: 1 });
  const usable = boat.power?.usableFuelLitres ?? null;
  if (!share.ok) return share;
  const wanting: Issue = issue(
    path,
    "missing-key",
    `\`${path}\` is a share of the usable fuel, and \`boat.power.usableFuel\` is not stated`,
  );
  return usable === null ? bad(wanting) : good(share.value * usable);
}

/** A time of day in the evening or, before the day begins anew, after midnight: that runs on past 24 h. */
function parseBedtime(text: string, path: string): Parsed<number> {
  const time = parseTimeOfDay(text, path);
  return time.ok && time.value < DAY_BEGINS_SECOND ? good(time.value + 86400) : time;
}

/** The longest an exceedance may be tolerated: beyond it the limit is no limit. Ours. */
const LONGEST_TOLERATED_SECONDS = 6 * 3600;

/** The limits in SI; issues are put on the cursor's page. */
export function readLimits(limits: Limits, boat: BoatSpec, route: ReadRoute | undefined): readonly Limit[] {
  const onceKinds = limitsOnce(boat);
  const names = [...keysOf(LIMITS_ALONG), ...keysOf(onceKinds), "eyeball"] as const satisfies readonly LimitName[];
  if (limits.isGiven && !limits.hasIssueWithin() && names.every((name) => !limits.at(name).isGiven)) {
    limits.complain("no-limits", "no limit is set, so that every departure would be open");
  }
  const along = keysOf(LIMITS_ALONG).map((name) => readAlong(limits.at(name), LIMITS_ALONG[name]));
  const once = keysOf(onceKinds).map((name) => readOnce(limits, name, onceKinds[name]));
  return [...along, ...readEyeball(limits.at("eyeball"), route), ...once].filter((limit) => limit !== undefined);
}

function keysOf<K extends string>(kinds: Readonly<Record<K, unknown>>): readonly K[] {
  return Object.keys(kinds) as K[];
}

type TwoFigures = { readonly happy: string; readonly never: string };
type AlongCursor = Cursor<NonNullable<PassageData["limits"]["wind"]>>;

function readEyeball(
  eyeball: Cursor<NonNullable<PassageData["limits"]["eyeball"]>>,
  route: ReadRoute | undefined,
): readonly (Limit | undefined)[] {
  const bow = eyeball.at("sunOffBow");
  if (bow.isGiven && route !== undefined && route.pilotageIn === null && (route.approachDegTrue ?? null) === null) {
    bow.complain("missing-key", `\`${bow.path}\` needs the course of the way in: \`route.pilotageIn\` or \`route.approach\``);
  }
  return [readAlong(eyeball.at("sunAltitude"), BY_EYE.sunAltitude), readAlong(bow, BY_EYE.sunOffBow)];
}

function readAlong(limit: AlongCursor, kind: AlongKind): Limit | undefined {
  const figures = readFigures(limit, kind);
  const tolerated = limit.at("tolerated").read((text, path) => parseDuration(text, path, { min: 0, max: LONGEST_TOLERATED_SECONDS }));
  return figures === undefined ? undefined : { felt: kind.felt, ...figures, during: kind.during, toleratedSeconds: tolerated ?? 0 };
}

function readOnce(limits: Limits, name: keyof ReturnType<typeof limitsOnce>, kind: Kind<FeltOnce>): Limit | undefined {
  const figures = readFigures(limits.at(name), kind);
  const calmMps = name === "calmBefore" ? limits.at(name).at("wind").read(wind) : undefined;
  if (figures === undefined || (name === "calmBefore" && calmMps === undefined)) return undefined;
  return { felt: kind.felt, ...figures, during: "once", toleratedSeconds: 0, ...(calmMps === undefined ? {} : { calmMps }) };
}

function readFigures<T extends TwoFigures>(
  limit: Cursor<T>,
  kind: Kind<unknown>,
): { readonly happy: number; readonly never: number } | undefined {
  const [happyTyped, neverTyped] = [limit.at("happy") as Cursor<string>, limit.at("never") as Cursor<string>];
  const happy = happyTyped.read(kind.parse);
  const never = neverTyped.read(kind.parse);
  if (happy === undefined || never === undefined) return undefined;
  const typed = `happy ${String(happyTyped.value)}, never ${String(neverTyped.value)}`;
  if (happy === never) {
    neverTyped.complain(
      "limit-without-margin",
      `\`${limit.path}\` has one figure twice (${typed}), so that there is no margin between them`,
    );
  } else if (never > happy !== (kind.sense === "most")) {
    const right = kind.sense === "most" ? "above" : "below";
    neverTyped.complain("limit-upside-down", `\`${limit.path}\` is upside down (${typed}): \`never\` must lie ${right} \`happy\``);
  }
  return { happy, never };
}
