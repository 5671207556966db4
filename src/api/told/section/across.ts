import type { Position } from "../../../core/earth/index.ts";
import { alongOf, type Line, offOf, type Track } from "../../../core/passage/index.ts";
import { nmFromMetres } from "../../../core/units/index.ts";
import { rounded } from "../../instant.ts";

export type Across = [number, number];

/** The crossing's own axes in miles: across from where open water begins, and off the line with up-stream positive. */
export class AcrossAxes {
  readonly line: Line;
  /** +1 where down-stream lies to starboard of the line. */
  readonly downStreamSide: 1 | -1;

  constructor(line: Line, downStreamSide: 1 | -1) {
    this.line = line;
    this.downStreamSide = downStreamSide;
  }

  /** A place of the plane as `[miles across, miles off]`, to the hundredth. */
  at(xMetres: number, yMetres: number): Across {
    return [this.acrossNm(xMetres, yMetres), tidy(-this.downStreamSide * nmFromMetres(offOf(this.line, xMetres, yMetres)))];
  }

  acrossNm(xMetres: number, yMetres: number): number {
    return tidy(nmFromMetres(alongOf(this.line, xMetres, yMetres)));
  }

  /** A position; null where it lies off the plane's sheet. */
  ofPosition(position: Position): Across | null {
    const place = this.line.plane.toPlaneIfOn(position);
    return place === null ? null : this.at(place.xMetres, place.yMetres);
  }

  /** A track's path, thinned to what can be seen: a node is left out where it lies within `withinNm` of the one before. */
  path(track: Track, withinNm: number): Across[] {
    const points: Across[] = [];
    for (let i = 0; i < track.count; i++) {
      const point = this.at(track.xMetres[i] as number, track.yMetres[i] as number);
      if (i === track.count - 1 || isFar(points.at(-1), point, withinNm)) points.push(point);
    }
    return points;
  }
}

/** Whether a point lies farther from the one before than so many miles; true where there is none before. */
export function isFar(before: Across | undefined, point: Across, withinNm: number): boolean {
  return before === undefined || Math.hypot(point[0] - before[0], point[1] - before[1]) > withinNm;
}

/** To the hundredth, and no negative nought. */
export function tidy(value: number, decimals = 2): number {
  const figure = rounded(value, decimals);
  return figure === 0 ? 0 : figure;
}
