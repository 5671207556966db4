import { parseLocalTime, parseZone } from "../../core/calendar/index.ts";
import type { EpochSeconds } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import type { PassageData } from "./schema.ts";

/** What answers are told in where the file names no zone: every time says its zone, so that it can't mislead. */
export const ZONE_IF_LEFT_OUT = "UTC";

/** How the file's times are read: in the zone they name, else in ship's. */
export interface Clock {
  /** null: the file names none, so that every time must name its own. */
  readonly shipZone: string | null;
  /** The file's zone can't be read, which was reported: times are only looked over then. */
  readonly zoneUnknown: boolean;
}

/** The zones, and how times without one are read. */
export function readZones(zones: Cursor<NonNullable<PassageData["zones"]>>): {
  readonly clock: Clock;
  readonly shipZone: string;
  readonly arrivalZone: string;
} {
  const ship = zones.at("ship").read(parseZone);
  const arrival = zones.at("arrival").read(parseZone);
  const clock = { shipZone: ship ?? null, zoneUnknown: ship === undefined && zones.hasIssueWithin() };
  return { clock, shipZone: ship ?? ZONE_IF_LEFT_OUT, arrivalZone: arrival ?? ship ?? ZONE_IF_LEFT_OUT };
}

/** An instant as typed; undefined where nothing is given or it can't be read. */
export function readTime(cursor: Cursor<string>, clock: Clock): EpochSeconds | undefined {
  return cursor.read((text, path) => parseLocalTime(text, clock.zoneUnknown ? "UTC" : clock.shipZone, path));
}

/** Two instants of which the second must be later, where both are given. */
export function readStretch(
  owner: { readonly from: Cursor<string>; readonly until: Cursor<string> },
  clock: Clock,
): { readonly from: EpochSeconds | undefined; readonly until: EpochSeconds | undefined } {
  const from = readTime(owner.from, clock);
  const until = readTime(owner.until, clock);
  if (from !== undefined && until !== undefined && until <= from) {
    owner.until.complain(
      "times-upside-down",
      `\`${owner.until.path}\` (${String(owner.until.value)}) is not after \`from\` (${String(owner.from.value)})`,
    );
  }
  return { from, until };
}
