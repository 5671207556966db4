import type { Land } from "../../coast/index.ts";
import type { TurnedSheet } from "./turned-sheet.ts";

/** The land, asked in places along and port of the turned sheet. */
export class LandAhead {
  readonly land: Land;
  private readonly sheet: TurnedSheet;

  constructor(land: Land, sheet: TurnedSheet) {
    this.land = land;
    this.sheet = sheet;
  }

  crosses(fromAlong: number, fromPort: number, toAlong: number, toPort: number): boolean {
    const { sheet } = this;
    return this.land.crosses(
      sheet.xOf(fromAlong, fromPort),
      sheet.yOf(fromAlong, fromPort),
      sheet.xOf(toAlong, toPort),
      sheet.yOf(toAlong, toPort),
    );
  }

  /** Whether any piece of a line of places, `from` to `until`, touches land. */
  crossesAny(along: Float64Array, port: Float64Array, from: number, until: number): boolean {
    for (let i = from; i < until; i++) {
      if (this.crosses(along[i] as number, port[i] as number, along[i + 1] as number, port[i + 1] as number)) return true;
    }
    return false;
  }

  /** The corners that a way may turn at, about so far around some lines of places. */
  cornersAround(
    lines: readonly { readonly along: Float64Array; readonly port: Float64Array }[],
    offMetres: number,
  ): readonly { readonly along: number; readonly port: number }[] {
    const { sheet } = this;
    const box = { west: Infinity, south: Infinity, east: -Infinity, north: -Infinity };
    for (const { along, port } of lines) {
      for (let i = 0; i < along.length; i++) {
        const x = sheet.xOf(along[i] as number, port[i] as number);
        const y = sheet.yOf(along[i] as number, port[i] as number);
        box.west = Math.min(box.west, x);
        box.east = Math.max(box.east, x);
        box.south = Math.min(box.south, y);
        box.north = Math.max(box.north, y);
      }
    }
    const found = this.land.cornersWithin(box, offMetres);
    return Array.from({ length: found.length / 2 }, (_, i) => {
      const x = found[2 * i] as number;
      const y = found[2 * i + 1] as number;
      return { along: sheet.alongOf(x, y), port: sheet.portOf(x, y) };
    });
  }
}
