import { parseZone } from "../../core/calendar/index.ts";
import type { Gate, GateNeed, GatePlace } from "../../core/places/index.ts";
import { DAYLIGHT_ALTITUDE_DEG } from "../../core/plan/index.ts";
import { parseDuration, parseLength } from "../../core/units/index.ts";
import type { Clock } from "./clock.ts";
import type { Cursor } from "./cursor.ts";
import { namesOf } from "./named-waters.ts";
import { readOpens, readShut } from "./read-clock-rules.ts";
import { type NamedInPassage, readEntrance } from "./read-entrance.ts";
import { readSill, readWindows } from "./read-gate-water.ts";
import type { PassageData } from "./schema.ts";

type GateCursor = Cursor<NonNullable<PassageData["gates"]>[number]>;

/** Longer than this nobody waits before a gate or for an office, seconds. Ours. */
const LONGEST_WAIT_SECONDS = 4 * 86400;
/** Farther along than this a gate is on no harbour leg. Ours. */
const FARTHEST_ALONG_METRES = 185_200;
const LONGEST_ALONG_SECONDS = 24 * 3600;
const LONGEST_NOTICE_SECONDS = 14 * 86400;
/** Beyond this a bridge's height is a slip of the pen. Ours. */
const HIGHEST_CLEARANCE_METRES = 150;

/** What a gate's times are read by, and what of the passage it is held against. */
interface Around extends NamedInPassage {
  readonly clock: Clock;
  readonly shipZone: string;
  readonly arrivalZone: string;
  readonly hasAirDraught: boolean;
  readonly hasLeg: { readonly out: boolean; readonly in: boolean };
}

/** The gates; issues are put on the cursors' page. */
export function readGates(
  document: Cursor<PassageData>,
  zones: Pick<Around, "clock" | "shipZone" | "arrivalZone">,
  draughtMetres: number | null,
): readonly Gate[] {
  const route = document.at("route");
  const around: Around = {
    ...zones,
    draughtMetres,
    tides: namesOf(document.at("tides")),
    streams: namesOf(document.at("streams")),
    hasAirDraught: document.at("boat").at("airDraught").isGiven,
    hasLeg: { out: route.at("pilotageOut").isGiven, in: route.at("pilotageIn").isGiven },
  };
  const seen = new Map<string, string>();
  return document
    .at("gates")
    .items()
    .flatMap((gate) => readGate(gate, around, seen) ?? []);
}

function readGate(cursor: GateCursor, around: Around, seen: Map<string, string>): Gate | undefined {
  const name = cursor.at("name").text();
  const on = cursor.at("on").value;
  const zone = cursor.at("zone").read(parseZone) ?? (on === "out" ? around.shipZone : around.arrivalZone);
  const place = readPlace(cursor, on, around);
  const waitSeconds = cursor.at("wait").isGiven ? cursor.at("wait").read(parseWait) : 0;
  const clearance = cursor.at("clearance");
  const clearanceMetres = clearance.read((text, path) => parseLength(text, path, { min: 0, max: HIGHEST_CLEARANCE_METRES })) ?? null;
  const needs = readNeeds(cursor, zone, around);
  const office = readOffice(cursor);
  if (clearance.isGiven && !around.hasAirDraught) {
    clearance.complain(
      "missing-key",
      `whether the boat goes under \`${cursor.path}\` can't be told without her air draught`,
      "Add `airDraught` to the boat, or take the clearance out and reckon with the openings.",
    );
  }
  if (clearance.isGiven && !cursor.at("opens").isGiven) {
    clearance.complain("key-out-of-place", `\`${clearance.path}\` goes with \`opens\`, and there is none here`);
  }
  if (name !== undefined) {
    const before = seen.get(name);
    if (before !== undefined) cursor.at("name").complain("name-twice", `\`${before}\` is called “${name.slice(0, 40)}” too`);
    seen.set(name, cursor.path);
  }
  if (!["opens", "windows", "around", "sill", "light", "stream", "bar", "byEye"].some((key) => cursor.at(key as "opens").isGiven)) {
    if (!cursor.hasIssueWithin()) cursor.complain("gate-never-opens", `\`${cursor.path}\` does not say when it can be passed`);
    return undefined;
  }
  if (cursor.at("shut").isGiven && !cursor.at("opens").isGiven) {
    const shut = cursor.at("shut");
    shut.complain("key-out-of-place", `\`${shut.path}\` goes with \`opens\`, and there is none here`);
  }
  if (name === undefined || on === undefined || place === undefined || waitSeconds === undefined || needs === undefined) return undefined;
  const notes = cursor.at("notes").text() ?? null;
  return { name, on, place, zone, needs, waitSeconds, clearanceMetres, office, notes };
}

/** `no`, or how long. */
const parseWait = (text: string, path: string) =>
  /^(?:no|false)$/i.test(text.trim())
    ? ({ ok: true, value: 0 } as const)
    : parseDuration(text, path, { min: 0, max: LONGEST_WAIT_SECONDS });

function readPlace(cursor: GateCursor, on: Gate["on"] | undefined, { hasLeg }: Around): GatePlace | undefined {
  const at = cursor.at("at");
  if (!at.isGiven) return cursor.at("office").isGiven ? { kind: "berth" } : { kind: "sea" };
  const typed: unknown = at.value;
  if (typeof typed === "string" && typed.trim().toLowerCase() === "berth") return { kind: "berth" };
  if (cursor.at("office").isGiven) {
    at.complain("key-out-of-place", `\`${at.path}\`: an office lies behind the berth`, "Strike `at` out, or say `ashore` in `office`.");
    return undefined;
  }
  if (on !== undefined && !hasLeg[on]) {
    const leg = on === "out" ? "pilotageOut" : "pilotageIn";
    at.complain(
      "key-out-of-place",
      `\`${at.path}\` is measured along \`route.${leg}\`, and there is none`,
      `Add \`${leg}\` to the route, or strike \`at\` out.`,
    );
    return undefined;
  }
  const seconds = typeof typed === "string" ? parseDuration(typed, at.path, { min: 0, max: LONGEST_ALONG_SECONDS }) : null;
  if (seconds?.ok) return { kind: "seconds", seconds: seconds.value };
  const metres = at.read((text, path) => parseLength(text, path, { min: 0, max: FARTHEST_ALONG_METRES }));
  return metres === undefined ? undefined : { kind: "metres", metres };
}

/** All that a gate asks for; undefined where some of it can't be read. */
function readNeeds(cursor: GateCursor, zone: string, around: Around): readonly GateNeed[] | undefined {
  const opens = readOpens(cursor, zone);
  const shut = readShut(cursor, zone, opens?.holidays ?? []);
  const windows = readWindows(cursor, around.clock);
  const sill = readSill(cursor, around.clock, around.draughtMetres);
  const entrance = readEntrance(cursor, around);
  const needs: GateNeed[] = [];
  if (opens !== null) needs.push({ kind: "clock", rules: opens });
  if (shut !== null) needs.push({ kind: "notDuring", rules: shut });
  if (windows.length > 0) needs.push({ kind: "windows", windows });
  if (cursor.at("light").value === "daylight") needs.push({ kind: "light", sunAboveDeg: DAYLIGHT_ALTITUDE_DEG });
  if (sill !== null) needs.push(sill);
  if (entrance !== null) needs.push(entrance);
  return cursor.hasIssueWithin() ? undefined : needs;
}

function readOffice(cursor: GateCursor): Gate["office"] {
  const office = cursor.at("office");
  if (!office.isGiven) return null;
  const ashore = office.at("ashore").read((text, path) => parseDuration(text, path, { min: 0, max: LONGEST_WAIT_SECONDS })) ?? 0;
  const notice = office.at("notice");
  const long = (text: string, path: string) => parseDuration(text, path, { min: 0, max: LONGEST_NOTICE_SECONDS });
  const least = notice.at("least").read(long);
  const most = notice.at("most").read(long);
  if (least !== undefined && most !== undefined && most <= least)
    notice
      .at("most")
      .complain("times-upside-down", `\`${notice.at("most").path}\` (${String(notice.at("most").value)}) is not longer than \`least\``);
  for (const key of ["on", "opens"] as const) {
    if (key === "on" ? cursor.at("on").value === "out" : !cursor.at("opens").isGiven)
      office.complain(
        "key-out-of-place",
        key === "on" ? `\`${office.path}\`: an office is reached on the way in` : `\`${office.path}\` goes with \`opens\`, its hours`,
      );
  }
  return { ashoreSeconds: ashore, notice: least === undefined ? null : { leastSeconds: least, mostSeconds: most ?? null } };
}
