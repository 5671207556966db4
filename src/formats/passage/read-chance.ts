import { bad, issue, type Parsed } from "../../core/answers/index.ts";
import { type Bounds, parseAngle, parseDuration, parseLength, parseNumber, parseShare, parseSpeed } from "../../core/units/index.ts";
import type { ChanceErrors } from "../../core/window/index.ts";
import type { Cursor } from "./cursor.ts";
import type { PassageData } from "./schema.ts";

/** More crossings than this a departure say nothing new, and fewer nothing. Ours. */
export const MOST_SAMPLES = 10_000;
export const FEWEST_SAMPLES = 10;
/** A spread beyond these is a slip of the hand. Ours. */
const WIDEST_SHARE = 1;
const WIDEST_HEADING_DEG = 45;
const LATEST_START_SECONDS = 24 * 3600;
const WIDEST_CURRENT_MPS = 5;
const WIDEST_PLACE_METRES = 200_000;
const WIDEST_DIRECTION_DEG = 180;

const share = (text: string, path: string): Parsed<number> => parseShare(text, path, { min: 0, max: WIDEST_SHARE });
const degrees =
  (max: number) =>
  (text: string, path: string): Parsed<number> =>
    parseAngle(text, path, { sense: "plain", min: 0, max });

/** A whole number within bounds. */
function whole(text: string, path: string, bounds: Bounds): Parsed<number> {
  const number = parseNumber(text, path, bounds);
  if (!number.ok || Number.isSafeInteger(number.value)) return number;
  return bad(issue(path, "out-of-range", `“${text.slice(0, 40)}” is not a whole number`));
}

/** What the file states of the chance's errors, SI; what it leaves out is left out. Issues are put on the cursor's page. */
export function readChance(chance: Cursor<NonNullable<PassageData["chance"]>>): Partial<ChanceErrors> {
  const wind = chance.at("wind");
  const read: { readonly [K in keyof ChanceErrors]: number | undefined } = {
    seed: chance.at("seed").read((text, path) => whole(text, path, { min: 0, max: Number.MAX_SAFE_INTEGER })),
    samples: chance.at("samples").read((text, path) => whole(text, path, { min: FEWEST_SAMPLES, max: MOST_SAMPLES })),
    speedShare: chance.at("speed").read(share),
    headingDeg: chance.at("heading").read(degrees(WIDEST_HEADING_DEG)),
    latestStartSeconds: chance.at("lateStart").read((text, path) => parseDuration(text, path, { min: 0, max: LATEST_START_SECONDS })),
    currentRmsMps: chance.at("currentRms").read((text, path) => parseSpeed(text, path, { min: 0, max: WIDEST_CURRENT_MPS })),
    streamTotalShare: chance.at("streamTotal").read(share),
    streamPlaceMetres: chance.at("streamPlace").read((text, path) => parseLength(text, path, { min: 0, max: WIDEST_PLACE_METRES })),
    windSpeedShare: wind.at("speed").read(share),
    windSpeedSharePerDay: wind.at("speedPerDay").read(share),
    windDirectionDeg: wind.at("direction").read(degrees(WIDEST_DIRECTION_DEG)),
    windDirectionDegPerDay: wind.at("directionPerDay").read(degrees(WIDEST_DIRECTION_DEG)),
  };
  return Object.fromEntries(Object.entries(read).filter(([, value]) => value !== undefined));
}
