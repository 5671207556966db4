import { type Issue, issue } from "../../core/answers/index.ts";
import { formatInstant, offsetMinutesAt, parseTimeAndZone, parseZone } from "../../core/calendar/index.ts";
import { type EpochSeconds, epochSeconds } from "../../core/units/index.ts";

/** Something stated about the letter, in one of its lines or beside it. `place` is the path for issues. */
export interface Statement {
  readonly place: string;
  readonly text: string;
}

export interface LetterHead {
  readonly zone: string | null;
  readonly issuedAt: EpochSeconds | null;
  readonly issues: readonly Issue[];
}

/** The text after `Issued`, without a full stop at its end, or null where the line is no issue line. */
export function issueTextOf(line: string): string | null {
  return /^issued?(?: time| at| on)?(?:: ?| )(.+?)\.?$/i.exec(line)?.[1] ?? null;
}

/** The text after `Zone` or `All times`, without a full stop at its end, or null where the line is no zone line. */
export function zoneTextOf(line: string): string | null {
  return /^(?:(?:time ?)?zone|(?:all )?times)(?: are)?(?: in)?(?:: ?| )(.+?)\.?$/i.exec(line)?.[1] ?? null;
}

/**
 * Settles when a letter was issued and in which zone its lines are. The zone is that of its zone line, else of the statement beside it,
 * else the one its issue time names. What is stated twice must agree (`letter-issue-doubtful`, `letter-zone-doubtful`); what is stated
 * nowhere is an issue (`letter-issue-missing`, `zone-missing`).
 */
export function settleHead(
  issuedLines: readonly Statement[],
  zoneLines: readonly Statement[],
  beside: { readonly issued: Statement | null; readonly zone: Statement | null },
  path: string,
): LetterHead {
  const issues: Issue[] = [];
  const zones = readZones([...zoneLines, ...(beside.zone === null ? [] : [beside.zone])], issues);
  const times = readTimes([...issuedLines, ...(beside.issued === null ? [] : [beside.issued])], zones[0]?.zone ?? null, issues);
  const named = times.flatMap((one) => (one.zoneNamed === null ? [] : [{ zone: one.zoneNamed, place: one.place }]));
  const zone = zones[0]?.zone ?? named[0]?.zone ?? null;
  const issuedAt = times[0]?.at ?? null;
  const failed = issues.length > 0;
  // An issue time may stand in another zone than the lines where the letter has a zone line, or where both are stated beside it.
  const apart = zoneLines.length > 0 || (beside.issued !== null && issuedLines.length === 0);
  const otherZone = (apart ? zones : [...zones, ...named]).find((one) => zone !== null && !sameClock(one.zone, zone, issuedAt));
  if (otherZone !== undefined) {
    issues.push(issue(path, "letter-zone-doubtful", `the zone may be ${zone} or ${otherZone.zone} (${otherZone.place})`));
  }
  const otherTime = times.find((one) => one.at !== issuedAt);
  if (otherTime !== undefined && issuedAt !== null) {
    const readings = `${said(issuedAt, zone)} or ${said(otherTime.at, zone)}`;
    issues.push(issue(path, "letter-issue-doubtful", `the letter may be issued ${readings} (${otherTime.place})`));
  }
  if (issuedLines.length === 0 && beside.issued === null) {
    issues.push(issue(path, "letter-issue-missing", "nothing says when the letter was issued"));
  }
  if (zone === null && !failed) {
    const cure = "Add the line `Zone UTC-10` to the letter, or put the key `zone` beside `letter:` in the passage file.";
    issues.push(issue(path, "zone-missing", "nothing says which zone the letter's times are in", cure));
  }
  return { zone, issuedAt, issues };
}

interface StatedZone {
  readonly zone: string;
  readonly place: string;
}

function readZones(statements: readonly Statement[], issues: Issue[]): StatedZone[] {
  return statements.flatMap(({ text, place }) => {
    const zone = parseZone(text, place);
    if (zone.ok) return [{ zone: zone.value, place }];
    issues.push(...zone.issues);
    return [];
  });
}

interface StatedTime {
  readonly at: EpochSeconds;
  readonly zoneNamed: string | null;
  readonly place: string;
}

/** The issue times; one that names no zone is in the stated one, else in the one that another names. Without any it is left out. */
function readTimes(statements: readonly Statement[], stated: string | null, issues: Issue[]): StatedTime[] {
  const firstNamed = statements.map(({ text, place }) => parseTimeAndZone(text, null, place)).find((one) => one.ok);
  const zone = stated ?? (firstNamed?.ok === true ? firstNamed.value.zoneNamed : null);
  return statements.flatMap(({ text, place }) => {
    const time = parseTimeAndZone(text, zone, place);
    if (time.ok) return [{ ...time.value, place }];
    issues.push(...time.issues.filter((one) => one.code !== "zone-missing"));
    return [];
  });
}

/** Ten days on, so that zones which change their clocks apart are not taken for one. */
const LOOK_AHEAD_SECONDS = 10 * 86400;

function sameClock(a: string, b: string, issuedAt: EpochSeconds | null): boolean {
  if (a === b) return true;
  if (issuedAt === null) return false;
  return [issuedAt, epochSeconds(issuedAt + LOOK_AHEAD_SECONDS)].every((at) => offsetMinutesAt(at, a) === offsetMinutesAt(at, b));
}

function said(at: EpochSeconds, zone: string | null): string {
  const pieces = formatInstant(at, zone ?? "UTC");
  return `${pieces.weekdayShort} ${pieces.isoDate} ${pieces.time} ${pieces.offsetLabel}`;
}
