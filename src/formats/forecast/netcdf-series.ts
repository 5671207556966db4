import type { GridQuantity } from "../../core/fields/index.ts";
import type { Candidate } from "./netcdf-examine.ts";
import type { NetcdfField } from "./netcdf-field.ts";
import type { Oddities } from "./oddities.ts";
import type { QuantityGroup } from "./quantities.ts";
import { type FieldRole, type Recipe, recipesOf } from "./roles.ts";

/** Fields that make one group's grid: one for each role of the recipe, in its order, all along the same nodes, times and members. */
export interface NetcdfSeries {
  readonly group: QuantityGroup;
  readonly recipe: Recipe;
  readonly fields: readonly NetcdfField[];
  /** The one quantity of a component whose other half isn't here; else null. */
  readonly lone: GridQuantity | null;
}

/** What a group is made of: one series, or components that stand alone; nothing where the file has none of it. */
export function seriesOfGroup(group: QuantityGroup, candidates: readonly Candidate[], oddities: Oddities): NetcdfSeries[] {
  const ofGroup = candidates.flatMap((one) => (one.field && one.group === group ? [one.field] : []));
  if (ofGroup.length === 0) return [];
  const byRole = (role: FieldRole): NetcdfField[] =>
    ofGroup.filter((one) => one.named.role === role).sort((one, other) => one.named.rank - other.named.rank);
  const whole = recipesOf(group).flatMap((recipe) => {
    const fields = bestOf(recipe.roles.map(byRole));
    return fields ? [{ group, recipe, fields, lone: null }] : [];
  });
  // Components come before a speed and a direction, but not the tide alone before a whole current.
  const best = whole.reduce<NetcdfSeries | null>((least, one) => (least && partOf(least) <= partOf(one) ? least : one), null);
  if (best) return [best];
  const [first, second] = recipesOf(group)[0]!.roles.map(byRole);
  const alone = [first?.[0], second?.[0]].flatMap((one) => one ?? []);
  const named = (alone.length > 0 ? alone : ofGroup).map((one) => `"${one.variable.name}"`).join(" and ");
  const series = alone.flatMap((field): NetcdfSeries[] => {
    const lone = group.quantities.find((one) => one === field.named.role);
    return lone ? [{ group, recipe: asItIs(field.named.role), fields: [field], lone }] : [];
  });
  if (alone.length === 1 && series.length === 1) {
    oddities.tell("component-alone", `The ${group.name} has one component only, ${named}.`);
  } else {
    const why = alone.length > 1 ? "stand on different grids" : "has no other half beside it";
    oddities.tell("component-missing", `The ${group.name} ${named} ${why}; it is not used.`);
  }
  return series;
}

const asItIs = (role: FieldRole): Recipe => ({
  roles: [role],
  makeInto(out, values) {
    out[0] = values[0]!;
  },
});

/** How little of the current it is: 0 whole, 1 without its tide, 2 its tide alone. */
const partOf = ({ fields }: NetcdfSeries): number => Math.floor(Math.max(...fields.map((one) => one.named.rank)) / 1000);

/** One field of each list, all alike, those of the surest names first; null where no first one has a partner. */
function bestOf(lists: readonly (readonly NetcdfField[])[]): NetcdfField[] | null {
  const [firsts, seconds] = lists;
  if (!seconds) return firsts?.[0] ? [firsts[0]] : null;
  for (const first of firsts!) {
    const alike = seconds.filter((second) => fitTogether(first, second));
    const partner = alike.find((second) => second.named.rank === first.named.rank) ?? alike[0];
    if (partner) return [first, partner];
  }
  return null;
}

/** Whether two fields lie along the same nodes, level, times and members, or on the two kinds of side of the same cells. */
function fitTogether(first: NetcdfField, second: NetcdfField): boolean {
  const [one, other] = [first.place, second.place];
  const sides = [one.mesh.side?.face ?? null, other.mesh.side?.face ?? null].join();
  return (
    one.mesh.mesh.key === other.mesh.mesh.key &&
    (sides === "," || sides === "u,v") &&
    first.isAlongGrid === second.isAlongGrid &&
    first.nature === second.nature &&
    levelOf(first) === levelOf(second) &&
    one.members.join() === other.members.join() &&
    one.times.length === other.times.length &&
    one.times.every((at, index) => at === other.times[index])
  );
}

const levelOf = ({ place, levelIndex }: NetcdfField): number | null => place.levels?.[levelIndex] ?? null;
