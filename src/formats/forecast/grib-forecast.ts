import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import { type GridData, nodeCountOf } from "../../core/fields/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { decodeGribField, type GribField, type GribValues, readGribFields } from "../grib/index.ts";
import { trueFromGridInto } from "../projection/index.ts";
import { type Allowance, MOST_GRIDS } from "./allowance.ts";
import { chooseTimes } from "./crop.ts";
import type { Crop, FieldSummary, LoneGrid } from "./forecast-reading.ts";
import { contentsOfGrib } from "./grib-contents.ts";
import { centreWords } from "./grib-names.ts";
import { type GridWindow, windowOf } from "./grib-places.ts";
import { type GribSeries, gridKey, intervalStarts, productKey, seriesOf, servingFields } from "./grib-series.ts";
import { GridBuilder } from "./grid-builder.ts";
import { instantWords, type Oddities } from "./oddities.ts";
import { isVector } from "./roles.ts";
import { tellGaps } from "./time-order.ts";

/** A damaged file is refused whole: what is left of a forecast may lack the very hours that matter. */
const DAMAGE: ReadonlySet<string> = new Set(["file-truncated", "file-lies"]);
/** Issues listed of one file. */
const MOST_ISSUES = 5;

export interface ReadAbout {
  readonly name: string;
  readonly crop: Crop | null;
  readonly contentsOnly: boolean;
  /** Names of the groups whose values are wanted; null for all. */
  readonly wanted: ReadonlySet<string> | null;
  readonly allowance: Allowance;
}

export interface FoundInFile {
  readonly grids: readonly GridData[];
  readonly lone: readonly LoneGrid[];
  readonly contents: readonly FieldSummary[];
}

/** Contents and, unless `contentsOnly`, the cropped grids of a GRIB file. Issues where the file is damaged or holds no field that can be read. */
export async function readGribForecast(
  source: ByteSource,
  about: ReadAbout,
  oddities: Oddities,
): Promise<Parsed<FoundInFile & { readonly edition: 1 | 2 }>> {
  const fields: GribField[] = [];
  const issues: Issue[] = [];
  for await (const item of readGribFields(source)) {
    if (item.kind === "field") fields.push(item);
    else issues.push(item.issue);
  }
  const damage = issues.filter((one) => DAMAGE.has(one.code));
  const refusal = damage.length > 0 ? damage : fields.length === 0 ? issues : [];
  if (refusal.length > 0) return bad(...gathered(refusal, about.name));
  if (fields.length === 0) return bad(issue(about.name, "file-not-recognised", "There is no GRIB field in it."));
  for (const one of issues) oddities.tell(one.code, one.message);

  const refused = new Map<string, string>();
  const serving = servingFields(fields, refused);
  const series = seriesOf(serving, oddities);
  if (series.length > MOST_GRIDS) {
    const said = `The fields of the file make ${series.length} grids of their own; at most ${MOST_GRIDS} are read.`;
    return bad(issue(about.name, "file-too-large", said));
  }
  const joined = new Set(series.flatMap((one) => [...one.byTime.values()].flat().map(productKey)));
  for (const { field } of serving) {
    if (!joined.has(productKey(field))) refused.set(productKey(field), "its other half is missing, or other fields are used for it");
  }
  const contents = await contentsOfGrib(fields, refused);
  const grids: GridData[] = [];
  const lone: LoneGrid[] = [];
  const windows = new Map<string, Promise<GridWindow | null>>();
  for (const one of about.contentsOnly ? [] : series) {
    if (about.wanted !== null && !about.wanted.has(one.group.name)) continue;
    const key = gridKey(one.grid);
    if (!windows.has(key) && !about.allowance.takePoints(one.grid.rows * one.grid.columns)) return tooLarge(one.group.name, about.name);
    const window = windows.get(key) ?? windowOf(one.grid, about.crop);
    windows.set(key, window);
    const grid = await gridOfSeries(source, one, await window, about, oddities);
    if (!grid.ok) return bad(...grid.issues.map((found) => ({ ...found, path: `${about.name}, ${found.path}` })));
    if (grid.value === null) continue;
    if (one.isLone) lone.push({ grid: grid.value, northDegTrue: (await window)!.northDegTrue });
    else grids.push(grid.value);
  }
  return good({ grids, lone, contents, edition: fields[0]!.editionNumber });
}

/** Issues of many messages that say the same are one issue, at the first of them. */
function gathered(issues: readonly Issue[], name: string): Issue[] {
  const counts = new Map<string, { first: Issue; times: number }>();
  for (const one of issues) {
    const key = `${one.code} ${one.message}`;
    const known = counts.get(key);
    if (known) known.times++;
    else counts.set(key, { first: one, times: 1 });
  }
  return [...counts.values()].slice(0, MOST_ISSUES).map(({ first, times }) => ({
    ...first,
    path: `${name}, ${first.path}`,
    message: times === 1 ? first.message : `${first.message} So it is with ${times} messages.`,
  }));
}

function tooLarge(what: string, path: string): Parsed<never> {
  return bad(issue(path, "file-too-large", `With the ${what} the file has more points than are read at once.`));
}

async function gridOfSeries(
  source: ByteSource,
  series: GribSeries,
  window: GridWindow | null,
  about: ReadAbout,
  oddities: Oddities,
): Promise<Parsed<GridData | null>> {
  const { byTime } = series;
  const group = series.isLone
    ? { ...series.group, quantities: series.group.quantities.filter((one) => one === series.recipe.roles[0]) }
    : series.group;
  const valued = Float64Array.from(byTime.keys()).sort();
  tellGaps(valued, group.name, oddities);
  if (window === null) {
    oddities.tell("outside-passage", `The ${group.name} in this file does not reach the waters of the passage.`);
    return good(null);
  }
  const allTimes = Float64Array.from([...valued, ...intervalStarts(series)]).sort();
  // A single step is held steady by its user, whatever its time.
  const steps = valued.length === 1 ? { start: 0, count: allTimes.length } : chooseTimes(allTimes, about.crop);
  if (steps === null) {
    const span = `${instantWords(allTimes[0]!)} to ${instantWords(allTimes.at(-1)!)}`;
    oddities.tell("outside-passage", `The ${group.name} in this file, for ${span}, does not reach the days of the passage.`);
    return good(null);
  }
  const nodes = nodeCountOf(window.mesh);
  const points = steps.count * nodes;
  const unpacked = steps.count * series.recipe.roles.length * series.grid.rows * series.grid.columns;
  if (!about.allowance.takeValues(points * group.quantities.length) || !about.allowance.takePoints(unpacked)) {
    return tooLarge(group.name, `the ${group.name}`);
  }
  const times = allTimes.slice(steps.start, steps.start + steps.count);
  const centre = centreWords([...byTime.values()][0]![0]!);
  const builder = new GridBuilder(group, window.mesh, times, {
    nature: series.nature,
    source: centre === "" ? about.name : `${about.name} (${centre})`,
    issuedAt: series.issuedAt,
    member: series.member,
  });
  for (const [step, at] of times.entries()) {
    const parts: GribValues[] = [];
    for (const field of byTime.get(at) ?? []) {
      const decoded = await decodeGribField(source, field);
      if (!decoded.ok) return decoded;
      parts.push(decoded.value);
    }
    fillStep(builder, step * nodes, series, parts, window);
  }
  return good(builder.finish(oddities));
}

/** Fills one time of a grid from the fields of its recipe; none of them, and the step is without values. */
function fillStep(builder: GridBuilder, firstPoint: number, series: GribSeries, parts: readonly GribValues[], window: GridWindow): void {
  const { recipe, grid, group, isLone } = series;
  const values = new Float64Array(Math.max(1, parts.length));
  const made = new Float64Array(2);
  // Directions are true whatever the grid (WMO code table 4.2); components are along it where it says so.
  const isAlongGrid = !isLone && isVector(group) && recipe.roles.join() === group.quantities.join();
  const north = isAlongGrid ? window.northDegTrue : null;
  const count = isLone ? 1 : group.quantities.length;
  const { rows, columns } = window;
  let point = firstPoint;
  for (let row = rows.start; row < rows.start + rows.count; row++) {
    for (const range of columns) {
      for (let column = range.start; column < range.start + range.count; column++, point++) {
        const at = row * grid.columns + column;
        let isMissing = parts.length === 0;
        for (let part = 0; part < parts.length; part++) {
          const one = parts[part]!;
          if (one.missing[at] === 1) isMissing = true;
          values[part] = one.values[at]!;
        }
        recipe.makeInto(made, values);
        if (north !== null) trueFromGridInto(made, made[0]!, made[1]!, north[point - firstPoint]!);
        for (let component = 0; component < count; component++) builder.set(point, component, made[component]!, isMissing);
      }
    }
  }
}
