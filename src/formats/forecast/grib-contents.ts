import type { GridQuantity } from "../../core/fields/index.ts";
import type { GribField } from "../grib/index.ts";
import type { Area, FieldSummary } from "./forecast-reading.ts";
import { levelWords, parameterName, parameterUnits } from "./grib-names.ts";
import { areaOfGrid } from "./grib-places.ts";
import { roleOf, servesSomehow } from "./grib-roles.ts";
import { gridKey, productKey } from "./grib-series.ts";
import { quantityGroups } from "./quantities.ts";
import { type FieldRole, recipesOf } from "./roles.ts";
import { longestStep } from "./time-order.ts";

/** The first of the quantities that a role helps to make. */
const quantityByRole: ReadonlyMap<FieldRole, GridQuantity> = new Map(
  quantityGroups.flatMap((group) =>
    recipesOf(group).flatMap(({ roles }) =>
      roles.map((role) => [role, group.quantities.find((one) => one === role) ?? group.quantities[0]!] as const),
    ),
  ),
);

/** One line for each product on each grid and run, in the order of the file; `refused` says of products why they aren't used. */
export async function contentsOfGrib(fields: readonly GribField[], refused: ReadonlyMap<string, string>): Promise<FieldSummary[]> {
  const keys = new Map<GribField["grid"], string>();
  const keyOf = (grid: GribField["grid"]): string => {
    const known = keys.get(grid) ?? gridKey(grid);
    keys.set(grid, known);
    return known;
  };
  const lines = new Map<string, GribField[]>();
  for (const field of fields) {
    const key = [productKey(field), keyOf(field.grid), field.referenceAt].join("|");
    const line = lines.get(key);
    if (line) line.push(field);
    else lines.set(key, [field]);
  }
  // Analyses one after the other are one line.
  const joined = new Map<string, GribField[]>();
  for (const line of lines.values()) {
    const isLone = new Set(line.map((field) => field.validAt)).size === 1;
    const key = [productKey(line[0]!), keyOf(line[0]!.grid), isLone ? "" : line[0]!.referenceAt].join("|");
    const together = joined.get(key);
    if (together) for (const field of line) together.push(field);
    else joined.set(key, [...line]);
  }
  const areas = new Map<string, Area>();
  const summaries: FieldSummary[] = [];
  for (const line of joined.values()) {
    const { grid } = line[0]!;
    const area = areas.get(keyOf(grid)) ?? (await areaOfGrid(grid));
    areas.set(keyOf(grid), area);
    summaries.push(summaryOf(line, area, refused.get(productKey(line[0]!)) ?? null));
  }
  return summaries;
}

function summaryOf(line: readonly GribField[], area: Area, refusal: string | null): FieldSummary {
  const first = line[0]!;
  const times = Float64Array.from(new Set(line.map((field) => field.validAt))).sort();
  const role = refusal === null ? (roleOf(first)?.role ?? null) : null;
  const quantity = role === null ? null : (quantityByRole.get(role) ?? null);
  const isOneRun = line.every((field) => field.referenceAt === first.referenceAt);
  return {
    name: parameterName(first),
    description: first.statistic ? `${parameterName(first)}, ${first.statistic.process} over an interval` : parameterName(first),
    quantity,
    whyNotUsed: quantity === null ? (refusal ?? reasonUnused(first)) : null,
    units: parameterUnits(first),
    level: levelWords(first.level, first.secondLevel),
    area,
    columns: first.grid.columns,
    rows: first.grid.rows,
    from: times[0]!,
    until: times.at(-1)!,
    steps: times.length,
    longestStepSeconds: longestStep(times),
    members: [...new Set(line.map((field) => field.member))].sort((one, other) => one - other),
    issuedAt: isOneRun ? first.referenceAt : null,
  };
}

function reasonUnused(field: GribField): string {
  if (!servesSomehow(field)) return "it is no current, wind, gust, height, period or direction of the sea";
  if (field.statistic) return `its ${field.statistic.process} over an interval can't stand for it`;
  return "it stands on another level: winds serve at 10 m above ground, the rest at the surface";
}
