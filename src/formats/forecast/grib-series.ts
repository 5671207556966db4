import type { GridQuantity, Nature } from "../../core/fields/index.ts";
import { type GribField, gridQuantityOf, natureOf, seaPeriodKindOf } from "../grib/index.ts";
import { levelWords, parameterKey, parameterName } from "./grib-names.ts";
import { instantWords, type Oddities } from "./oddities.ts";
import { groupOf, type QuantityGroup } from "./quantities.ts";

/** A field that serves, with what it serves as. */
export interface ServingField {
  readonly field: GribField;
  readonly quantity: GridQuantity;
  readonly nature: Nature;
}

/** Fields that make one `GridData`: one group, run, grid and member, over many times. */
export interface GribSeries {
  readonly group: QuantityGroup;
  readonly member: number;
  readonly issuedAt: number | null;
  readonly nature: Nature;
  readonly grid: GribField["grid"];
  /** By valid time, one field for each of the group's quantities. */
  readonly byTime: ReadonlyMap<number, readonly GribField[]>;
}

/** A grid told by its shape and place; equal for fields that can be joined. */
export function gridKey(grid: GribField["grid"]): string {
  return [grid.rows, grid.columns, grid.southDeg, grid.westDeg, grid.latitudeStepDeg, grid.longitudeStepDeg].join(" ");
}

/** One product on one level: what a line of the contents is about, members and times apart. */
export const productKey = (field: GribField): string =>
  [parameterKey(field), JSON.stringify(field.level), JSON.stringify(field.secondLevel), field.statistic?.processCode ?? "-"].join(" ");

/** Which of two products for the same quantity is better: gusts at 10 m before the surface, the mean period before the peak. */
function preference(one: ServingField): number {
  const period = seaPeriodKindOf(one.field);
  if (period !== null) return ["mean", "primaryMean", "peak"].indexOf(period);
  const level = one.field.level.type === 103 ? 0 : one.field.level.type === 1 ? 1 : 2;
  // A gust as the greatest since the step before says more than one at the instant.
  return level * 2 + (one.quantity === "gustMps" && one.nature === "instant" ? 1 : 0);
}

/** The fields that serve, of several products for one quantity only the best; why each other product is not used is in `refused`. */
export function servingFields(fields: readonly GribField[], refused: Map<string, string>): ServingField[] {
  const serving: ServingField[] = [];
  for (const field of fields) {
    const quantity = gridQuantityOf(field);
    const nature = natureOf(field);
    if (quantity !== null && nature !== null) serving.push({ field, quantity, nature });
  }
  const kept: ServingField[] = [];
  for (const quantity of new Set(serving.map((one) => one.quantity))) {
    const rivals = serving.filter((one) => one.quantity === quantity);
    // Gusts of the first hour are often an instant's where later ones are an interval's: products that differ only so are joined.
    const classOf = (one: ServingField): string => [parameterKey(one.field), one.field.level.type, one.field.level.value].join(" ");
    const best = rivals.reduce((least, one) => (preference(one) < preference(least) ? one : least));
    for (const one of rivals) {
      if (classOf(one) === classOf(best)) kept.push(one);
      else
        refused.set(
          productKey(one.field),
          `${parameterName(best.field)}, ${levelWords(best.field.level, best.field.secondLevel)}, is used for it`,
        );
    }
  }
  return kept;
}

/** Sorts the fields into series and tells what doesn't fit together. */
export function seriesOf(serving: readonly ServingField[], oddities: Oddities): GribSeries[] {
  const buckets = new Map<string, { fields: ServingField[]; group: QuantityGroup; member: number; grid: GribField["grid"] }>();
  for (const one of serving) {
    const group = groupOf(one.quantity);
    const { member, grid } = one.field;
    const key = [group.name, member, gridKey(grid)].join("|");
    const bucket = buckets.get(key) ?? { fields: [], group, member, grid };
    bucket.fields.push(one);
    buckets.set(key, bucket);
  }
  const grids = new Map<QuantityGroup, Set<string>>();
  for (const { group, grid } of buckets.values()) grids.set(group, (grids.get(group) ?? new Set()).add(gridKey(grid)));
  for (const [group, keys] of grids) {
    if (keys.size > 1) oddities.tell("grids-differ", `The ${group.name} stands on ${keys.size} different grids, which are kept apart.`);
  }
  const series: GribSeries[] = [];
  for (const { fields, group, member, grid } of buckets.values()) {
    for (const run of runsOf(fields, group, oddities)) {
      const byTime = joinComponents(run.fields, group, oddities);
      if (byTime.size === 0) continue;
      const natures = new Set([...run.fields.map((one) => one.nature)]);
      const nature = natures.has("maximumSincePrevious")
        ? "maximumSincePrevious"
        : natures.has("meanSincePrevious")
          ? "meanSincePrevious"
          : "instant";
      series.push({ group, member, issuedAt: run.issuedAt, nature, grid, byTime });
    }
  }
  tellUnequalMembers(series, oddities);
  return series;
}

/**
 * Fields parted by run, the newest first. Runs of one time each (analyses, one after the other) make a single series whose run isn't one
 * moment: `issuedAt` is then null.
 */
function runsOf(
  fields: readonly ServingField[],
  group: QuantityGroup,
  oddities: Oddities,
): { issuedAt: number | null; fields: ServingField[] }[] {
  const runs = new Map<number, ServingField[]>();
  for (const one of fields) {
    const run = runs.get(one.field.referenceAt);
    if (run) run.push(one);
    else runs.set(one.field.referenceAt, [one]);
  }
  if (runs.size === 1) return [{ issuedAt: fields[0]!.field.referenceAt, fields: [...fields] }];
  const isAnalyses = [...runs.values()].every((run) => new Set(run.map((one) => one.field.validAt)).size === 1);
  const newestFirst = [...runs].sort(([one], [other]) => other - one);
  if (isAnalyses) {
    oddities.tell("several-runs", `The ${group.name} is put together from ${runs.size} runs of one time each.`);
    return [{ issuedAt: null, fields: newestFirst.flatMap(([, run]) => run) }];
  }
  oddities.tell(
    "several-runs",
    `The ${group.name} comes from ${runs.size} runs, the newest of ${instantWords(newestFirst[0]![0])}; they are kept apart.`,
  );
  return newestFirst.map(([issuedAt, run]) => ({ issuedAt, fields: run }));
}

/** All components of each time; times that lack one are dropped and told, as are repeats. */
function joinComponents(fields: readonly ServingField[], group: QuantityGroup, oddities: Oddities): Map<number, GribField[]> {
  const drafts = new Map<number, (GribField | undefined)[]>();
  let repeats = 0;
  for (const { field, quantity } of fields) {
    const draft = drafts.get(field.validAt) ?? new Array<GribField | undefined>(group.quantities.length).fill(undefined);
    const component = group.quantities.indexOf(quantity);
    if (draft[component]) repeats++;
    else draft[component] = field;
    drafts.set(field.validAt, draft);
  }
  if (repeats > 0)
    oddities.tell(
      "times-repeated",
      `${repeats} fields of the ${group.name} are given more than once for the same time; the first is used.`,
    );
  const byTime = new Map<number, GribField[]>();
  const lame: number[] = [];
  for (const [at, draft] of drafts) {
    const whole = draft.filter((one) => one !== undefined);
    if (whole.length === draft.length) byTime.set(at, whole);
    else lame.push(at);
  }
  if (lame.length > 0) {
    const when = `${lame.length} times, such as ${instantWords(Math.min(...lame))}`;
    oddities.tell("component-missing", `The ${group.name} has only one of its components for ${when}; they are not used.`);
  }
  return byTime;
}

function tellUnequalMembers(series: readonly GribSeries[], oddities: Oddities): void {
  const sets = new Map<string, { name: string; counts: Map<number, number> }>();
  for (const one of series) {
    const key = [one.group.name, one.issuedAt, gridKey(one.grid)].join("|");
    const set = sets.get(key) ?? { name: one.group.name, counts: new Map() };
    set.counts.set(one.member, one.byTime.size);
    sets.set(key, set);
  }
  for (const { name, counts } of sets.values()) {
    const most = Math.max(...counts.values());
    const short = [...counts].filter(([, count]) => count < most).map(([member]) => member);
    if (short.length > 0) {
      const which = short.length > 8 ? `${short.length} members` : `Member${short.length > 1 ? "s" : ""} ${short.join(", ")}`;
      oddities.tell(
        "members-unequal",
        `${which} of the ${name} ${short.length > 1 ? "have" : "has"} fewer than the ${most} times of the others.`,
      );
    }
  }
}
