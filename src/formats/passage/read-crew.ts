import { type Crew, SLEPT_OFF_WATCH_SHARE } from "../../core/boat/index.ts";
import { parseDuration, parseNumber, parseShare } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { parseTimeOfDay } from "./quantities.ts";
import type { PassageData } from "./schema.ts";

/** More take no turns on a small boat. Ours. */
const MOST_WATCHKEEPERS = 20;
/** Nobody has been up for longer when leaving. Ours. */
const LONGEST_AWAKE_SECONDS = 48 * 3600;

/** The crew; null where none is stated or it can't be read. Issues are put on the cursor's page. */
export function readCrew(crew: Cursor<NonNullable<PassageData["crew"]>>): Crew | null {
  if (!crew.isGiven) return null;
  const watchkeepers = crew.at("watchkeepers");
  const many = watchkeepers.read((text, path) => parseNumber(text, path, { min: 1, max: MOST_WATCHKEEPERS }));
  if (many !== undefined && !Number.isInteger(many)) watchkeepers.complain("unknown-word", `\`${watchkeepers.path}\` is a whole number`);
  crew.needsOneOf(["upAt", "awakeAtDeparture"]);
  const upAt = crew.at("upAt").read(parseTimeOfDay);
  const inBed = crew.at("inBedAt");
  const inBedAt = inBed.read(parseTimeOfDay) ?? null;
  const awake = crew.at("awakeAtDeparture").read((text, path) => parseDuration(text, path, { min: 0, max: LONGEST_AWAKE_SECONDS }));
  const slept = crew.at("sleepsOffWatch").read((text, path) => parseShare(text, path, { min: 0, max: 1 }));
  if (inBed.isGiven && !crew.at("upAt").isGiven)
    inBed.complain("key-out-of-place", `\`${inBed.path}\` goes with \`upAt\`, and there is none here`);
  const up: Crew["up"] | null =
    upAt !== undefined
      ? { kind: "clock", upAtSecondOfDay: upAt % 86400, inBedAtSecondOfDay: inBedAt === null ? null : inBedAt % 86400 }
      : awake !== undefined
        ? { kind: "awake", seconds: awake }
        : null;
  return many === undefined || up === null ? null : { watchkeepers: many, up, sleptOffWatchShare: slept ?? SLEPT_OFF_WATCH_SHARE };
}
