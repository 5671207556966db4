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

/** What a file holds of one product on one grid and of one run, or of several of one time each. */
interface Line {
  readonly first: GribField;
  readonly product: string;
  readonly grid: string;
  readonly times: Set<number>;
  readonly members: Set<number>;
  isOneRun: boolean;
}

/**
 * Gathers what a file holds, field by field as it is read: a line for each product on each grid and run, in the order of the file. Of
 * most of a large file nothing more than its line is kept.
 */
export class GribContents {
  /** The first field; null before there is one. */
  first: GribField | null = null;
  readonly #lines = new Map<string, Line>();
  readonly #gridKeys = new WeakMap<GribField["grid"], string>();

  add(field: GribField): void {
    this.first ??= field;
    const product = productKey(field);
    const grid = this.#gridKeys.get(field.grid) ?? gridKey(field.grid);
    this.#gridKeys.set(field.grid, grid);
    const key = `${product}|${grid}|${field.referenceAt}`;
    let line = this.#lines.get(key);
    if (line === undefined) {
      line = { first: field, product, grid, times: new Set(), members: new Set(), isOneRun: true };
      this.#lines.set(key, line);
    }
    line.times.add(field.validAt);
    line.members.add(field.member);
  }

  /** The lines; `refused` says of products why they aren't used. */
  async summaries(refused: ReadonlyMap<string, string>): Promise<FieldSummary[]> {
    const areas = new Map<string, Area>();
    const summaries: FieldSummary[] = [];
    for (const line of analysesJoined(this.#lines.values())) {
      const area = areas.get(line.grid) ?? (await areaOfGrid(line.first.grid));
      areas.set(line.grid, area);
      summaries.push(summaryOf(line, area, refused.get(line.product) ?? null));
    }
    return summaries;
  }
}

/** Analyses one after the other are one line. */
function analysesJoined(lines: Iterable<Line>): Iterable<Line> {
  const joined = new Map<string, Line>();
  for (const line of lines) {
    const isLone = line.times.size === 1;
    const key = `${line.product}|${line.grid}|${isLone ? "" : line.first.referenceAt}`;
    const together = joined.get(key);
    if (together === undefined) {
      joined.set(key, line);
      continue;
    }
    for (const at of line.times) together.times.add(at);
    for (const member of line.members) together.members.add(member);
    if (line.first.referenceAt !== together.first.referenceAt) together.isOneRun = false;
  }
  return joined.values();
}

function summaryOf({ first, isOneRun, ...line }: Line, area: Area, refusal: string | null): FieldSummary {
  const times = Float64Array.from(line.times).sort();
  const role = refusal === null ? (roleOf(first)?.role ?? null) : null;
  const quantity = role === null ? null : (quantityByRole.get(role) ?? null);
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
    members: [...line.members].sort((one, other) => one - other),
    issuedAt: isOneRun ? first.referenceAt : null,
  };
}

function reasonUnused(field: GribField): string {
  if (!servesSomehow(field)) return "it is no current, wind, gust, height, period or direction of the sea";
  if (field.statistic) return `its ${field.statistic.process} over an interval can't stand for it`;
  return "it stands on another level: winds serve at 10 m above ground, the rest at the surface";
}
