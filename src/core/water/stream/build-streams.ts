import { bad, good, type Issue, issue, type Parsed } from "../../answers/index.ts";
import { type NamedTide, tideForm } from "../tide/index.ts";
import { harmonicStream } from "./harmonic-stream.ts";
import type { HoursTable } from "./hours-nodes.ts";
import { hoursStream } from "./hours-stream.ts";
import type { StatedStream, StreamTable } from "./stated-stream.ts";
import { subordinateStream } from "./subordinate-stream.ts";
import type { TidalStream } from "./tidal-stream.ts";

/** A table reaches at least so many hours to either side of high water: with fewer the turn of the tide is not in it. */
const LEAST_HOURS = 5;
const MOST_HOURS = 7;

/** Streams as they are stated, ready to be asked, in the same order; or all that is wrong with them. `path`: where they are stated. */
export function buildStreams(
  stated: readonly StatedStream[],
  tides: readonly NamedTide[],
  path = "streams",
): Parsed<readonly TidalStream[]> {
  const issues: Issue[] = [];
  const built = new Map<string, TidalStream>();
  const keep = (name: string, stream: Parsed<TidalStream>): void => {
    if (stream.ok) built.set(name, stream.value);
    else issues.push(...stream.issues);
  };
  stated.forEach((one, i) => {
    if (one.told.kind === "constants") keep(one.name, harmonicStream(one, one.told, `${path}[${i}].constants`));
    else if (one.told.kind === "byHours") keep(one.name, byHours(one, one.told.table, tides, `${path}[${i}].byHours`));
  });
  stated.forEach((one, i) => {
    if (one.told.kind !== "subordinate") return;
    const { of, differences } = one.told;
    const at = `${path}[${i}].subordinate`;
    const reference = built.get(of);
    if (reference !== undefined && reference.told.kind !== "subordinate")
      keep(one.name, subordinateStream(one, differences, reference, at));
    else if (!stated.some(({ name, told }) => name === of && told.kind !== "subordinate"))
      issues.push(issue(`${at}.of`, "stream-reference-unknown", `“${of}” is no stream of the list with constants or a table of its own`));
  });
  if (issues.length > 0) return bad(...issues);
  return good(stated.map(({ name }) => built.get(name) as TidalStream));
}

function byHours(stated: StatedStream, table: StreamTable, tides: readonly NamedTide[], path: string): Parsed<TidalStream> {
  const named = tides.find(({ name }) => name === table.of);
  if (named === undefined) return bad(issue(`${path}.of`, "name-unknown", `“${table.of}” is no tide of the list`));
  const form = named.constants === null ? null : tideForm(named.constants);
  const springs = table.springRangeMetres ?? form?.meanSpringRangeMetres;
  const neaps = table.neapRangeMetres ?? form?.meanNeapRangeMetres;
  if (springs === undefined || neaps === undefined)
    return bad(
      issue(path, "stream-range-missing", `${table.of} has no constants of its own that tell its mean ranges at springs and neaps`),
    );
  const issues: Issue[] = [];
  if (!(neaps > 0 && springs > neaps))
    issues.push(
      issue(
        `${path}.springRange`,
        "stream-table-range",
        `the ranges are ${springs.toFixed(2)} m at springs and ${neaps.toFixed(2)} m at neaps`,
      ),
    );
  const hours = table.hours.map(({ hour }) => hour);
  const [first, last] = [hours[0] ?? 0, hours[hours.length - 1] ?? 0];
  const whole = hours.every((hour, i) => Number.isInteger(hour) && hour === first + i);
  if (!whole || first > -LEAST_HOURS || last < LEAST_HOURS || first < -MOST_HOURS || last > MOST_HOURS)
    issues.push(issue(`${path}.table`, "stream-hours", `the hours are ${hours.join(", ")}, not each whole hour from −6 to 6 in order`));
  if (issues.length > 0) return bad(...issues);
  const ready: HoursTable = { hours: table.hours, springRangeMetres: springs, neapRangeMetres: neaps };
  return hoursStream(stated, ready, named.tide, table.of);
}
