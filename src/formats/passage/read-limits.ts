import type { Parsed } from "../../core/answers/index.ts";
import { parseAngle, parseDuration, parseLength, parseSpeed, parseSpeedProduct } from "../../core/units/index.ts";
import type { Limit } from "../../core/window/index.ts";
import type { Cursor } from "./cursor.ts";
import type { LimitName, PassageData } from "./schema.ts";

/** How a limit is written and where it is judged. `most`: trouble lies above `never`; `least`: below it. */
interface LimitKind {
  readonly felt: Limit["felt"];
  readonly during: Limit["during"];
  readonly sense: "most" | "least";
  readonly parse: (text: string, path: string) => Parsed<number>;
}

const height = (text: string, path: string): Parsed<number> => parseLength(text, path, { min: 0 });
const wind = (text: string, path: string): Parsed<number> => parseSpeed(text, path, { min: 0 });

export const LIMIT_KINDS: Readonly<Record<LimitName, LimitKind>> = {
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
  lightAtArrival: {
    felt: "sunAltitudeDeg",
    during: "arrival",
    sense: "least",
    parse: (text, path) => parseAngle(text, path, { sense: "plain", min: -90, max: 90 }),
  },
};

const LIMIT_NAMES = Object.keys(LIMIT_KINDS) as readonly LimitName[];

/** The longest an exceedance may be tolerated: beyond it the limit is no limit. Ours. */
const LONGEST_TOLERATED_SECONDS = 6 * 3600;

/** The limits in SI; issues are put on the cursor's page. */
export function readLimits(limits: Cursor<PassageData["limits"]>): readonly Limit[] {
  if (limits.isGiven && !limits.hasIssueWithin() && LIMIT_NAMES.every((name) => !limits.at(name).isGiven)) {
    limits.complain("no-limits", "no limit is set, so that every departure would be open");
  }
  return LIMIT_NAMES.map((name) => readLimit(limits.at(name), LIMIT_KINDS[name])).filter((limit) => limit !== undefined);
}

function readLimit(limit: Cursor<NonNullable<PassageData["limits"]["wind"]>>, kind: LimitKind): Limit | undefined {
  const happy = limit.at("happy").read(kind.parse);
  const never = limit.at("never").read(kind.parse);
  const tolerated = limit.at("tolerated").read((text, path) => parseDuration(text, path, { min: 0, max: LONGEST_TOLERATED_SECONDS }));
  if (happy === undefined || never === undefined) return undefined;
  const typed = `happy ${String(limit.at("happy").value)}, never ${String(limit.at("never").value)}`;
  if (happy === never) {
    limit
      .at("never")
      .complain("limit-without-margin", `\`${limit.path}\` has one figure twice (${typed}), so that there is no margin between them`);
  } else if (never > happy !== (kind.sense === "most")) {
    const right = kind.sense === "most" ? "above" : "below";
    limit.at("never").complain("limit-upside-down", `\`${limit.path}\` is upside down (${typed}): \`never\` must lie ${right} \`happy\``);
  }
  return { felt: kind.felt, happy, never, during: kind.during, toleratedSeconds: tolerated ?? 0 };
}
