import { good, type Parsed } from "../../core/answers/index.ts";
import type { GridData } from "../../core/fields/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { decodeGribField, FieldRoom, type GribValues } from "../grib/index.ts";
import { trueFromGridInto } from "../projection/index.ts";
import { centreWords } from "./grib-names.ts";
import type { GridPlan } from "./grib-plans.ts";
import { GridBuilder } from "./grid-builder.ts";
import type { Oddities } from "./oddities.ts";
import { isVector } from "./roles.ts";

/** The grid that was planned, its fields unpacked and cropped one after the other. Issues where one contradicts itself. */
export async function gridOfPlan(source: ByteSource, plan: GridPlan, name: string, oddities: Oddities): Promise<Parsed<GridData>> {
  const { series, group, window, times, nodes } = plan;
  const { byTime } = series;
  const centre = centreWords([...byTime.values()][0]![0]!);
  const builder = new GridBuilder(group, window.mesh, times, {
    nature: series.nature,
    source: centre === "" ? name : `${name} (${centre})`,
    issuedAt: series.issuedAt,
    member: series.member,
  });
  const rooms = series.recipe.roles.map(() => new FieldRoom());
  for (const [step, at] of times.entries()) {
    const parts: GribValues[] = [];
    for (const [part, field] of (byTime.get(at) ?? []).entries()) {
      const decoded = await decodeGribField(source, field, rooms[part]);
      if (!decoded.ok) return decoded;
      parts.push(decoded.value);
    }
    fillStep(builder, step * nodes, plan, parts);
  }
  return good(builder.finish(oddities));
}

/** Fills one time of a grid from the fields of its recipe; none of them, and the step is without values. */
function fillStep(builder: GridBuilder, firstPoint: number, { series, window }: GridPlan, parts: readonly GribValues[]): void {
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
