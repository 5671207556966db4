import type { GridBuilder } from "./grid-builder.ts";
import type { NetcdfSeries } from "./netcdf-series.ts";
import type { SteppedValues } from "./netcdf-staggered.ts";
import type { Oddities } from "./oddities.ts";

/** Directions within a turn of a whole circle, either way, are meant; others mark what is missing (common practice). */
const LEAST_DIRECTION_DEG = -360;
const GREATEST_DIRECTION_DEG = 720;

/** Makes a group's quantities, node by node, of the fields of its recipe: turned true, directions into vectors, before anything is interpolated. */
export class NodeMaker {
  private readonly series: NetcdfSeries;
  private readonly nodes: number;
  private readonly sines: Float64Array | null;
  private readonly cosines: Float64Array | null;
  private readonly water: Uint8Array | null;
  private readonly isDirection: readonly boolean[];
  private odd = 0;
  private oddest = 0;

  /** `northDegTrue`: the grid's own north at each node where components run along it. `water`: 1 at the nodes that are; null for all. */
  constructor(series: NetcdfSeries, nodes: number, northDegTrue: Float64Array | null, water: Uint8Array | null) {
    this.series = series;
    this.nodes = nodes;
    this.sines = northDegTrue?.map((deg) => Math.sin((deg * Math.PI) / 180)) ?? null;
    this.cosines = northDegTrue?.map((deg) => Math.cos((deg * Math.PI) / 180)) ?? null;
    this.water = water;
    this.isDirection = series.recipe.roles.map((role) => role.endsWith("Deg"));
  }

  /** Fills the builder from a point on; each of `parts` holds one field over the same steps. */
  makeInto(builder: GridBuilder, firstPoint: number, parts: readonly (SteppedValues & { readonly isDry?: Uint8Array })[]): void {
    const { fields, recipe, lone, group } = this.series;
    const count = lone === null ? group.quantities.length : 1;
    const values = new Float64Array(parts.length);
    const made = new Float64Array(2);
    for (let point = 0; point < parts[0]!.missing.length; point++) {
      const node = point % this.nodes;
      let isMissing = this.water?.[node] === 0;
      let dry = 0;
      for (let part = 0; part < parts.length; part++) {
        const one = parts[part]!;
        if (one.missing[point] === 1) isMissing = true;
        if (one.isDry?.[point] === 1) dry++;
        let value = one.values[point]!;
        if (this.isDirection[part] && !isMissing) {
          if (!(value >= LEAST_DIRECTION_DEG && value <= GREATEST_DIRECTION_DEG)) isMissing = this.isOdd(value);
          if (fields[part]!.named.isOpposite) value += 180;
        } else if (parts.length > 1 && this.isDirection[1] && value < 0 && !isMissing) isMissing = this.isOdd(value);
        values[part] = value;
      }
      if (this.water === null && dry === parts.length) isMissing = true;
      if (!isMissing) {
        recipe.makeInto(made, values);
        if (this.sines && this.cosines) {
          const [sine, cosine, x, y] = [this.sines[node]!, this.cosines[node]!, made[0]!, made[1]!];
          made[0] = x * cosine + y * sine;
          made[1] = y * cosine - x * sine;
          isMissing = Number.isNaN(sine);
        }
      }
      for (let component = 0; component < count; component++) builder.set(firstPoint + point, component, made[component]!, isMissing);
    }
  }

  /** Tells of directions and speeds that can't be. */
  tell(oddities: Oddities): void {
    if (this.odd === 0) return;
    const said = `${this.odd} directions or speeds of the ${this.series.group.name}, such as ${Number(this.oddest.toPrecision(4))}, can't be; they are taken as missing.`;
    oddities.tell("value-implausible", said);
  }

  private isOdd(value: number): true {
    this.odd++;
    if (Math.abs(value) > Math.abs(this.oddest)) this.oddest = value;
    return true;
  }
}
