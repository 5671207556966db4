import type { Plane } from "../earth/index.ts";
import type { Box } from "./clip-ring.ts";
import { stickingOut } from "./corners.ts";
import { crossingX, EdgeCells, LAND, MIXED } from "./edge-cells.ts";
import type { Land, Touched } from "./land.ts";
import type { LandArea } from "./land-area.ts";
import { type SheetRing, sheetRings } from "./sheet-rings.ts";
import { distanceToSegment, segmentsTouch, shareOfMeeting } from "./touching.ts";

/**
 * Lays areas on a plane and indexes them, cut to the plane's square. Areas may overlap: what lies in any of them is land or kept out.
 * Null where none of them reaches onto the sheet. Throws on a ring that holds no plain numbers.
 */
export function landOn(plane: Plane, areas: readonly LandArea[]): Land | null {
  const rings = sheetRings(plane, areas);
  return rings.length === 0 ? null : new IndexedLand(rings, areas, plane.radiusMetres);
}

class IndexedLand implements Land {
  private readonly rings: readonly SheetRing[];
  private readonly areas: readonly LandArea[];
  private readonly cells: EdgeCells;
  private corners: Float64Array | null = null;

  constructor(rings: readonly SheetRing[], areas: readonly LandArea[], halfMetres: number) {
    this.rings = rings;
    this.areas = areas;
    this.cells = new EdgeCells(rings, halfMetres);
  }

  crosses(fromX: number, fromY: number, toX: number, toY: number): boolean {
    const { cells } = this;
    const { perSide, halfMetres, cellMetres } = cells;
    const column = Math.floor((fromX + halfMetres) / cellMetres);
    const row = Math.floor((fromY + halfMetres) / cellMetres);
    const onSheet = column >= 0 && row >= 0 && column < perSide && row < perSide;
    const start = row * perSide + column;
    if (onSheet) {
      // Every cell less than `clear` king's moves away is water.
      const clearMetres = ((cells.clear[start] as number) - 1) * cellMetres;
      if (Math.abs(toX - fromX) < clearMetres && Math.abs(toY - fromY) < clearMetres) return false;
      if (cells.holds[start] === LAND) return true;
    }
    const touches = cells.along(
      fromX,
      fromY,
      toX,
      toY,
      (cell) => cells.holds[cell] === LAND || (cells.holds[cell] === MIXED && this.touchesIn(cell, fromX, fromY, toX, toY)),
    );
    if (touches) return true;
    const share = this.entryShare(fromX, fromY, toX, toY);
    return this.contains(fromX + share * (toX - fromX), fromY + share * (toY - fromY));
  }

  contains(xMetres: number, yMetres: number): boolean {
    const { cells } = this;
    const { halfMetres, perSide, holds, begins, edgesInCells, edges } = cells;
    if (!(Math.abs(xMetres) <= halfMetres && Math.abs(yMetres) <= halfMetres)) return false;
    const row = cells.indexOf(yMetres);
    const own = cells.indexOf(xMetres);
    let winding = 0;
    for (let column = own; column >= 0; column--) {
      const cell = row * perSide + column;
      if (holds[cell] !== MIXED) {
        winding += cells.winding[cell] as number;
        break;
      }
      for (let k = begins[cell] as number; k < (begins[cell + 1] as number); k++) {
        const i = 4 * (edgesInCells[k] as number);
        const ay = edges[i + 1] as number;
        const by = edges[i + 3] as number;
        if (ay <= yMetres === by <= yMetres) continue;
        const x = crossingX(edges[i] as number, ay, edges[i + 2] as number, by, yMetres);
        // An edge stands in several cells; it counts in the one where it comes through this parallel.
        if (x < xMetres && cells.indexOf(x) === column) winding += by < ay ? 1 : -1;
      }
    }
    return winding !== 0;
  }

  edgeDistanceMetres(xMetres: number, yMetres: number, withinMetres: number): number {
    const { cells } = this;
    const { perSide, cellMetres } = cells;
    const column = cells.indexOf(xMetres);
    const row = cells.indexOf(yMetres);
    // Off the sheet the nearest cell is farther away than its rings say, which only costs time.
    let nearest = Number.POSITIVE_INFINITY;
    const first = Math.max(0, (cells.clear[row * perSide + column] as number) - 1);
    for (let ring = first; ring < perSide; ring++) {
      const atLeast = (ring - 1) * cellMetres;
      if (atLeast > withinMetres || atLeast > nearest) break;
      for (let dy = -ring; dy <= ring; dy++) {
        if (row + dy < 0 || row + dy >= perSide) continue;
        const step = Math.abs(dy) === ring || ring === 0 ? 1 : 2 * ring;
        for (let dx = -ring; dx <= ring; dx += step) {
          if (column + dx < 0 || column + dx >= perSide) continue;
          const cell = (row + dy) * perSide + column + dx;
          if (cells.holds[cell] === MIXED) nearest = Math.min(nearest, this.nearestIn(cell, xMetres, yMetres));
        }
      }
    }
    return nearest <= withinMetres ? nearest : Number.POSITIVE_INFINITY;
  }

  firstTouched(fromX: number, fromY: number, toX: number, toY: number): Touched | undefined {
    if (!this.crosses(fromX, fromY, toX, toY)) return undefined;
    const entry = this.entryShare(fromX, fromY, toX, toY);
    const inside = this.areaAround(fromX + entry * (toX - fromX), fromY + entry * (toY - fromY));
    if (inside !== null) return this.touched(inside, entry);
    const { cells } = this;
    const { edges } = cells;
    let share = Number.POSITIVE_INFINITY;
    let area = -1;
    cells.along(fromX, fromY, toX, toY, (cell) => {
      if (cells.holds[cell] !== MIXED) return false;
      for (let k = cells.begins[cell] as number; k < (cells.begins[cell + 1] as number); k++) {
        const e = cells.edgesInCells[k] as number;
        if (e >= cells.realCount) break;
        const [ax, ay, bx, by] = [edges[4 * e], edges[4 * e + 1], edges[4 * e + 2], edges[4 * e + 3]] as [number, number, number, number];
        if (!segmentsTouch(fromX, fromY, toX, toY, ax, ay, bx, by)) continue;
        const here = shareOfMeeting(fromX, fromY, toX, toY, ax, ay, bx, by);
        if (here < share) {
          share = here;
          area = cells.areaOfEdge[e] as number;
        }
      }
      return false;
    });
    if (area < 0) throw new Error(`a leg that touches land touches no edge: ${fromX}, ${fromY} to ${toX}, ${toY}`);
    return this.touched(area, share);
  }

  cornersWithin(box: Box, offMetres: number): Float64Array {
    this.corners ??= stickingOut(this.rings, this.cells.halfMetres);
    const { corners } = this;
    const out: number[] = [];
    for (let i = 0; i < corners.length; i += 4) {
      const x = (corners[i] as number) + offMetres * (corners[i + 2] as number);
      const y = (corners[i + 1] as number) + offMetres * (corners[i + 3] as number);
      if (x < box.west || x > box.east || y < box.south || y > box.north) continue;
      if (Math.max(Math.abs(x), Math.abs(y)) <= this.cells.halfMetres && !this.contains(x, y)) out.push(x, y);
    }
    return Float64Array.from(out);
  }

  private touchesIn(cell: number, fromX: number, fromY: number, toX: number, toY: number): boolean {
    const { begins, edgesInCells, edges, realCount } = this.cells;
    for (let k = begins[cell] as number; k < (begins[cell + 1] as number); k++) {
      const e = edgesInCells[k] as number;
      if (e >= realCount) return false;
      const i = 4 * e;
      if (segmentsTouch(fromX, fromY, toX, toY, edges[i] as number, edges[i + 1] as number, edges[i + 2] as number, edges[i + 3] as number))
        return true;
    }
    return false;
  }

  private nearestIn(cell: number, x: number, y: number): number {
    const { begins, edgesInCells, edges, realCount } = this.cells;
    let nearest = Number.POSITIVE_INFINITY;
    for (let k = begins[cell] as number; k < (begins[cell + 1] as number); k++) {
      const e = edgesInCells[k] as number;
      if (e >= realCount) break;
      const i = 4 * e;
      const metres = distanceToSegment(x, y, edges[i] as number, edges[i + 1] as number, edges[i + 2] as number, edges[i + 3] as number);
      if (metres < nearest) nearest = metres;
    }
    return nearest;
  }

  /** The first of the areas that a place lies in, by all their edges; null where it lies in none. */
  private areaAround(x: number, y: number): number | null {
    const { edges, areaOfEdge } = this.cells;
    const winding = new Map<number, number>();
    for (let e = 0; e < areaOfEdge.length; e++) {
      const ay = edges[4 * e + 1] as number;
      const by = edges[4 * e + 3] as number;
      if (ay <= y === by <= y || crossingX(edges[4 * e] as number, ay, edges[4 * e + 2] as number, by, y) >= x) continue;
      const area = areaOfEdge[e] as number;
      winding.set(area, (winding.get(area) ?? 0) + (by < ay ? 1 : -1));
    }
    const around = [...winding].filter(([, times]) => times !== 0).map(([area]) => area);
    return around.length === 0 ? null : Math.min(...around);
  }

  /** How far along a leg it comes onto the sheet: 0 where it begins on it. */
  private entryShare(fromX: number, fromY: number, toX: number, toY: number): number {
    const half = this.cells.halfMetres;
    const shareAt = (from: number, to: number): number =>
      Math.abs(from) <= half ? 0 : Math.min(1, Math.max(0, (Math.sign(from) * half - from) / (to - from)));
    return Math.max(shareAt(fromX, toX), shareAt(fromY, toY));
  }

  private touched(area: number, share: number): Touched {
    const { name, kind } = this.areas[area] as LandArea;
    return { name, kind, share };
  }
}
