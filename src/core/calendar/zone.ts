import { Temporal } from "temporal-polyfill";
import { bad, good, issue, type Parsed } from "../answers/index.ts";
import { nearestWord, quoted, tidy } from "../units/index.ts";

/** Zones lie between these hours from UTC (the database of zones knows none beyond since standard time began). */
const WEST_MOST_HOURS = -12;
const EAST_MOST_HOURS = 14;

/** Reads and writes a zone's Temporal identifier, `-10:00` for `UTC-10`; names stand for themselves. */
interface KnownZone {
  readonly name: string;
  readonly temporalId: string;
}

const OFFSET = /^(?:utc|gmt|ut) ?([+-]) ?(\d{1,2})(?::?([0-5]\d))?$/i;

/**
 * A zone as written → its plain name: `UTC-10`, `UTC+5:30`, `UTC` (also for `Z`, `GMT`), or the name in the zone database
 * (`Pacific/Tahiti`, letters in any case). Abbreviations (`EST`) are refused: several zones share them. Code: `zone-unknown`.
 */
export function parseZone(text: string, path: string): Parsed<string> {
  const known = findZone(text);
  if (known !== null) return good(known.name);
  const written = tidy(text);
  if (/^[a-z]{1,5}$/i.test(written) && written === written.toUpperCase()) {
    return bad(issue(path, "zone-unknown", `${quoted(text)} is an abbreviation, which may stand for more than one zone`));
  }
  const near = nearestZone(written);
  return bad(issue(path, "zone-unknown", `${quoted(text)} is no zone that is known${near === null ? "" : `; did you mean ${near}?`}`));
}

/** The Temporal identifier of a zone that `parseZone` reads. Throws on another: zones are read at the door. */
export function temporalZone(zone: string): string {
  const known = findZone(zone);
  if (known === null) throw new Error(`not a zone: ${zone}`);
  return known.temporalId;
}

/** The name of an offset from UTC in minutes: `UTC`, `UTC-10`, `UTC+5:30`. */
export function offsetName(offsetMinutes: number): string {
  if (offsetMinutes === 0) return "UTC";
  const size = Math.abs(offsetMinutes);
  const minutes = size % 60;
  return `UTC${offsetMinutes < 0 ? "-" : "+"}${Math.floor(size / 60)}${minutes === 0 ? "" : `:${two(minutes)}`}`;
}

const seen = new Map<string, KnownZone | null>();

function findZone(text: string): KnownZone | null {
  const before = seen.get(text);
  if (before !== undefined) return before;
  const found = readZone(tidy(text));
  if (seen.size < 1000) seen.set(text, found);
  return found;
}

function readZone(written: string): KnownZone | null {
  if (/^(?:z|utc|gmt|ut|zulu)$/i.test(written)) return { name: "UTC", temporalId: "UTC" };
  const offset = OFFSET.exec(written);
  if (offset !== null) {
    const minutes = (offset[1] === "-" ? -1 : 1) * (Number(offset[2]) * 60 + Number(offset[3] ?? 0));
    if (minutes < WEST_MOST_HOURS * 60 || minutes > EAST_MOST_HOURS * 60) return null;
    if (minutes === 0) return { name: "UTC", temporalId: "UTC" };
    const size = Math.abs(minutes);
    return { name: offsetName(minutes), temporalId: `${minutes < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}` };
  }
  const name = written.replace(/ /g, "_");
  if (
    !/^[a-z][a-z0-9_+-]*(?:\/[a-z0-9_+-]+)*$/i.test(name) ||
    name.length > 60 ||
    (name === name.toUpperCase() && /^[A-Z]{1,5}$/.test(name))
  )
    return null;
  try {
    const id = Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(name).timeZoneId;
    return { name: id, temporalId: id };
  } catch {
    return null;
  }
}

/** The nearest name in the zone database, by the whole name or by its last part (the town). */
function nearestZone(written: string): string | null {
  const wanted = written.replace(/ /g, "_");
  if (wanted.length > 60) return null;
  const names = Intl.supportedValuesOf("timeZone");
  const byTown = new Map(names.map((name) => [name.slice(name.lastIndexOf("/") + 1), name]));
  const town = nearestWord(wanted, byTown.keys(), Math.min(2, Math.floor(wanted.length / 4)));
  return nearestWord(wanted, names, 4) ?? (town === null ? null : (byTown.get(town) ?? null));
}

const two = (number: number): string => String(number).padStart(2, "0");
