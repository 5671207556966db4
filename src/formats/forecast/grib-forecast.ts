import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import type { GridData, GridQuantity } from "../../core/fields/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { axesOf, decodeGribField, type GribField, gridQuantityOf, readGribFields } from "../grib/index.ts";
import { areaOf, chooseColumns, chooseRows, chooseTimes } from "./crop.ts";
import type { Crop, FieldSummary } from "./forecast-reading.ts";
import { centreWords, levelWords, parameterName, parameterUnits, servesOnSomeLevel } from "./grib-names.ts";
import { type GribSeries, gridKey, productKey, seriesOf, servingFields } from "./grib-series.ts";
import { GridBuilder, MOST_VALUES } from "./grid-builder.ts";
import { instantWords, type Oddities } from "./oddities.ts";
import { longestStep, tellGaps } from "./time-order.ts";

/** A damaged file is refused whole: what is left of a forecast may lack the very hours that matter. */
const DAMAGE: ReadonlySet<string> = new Set(["file-truncated", "file-lies"]);
/** GRIB fields are unpacked whole before they are cropped: eight days, 3-hourly, of a global ocean of a twelfth of a degree, and some more. */
const MOST_UNPACKED_POINTS = 2_000_000_000;
/** Issues listed of one file. */
const MOST_ISSUES = 5;

/** Contents and, unless `contentsOnly`, the cropped grids of a GRIB2 file. Issues where the file is damaged or holds no field that can be read. */
export async function readGribForecast(
  source: ByteSource,
  about: { readonly name: string; readonly crop: Crop | null; readonly contentsOnly: boolean },
  oddities: Oddities,
): Promise<Parsed<{ grids: GridData[]; contents: FieldSummary[] }>> {
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
  const joined = new Set(series.flatMap((one) => [...one.byTime.values()].flat().map(productKey)));
  for (const { field } of serving) {
    if (!joined.has(productKey(field))) refused.set(productKey(field), "its other component is missing");
  }
  const contents = contentsOf(fields, refused);
  const grids: GridData[] = [];
  if (!about.contentsOnly) {
    for (const one of series) {
      const grid = await gridOfSeries(source, one, about, oddities);
      if (!grid.ok) return bad(...grid.issues.map((found) => ({ ...found, path: `${about.name}, ${found.path}` })));
      if (grid.value) grids.push(grid.value);
    }
  }
  return good({ grids, contents });
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

/** One line for each product on each grid and run, in the order of the file. */
function contentsOf(fields: readonly GribField[], refused: ReadonlyMap<string, string>): FieldSummary[] {
  const lines = new Map<string, GribField[]>();
  for (const field of fields) {
    const key = [productKey(field), gridKey(field.grid), field.referenceAt].join("|");
    const line = lines.get(key);
    if (line) line.push(field);
    else lines.set(key, [field]);
  }
  // Analyses one after the other are one line.
  const joined = new Map<string, GribField[]>();
  for (const line of lines.values()) {
    const isLone = new Set(line.map((field) => field.validAt)).size === 1;
    const key = [productKey(line[0]!), gridKey(line[0]!.grid), isLone ? "" : line[0]!.referenceAt].join("|");
    const together = joined.get(key);
    if (together) for (const field of line) together.push(field);
    else joined.set(key, [...line]);
  }
  return [...joined.values()].map((line) => summaryOf(line, refused.get(productKey(line[0]!)) ?? null));
}

function summaryOf(line: readonly GribField[], refusal: string | null): FieldSummary {
  const first = line[0]!;
  const axes = axesOf(first.grid);
  const times = Float64Array.from(new Set(line.map((field) => field.validAt))).sort();
  const quantity: GridQuantity | null = refusal === null ? gridQuantityOf(first) : null;
  const isOneRun = line.every((field) => field.referenceAt === first.referenceAt);
  return {
    name: parameterName(first),
    description: first.statistic ? `${parameterName(first)}, ${first.statistic.process} over an interval` : parameterName(first),
    quantity,
    whyNotUsed: quantity === null ? (refusal ?? reasonUnused(first)) : null,
    units: parameterUnits(first),
    level: levelWords(first.level, first.secondLevel),
    area: areaOf(axes.latitudesDeg, axes.longitudesDeg),
    columns: axes.longitudesDeg.length,
    rows: axes.latitudesDeg.length,
    from: times[0]!,
    until: times.at(-1)!,
    steps: times.length,
    longestStepSeconds: longestStep(times),
    members: [...new Set(line.map((field) => field.member))].sort((one, other) => one - other),
    issuedAt: isOneRun ? first.referenceAt : null,
  };
}

function reasonUnused(field: GribField): string {
  if (!servesOnSomeLevel(field)) return "it is no current, wind, gust, height or period of the sea";
  if (field.statistic) return `its ${field.statistic.process} over an interval can't stand for it`;
  return `it is given for ${levelWords(field.level, field.secondLevel)}; winds serve at 10 m above ground, the rest at the surface`;
}

async function gridOfSeries(
  source: ByteSource,
  series: GribSeries,
  about: { readonly name: string; readonly crop: Crop | null },
  oddities: Oddities,
): Promise<Parsed<GridData | null>> {
  const { group, byTime } = series;
  const axes = axesOf(series.grid);
  const allTimes = Float64Array.from(byTime.keys()).sort();
  tellGaps(allTimes, group.name, oddities);
  const rows = chooseRows(axes.latitudesDeg, about.crop);
  const columns = chooseColumns(axes.longitudesDeg, about.crop);
  if (!rows || !columns) {
    oddities.tell("outside-passage", `The ${group.name} in this file does not reach the waters of the passage.`);
    return good(null);
  }
  // A single step is held steady by its user, whatever its time.
  const steps = allTimes.length === 1 ? { start: 0, count: 1 } : chooseTimes(allTimes, about.crop);
  if (!steps) {
    const span = `${instantWords(allTimes[0]!)} to ${instantWords(allTimes.at(-1)!)}`;
    oddities.tell("outside-passage", `The ${group.name} in this file, for ${span}, does not reach the days of the passage.`);
    return good(null);
  }
  const nx = columns.longitudesDeg.length;
  const points = steps.count * rows.count * nx;
  const unpacked = steps.count * group.quantities.length * series.grid.rows * series.grid.columns;
  if (points * group.quantities.length > MOST_VALUES || unpacked > MOST_UNPACKED_POINTS) {
    oddities.tell(
      "file-too-large",
      `The ${group.name} has ${steps.count} steps on a grid of ${series.grid.columns} by ${series.grid.rows}, more than is read at once.`,
    );
    return good(null);
  }
  const times = allTimes.slice(steps.start, steps.start + steps.count);
  const firstField = byTime.get(times[0]!)![0]!;
  const centre = centreWords(firstField);
  const builder = new GridBuilder(
    group,
    {
      latitudesDeg: axes.latitudesDeg.slice(rows.start, rows.start + rows.count),
      longitudesDeg: Float64Array.from(columns.longitudesDeg),
      times,
    },
    {
      nature: series.nature,
      source: centre === "" ? about.name : `${about.name} (${centre})`,
      issuedAt: series.issuedAt,
      member: series.member,
    },
  );
  for (const [t, at] of times.entries()) {
    for (const [component, field] of byTime.get(at)!.entries()) {
      const decoded = await decodeGribField(source, field);
      if (!decoded.ok) return decoded;
      const { values, missing } = decoded.value;
      for (let y = 0; y < rows.count; y++) {
        const row = (rows.start + y) * series.grid.columns;
        let point = (t * rows.count + y) * nx;
        for (const range of columns.ranges) {
          for (let x = range.start; x < range.start + range.count; x++, point++)
            builder.set(point, component, values[row + x]!, missing[row + x] === 1);
        }
      }
    }
  }
  const { implausible, worst } = builder.finish();
  if (implausible > 0) {
    oddities.tell(
      "value-implausible",
      `${implausible} values of the ${group.name}, such as ${Number(worst.toPrecision(4))}, can't be; they are taken as missing.`,
    );
  }
  return good(builder.data);
}
