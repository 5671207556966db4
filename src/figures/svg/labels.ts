import { type Box, grown, holds, overlap, type Point, within } from "./box.ts";
import { boxOf, drawText, type Line } from "./text.ts";

/** Between two labels there is at least this much, pixels. */
const GAP = 1.5;
/** A drawn line through a label costs as much as so many places further down the list of places. */
const LINE_COST = 6;
/** Shorter words cost as much as so many places further down the list. */
const SHORTER_COST = 16;
/** A point of a drawn line every so many pixels. */
const STEP = 5;

/** Points of curves are kept by cells of this side, so that few are looked at. */
const CELL = 24;
const cellOf = (x: number, y: number): number => Math.floor(x / CELL) * 65536 + Math.floor(y / CELL);

/** Where a label may stand: within these bounds, so far from others at least, over at most so many points of curves. */
export type Room = { readonly bounds?: Box; readonly gap?: number; readonly mostCovered?: number };

/**
 * Where labels may still stand in a drawing. What is solid (a label, a mark) is never covered; what is soft (a curve) is covered only
 * where no place of those offered is free of it.
 */
export class Labels {
  readonly #bounds: Box;
  readonly #solid: Box[] = [];
  readonly #soft = new Map<number, Point[]>();
  readonly #drawn: string[] = [];

  constructor(bounds: Box) {
    this.#bounds = bounds;
  }

  /** Keeps labels off a box. */
  keepOff(box: Box): void {
    this.#solid.push(box);
  }

  /** Keeps labels off a curve where they can be. */
  avoid(curve: readonly Point[]): void {
    curve.forEach((to, i) => {
      const from = curve[i - 1] ?? to;
      const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / STEP));
      for (let k = 1; k <= steps; k++) {
        const point: Point = [from[0] + ((to[0] - from[0]) * k) / steps, from[1] + ((to[1] - from[1]) * k) / steps];
        if (!holds(this.#bounds, point)) continue;
        const cell = cellOf(point[0], point[1]);
        const there = this.#soft.get(cell);
        if (there === undefined) this.#soft.set(cell, [point]);
        else there.push(point);
      }
    });
  }

  /** Whether a box is free of all that is solid and lies in the drawing. */
  isFree(box: Box, { bounds = this.#bounds, gap = GAP }: Room = {}): boolean {
    const wide = grown(box, gap);
    return within(box, bounds) && !this.#solid.some((each) => overlap(each, wide));
  }

  /** How much of the drawn curves a box covers, in points of them. */
  covers(box: Box): number {
    let count = 0;
    for (let x = Math.floor(box.left / CELL); x * CELL < box.right; x++) {
      for (let y = Math.floor(box.top / CELL); y * CELL < box.bottom; y++) {
        for (const point of this.#soft.get(cellOf(x * CELL, y * CELL)) ?? []) if (holds(box, point)) count++;
      }
    }
    return count;
  }

  /** The best of places for a box, by its order among them (or what it is said to cost) and by the curves covered; null where none is free. */
  best<T>(places: readonly T[], boxed: (place: T) => Box, room: Room = {}, costs?: readonly number[]): T | null {
    let best: T | null = null;
    let least = Number.POSITIVE_INFINITY;
    places.forEach((place, rank) => {
      const own = costs?.[rank] ?? rank;
      if (own >= least) return;
      const box = boxed(place);
      if (!this.isFree(box, room)) return;
      const covered = this.covers(box);
      if (covered > (room.mostCovered ?? Number.POSITIVE_INFINITY)) return;
      const cost = own + LINE_COST * covered;
      if (cost < least) [best, least] = [place, cost];
    });
    return best;
  }

  /** Sets the best of these lines: places for the same words one after the other, shorter words after longer; null where none is free. */
  set(lines: readonly Line[], room: Room = {}): Line | null {
    let [words, rank] = [-1, 0];
    const costs = lines.map(({ text }, i) => {
      if (text !== lines[i - 1]?.text) [words, rank] = [words + 1, 0];
      return text === "" ? Number.POSITIVE_INFINITY : words * SHORTER_COST + rank++;
    });
    const line = this.best(lines, boxOf, room, costs);
    if (line === null) return null;
    this.keepOff(boxOf(line));
    this.#drawn.push(drawText(line));
    return line;
  }

  /** Sets a line where it must stand, whatever is there. */
  force(line: Line): void {
    this.keepOff(boxOf(line));
    this.#drawn.push(drawText(line));
  }

  /** All labels set so far, as SVG. */
  drawn(): string {
    return this.#drawn.join("");
  }
}
