import type { GridQuantity, Nature } from "../../core/fields/index.ts";
import type { GribField } from "../grib/index.ts";
import { levelWords, parameterKey, parameterName } from "./grib-names.ts";
import { type GribRole, natureOf, roleOf } from "./grib-roles.ts";
import { instantWords, type Oddities } from "./oddities.ts";
import { type QuantityGroup, quantityGroups, wordsOf } from "./quantities.ts";
import { type FieldRole, type Recipe, recipesOf } from "./roles.ts";

/** A field that serves, with what it serves as. */
export interface ServingField extends GribRole {
  readonly field: GribField;
  readonly nature: Nature;
}

/** Fields that make one `GridData`: one group, run, grid and member, over many times. */
export interface GribSeries {
  readonly group: QuantityGroup;
  readonly recipe: Recipe;
  readonly member: number;
  readonly issuedAt: number | null;
  readonly nature: Nature;
  readonly grid: GribField["grid"];
  /** By the time the values hold for, one field for each of the recipe's roles; none at times that only begin an interval. */
  readonly byTime: ReadonlyMap<number, readonly GribField[]>;
  /** Only one of the group's two quantities, that of the recipe's only role: the other may stand in another file. */
  readonly isLone: boolean;
}

/** A grid told by its shape and place; equal for fields that can be joined. The order of its points in the file is no part of it. */
export function gridKey(grid: GribField["grid"]): string {
  const { scan: _, ...rest } = grid;
  return JSON.stringify(rest);
}

/** One product on one level: what a line of the contents is about, members and times apart. */
export function productKey(field: GribField): string {
  const { level, secondLevel, statistic } = field;
  const second = secondLevel === null ? "" : `${secondLevel.type}:${secondLevel.value}`;
  return `${parameterKey(field)} ${level.type}:${level.value} ${second} ${statistic?.processCode ?? "-"}`;
}

const groupByRole: ReadonlyMap<FieldRole, QuantityGroup> = new Map(
  quantityGroups.flatMap((group) => recipesOf(group).flatMap(({ roles }) => roles.map((role) => [role, group] as const))),
);

/** The field with what it serves as, before its rivals are looked at; null where it is of no use. */
export function servingField(field: GribField): ServingField | null {
  const role = roleOf(field);
  const nature = natureOf(field);
  return role === null || nature === null ? null : { ...role, field, nature };
}

/** Of several products for one role only the best; why each other product is not used is in `refused`. */
export function bestFields(serving: readonly ServingField[], refused: Map<string, string>): ServingField[] {
  const byRole = new Map<FieldRole, ServingField[]>();
  for (const one of serving) {
    const rivals = byRole.get(one.role);
    if (rivals) rivals.push(one);
    else byRole.set(one.role, [one]);
  }
  const kept: ServingField[] = [];
  for (const rivals of byRole.values()) {
    // Gusts of the first hour are often an instant's where later ones are an interval's: products that differ only so are joined.
    const classOf = ({ field }: ServingField): string => `${parameterKey(field)} ${field.level.type} ${field.level.value}`;
    const best = rivals.reduce((least, one) => (one.rank < least.rank ? one : least));
    const bestClass = classOf(best);
    for (const one of rivals) {
      if (classOf(one) === bestClass) kept.push(one);
      else refused.set(productKey(one.field), `${nameAndLevel(best.field)} is used for it`);
    }
  }
  return kept;
}

export const nameAndLevel = (field: GribField): string => `${parameterName(field)}, ${levelWords(field.level, field.secondLevel)}`;

interface Bucket {
  readonly group: QuantityGroup;
  readonly member: number;
  readonly grid: GribField["grid"];
  readonly fields: ServingField[];
}

/** Sorts the fields into series and tells what doesn't fit together. */
export function seriesOf(serving: readonly ServingField[], oddities: Oddities): GribSeries[] {
  const memberOf = memberNumbers(serving);
  const keys = new Map<GribField["grid"], string>();
  const buckets = new Map<string, Bucket>();
  for (const one of serving) {
    const group = groupByRole.get(one.role)!;
    const { grid } = one.field;
    const known = keys.get(grid) ?? gridKey(grid);
    keys.set(grid, known);
    const key = [group.name, memberOf(one.field), known].join("|");
    const bucket = buckets.get(key);
    if (bucket) bucket.fields.push(one);
    else buckets.set(key, { group, member: memberOf(one.field), grid, fields: [one] });
  }
  tellDifferentGrids([...buckets.values()], keys, oddities);
  const series: GribSeries[] = [];
  for (const { fields, group, member, grid } of buckets.values()) {
    for (const run of runsOf(fields, group, oddities)) {
      const joined = joinFields(run.fields, group, oddities);
      if (joined === null) continue;
      series.push({ group, member, issuedAt: run.issuedAt, nature: natureOfAll(run.fields), grid, ...joined });
    }
  }
  tellUnequalMembers(series, oddities);
  return series;
}

function natureOfAll(fields: readonly ServingField[]): Nature {
  const natures = new Set(fields.map((one) => one.nature));
  if (natures.has("maximumSincePrevious")) return "maximumSincePrevious";
  return natures.has("meanSincePrevious") ? "meanSincePrevious" : "instant";
}

/** A field's member. Old ensembles pair a positive and a negative perturbation under one number (WMO code table 4.6): they are two. */
function memberNumbers(serving: readonly ServingField[]): (field: GribField) => number {
  const kinds = new Set(serving.map(({ field }) => field.ensemble?.kindCode));
  const isPaired = kinds.has(2) && kinds.has(3);
  return (field) => {
    if (!isPaired || field.member === 0) return field.member;
    return field.ensemble?.kindCode === 2 ? 2 * field.member : 2 * field.member - 1;
  };
}

function tellDifferentGrids(buckets: readonly Bucket[], keys: ReadonlyMap<GribField["grid"], string>, oddities: Oddities): void {
  const grids = new Map<QuantityGroup, Set<string>>();
  for (const { group, grid } of buckets) grids.set(group, (grids.get(group) ?? new Set()).add(keys.get(grid)!));
  for (const [group, different] of grids) {
    if (different.size > 1)
      oddities.tell("grids-differ", `The ${group.name} stands on ${different.size} different grids, which are kept apart.`);
  }
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

/** A mean stands for the middle of its interval, a greatest value for all of it up to its end. */
function holdsAt({ field, nature }: ServingField): number {
  return nature === "meanSincePrevious" ? (field.validFrom + field.validAt) / 2 : field.validAt;
}

type Joined = Pick<GribSeries, "recipe" | "byTime" | "isLone">;

/** The fields by time, by the recipe that serves most times; times that lack a part are dropped and told, as are repeats. Null where there is nothing. */
function joinFields(fields: readonly ServingField[], group: QuantityGroup, oddities: Oddities): Joined | null {
  let best: Joined | null = null;
  let bestLame: readonly number[] = [];
  for (const recipe of recipesOf(group)) {
    const { whole, lame } = byTimeOf(fields, recipe, group, oddities);
    if (whole.size > (best?.byTime.size ?? 0)) [best, bestLame] = [{ recipe, byTime: whole, isLone: false }, lame];
  }
  if (best === null) return loneOf(fields, group, oddities);
  if (bestLame.length > 0) {
    const earliest = bestLame.reduce((least, at) => Math.min(least, at));
    const when = `${bestLame.length} times, such as ${instantWords(earliest)}`;
    oddities.tell("component-missing", `The ${group.name} has only one of its components for ${when}; they are not used.`);
  }
  return best;
}

/** One component alone: the other may stand in another file, if these are components at all. */
function loneOf(fields: readonly ServingField[], group: QuantityGroup, oddities: Oddities): Joined | null {
  const roles = recipesOf(group)[0]!.roles;
  const role = roles.find((one) => fields.some((field) => field.role === one));
  if (role === undefined || roles.length < 2) {
    oddities.tell("component-missing", `The ${group.name} has only one of its parts; it is not used.`);
    return null;
  }
  const recipe: Recipe = {
    roles: [role],
    makeInto(out, values) {
      out[0] = values[0]!;
    },
  };
  oddities.tell("component-alone", `The ${group.name} has one component only, ${wordsOf(role as GridQuantity)}.`);
  return { recipe, byTime: byTimeOf(fields, recipe, group, oddities).whole, isLone: true };
}

function byTimeOf(
  fields: readonly ServingField[],
  { roles }: Recipe,
  group: QuantityGroup,
  oddities: Oddities,
): { whole: Map<number, readonly GribField[]>; lame: number[] } {
  const drafts = new Map<number, (GribField | undefined)[]>();
  let repeats = 0;
  for (const one of fields) {
    const part = roles.indexOf(one.role);
    if (part < 0) continue;
    const at = holdsAt(one);
    const draft = drafts.get(at) ?? new Array<GribField | undefined>(roles.length).fill(undefined);
    if (draft[part]) repeats++;
    else draft[part] = one.field;
    drafts.set(at, draft);
  }
  if (repeats > 0) {
    const said = `${repeats} fields of the ${group.name} are given more than once for the same time; the first is used.`;
    oddities.tell("times-repeated", said);
  }
  const whole = new Map<number, readonly GribField[]>();
  const lame: number[] = [];
  for (const [at, draft] of drafts) {
    const parts = draft.filter((one) => one !== undefined);
    if (parts.length === draft.length) whole.set(at, parts);
    else lame.push(at);
  }
  return { whole, lame };
}

/**
 * The instants at which an interval begins and no other ends: nothing is known of what came before. They are kept as times without
 * values, so that a gust of 72 to 75 h and one of 78 to 81 h leave the hours between them open.
 */
export function intervalStarts(series: GribSeries): number[] {
  if (series.nature !== "maximumSincePrevious") return [];
  const starts = new Set<number>();
  for (const fields of series.byTime.values()) {
    for (const { validFrom, validAt } of fields) if (validFrom < validAt && !series.byTime.has(validFrom)) starts.add(validFrom);
  }
  const ends = [...series.byTime.keys()].sort((one, other) => one - other);
  let next = 0;
  // A start inside an interval that another one covers opens nothing.
  return [...starts]
    .sort((one, other) => one - other)
    .filter((start) => {
      while (next < ends.length && ends[next]! <= start) next++;
      const fields = series.byTime.get(ends[next] ?? Number.NaN);
      return fields?.every(({ validFrom }) => validFrom === start) ?? false;
    });
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
