import type { Code } from "../../core/answers/index.ts";
import { twiceArea } from "../../core/coast/index.ts";
import { isList, type Json, shown } from "./json-value.ts";
import { properCrossing } from "./proper-crossing.ts";

export interface PolygonIssue {
  readonly place: string;
  readonly code: Code;
  readonly message: string;
}

/**
 * Reads a Polygon's coordinates: rings of longitude and latitude in turn, not closed, longitudes running on over 180° without a jump,
 * the outer one turning left and holes right. `rings` is null where anything is wrong.
 */
export function readPolygon(coordinates: Json | undefined): {
  readonly rings: readonly Float64Array[] | null;
  readonly issues: readonly PolygonIssue[];
} {
  const issues: PolygonIssue[] = [];
  if (!isList(coordinates) || coordinates.length === 0) {
    return {
      rings: null,
      issues: [{ place: "", code: "land-shape", message: `a Polygon's coordinates are a list of rings, not ${shown(coordinates)}` }],
    };
  }
  const rings: Float64Array[] = [];
  coordinates.forEach((given, i) => {
    const ring = readRing(given, `[${i}]`, issues);
    if (ring === null) return;
    if (twiceArea(ring) > 0 === i > 0) reverse(ring);
    rings.push(ring);
  });
  if (issues.length > 0) return { rings: null, issues };
  nearFirst(rings);
  const crossing = properCrossing(rings);
  if (crossing !== null) {
    const [one, other] = crossing.rings;
    const [x, y] = crossing.at;
    const where = `near longitude ${x.toFixed(5)}, latitude ${y.toFixed(5)}`;
    issues.push(
      one === other
        ? { place: `[${one}]`, code: "ring-crosses-itself", message: `the ring crosses itself ${where}` }
        : { place: `[${Math.max(one, other)}]`, code: "hole-outside", message: `the hole crosses another ring ${where}` },
    );
  }
  rings.slice(1).forEach((hole, i) => {
    if (crossing === null && !liesWithin(hole, rings[0] as Float64Array)) {
      issues.push({ place: `[${i + 1}]`, code: "hole-outside", message: "the hole lies outside the outer ring" });
    }
  });
  return { rings: issues.length === 0 ? rings : null, issues };
}

/** Null (and an issue, one a ring) where it can't be read. */
function readRing(given: Json, place: string, issues: PolygonIssue[]): Float64Array | null {
  const complain = (where: string, code: Code, message: string): null => {
    issues.push({ place: where, code, message });
    return null;
  };
  if (!isList(given)) return complain(place, "land-shape", `a ring is a list of positions, not ${shown(given)}`);
  const corners: number[] = [];
  for (const [i, position] of given.entries()) {
    const at = `${place}[${i}]`;
    const [longitude, latitude] = isList(position) ? position : [];
    if (typeof longitude !== "number" || typeof latitude !== "number") {
      return complain(at, "land-shape", `a position is [longitude, latitude], not ${shown(position)}`);
    }
    if (Math.abs(latitude) > 90 || Math.abs(longitude) > 360) {
      const swapped = Math.abs(longitude) <= 90 && Math.abs(latitude) <= 180 ? ": latitude seems to stand first" : "";
      return complain(at, "land-position", `[${longitude}, ${latitude}] is longitude ${longitude}, latitude ${latitude}${swapped}`);
    }
    const before = corners[corners.length - 2];
    // Each edge goes the shorter way round.
    const running = before === undefined ? longitude : before + shorter(longitude - before);
    if (before === running && corners[corners.length - 1] === latitude) continue;
    corners.push(running, latitude);
  }
  const n = corners.length;
  if (n >= 4 && corners[0] === corners[n - 2] && corners[1] === corners[n - 1]) corners.length = n - 2;
  const ring = Float64Array.from(corners);
  if (ring.length < 6) return complain(place, "ring-too-short", `the ring has ${ring.length / 2} different corners`);
  if (isInLine(ring)) return complain(place, "ring-too-short", "the ring's corners lie in one line");
  return ring;
}

function isInLine(ring: Float64Array): boolean {
  const [x, y] = [ring[0] as number, ring[1] as number];
  const [nextX, nextY] = [ring[2] as number, ring[3] as number];
  for (let i = 4; i < ring.length; i += 2) {
    if ((nextX - x) * ((ring[i + 1] as number) - y) !== (nextY - y) * ((ring[i] as number) - x)) return false;
  }
  return true;
}

function shorter(deg: number): number {
  if (Math.abs(deg) <= 180) return deg;
  return ((((deg + 180) % 360) + 360) % 360) - 180;
}

function reverse(ring: Float64Array): void {
  const corners = Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i] as number, ring[2 * i + 1] as number] as const).reverse();
  corners.forEach(([x, y], i) => {
    ring[2 * i] = x;
    ring[2 * i + 1] = y;
  });
}

/** Moves holes by whole turns to where the outer ring is, where they were told from the other side of 180°. */
function nearFirst(rings: readonly Float64Array[]): void {
  const start = rings[0]?.[0] as number;
  for (const ring of rings.slice(1)) {
    const shift = Math.round((start - (ring[0] as number)) / 360) * 360;
    if (shift !== 0) for (let i = 0; i < ring.length; i += 2) ring[i] = (ring[i] as number) + shift;
  }
}

/** Whether the first corner of a ring that is not on the outer ring's edge lies within it; true where all are on it. */
function liesWithin(ring: Float64Array, outer: Float64Array): boolean {
  for (let i = 0; i < ring.length; i += 2) {
    const side = placeIn(outer, ring[i] as number, ring[i + 1] as number);
    if (side !== 0) return side > 0;
  }
  return true;
}

/** 1 within, −1 outside, 0 on the edge. */
function placeIn(ring: Float64Array, x: number, y: number): -1 | 0 | 1 {
  let within = false;
  const n = ring.length;
  for (let i = 0, k = n - 2; i < n; k = i, i += 2) {
    const [ax, ay, bx, by] = [ring[k] as number, ring[k + 1] as number, ring[i] as number, ring[i + 1] as number];
    const across = (bx - ax) * (y - ay) - (by - ay) * (x - ax);
    if (across === 0 && x >= Math.min(ax, bx) && x <= Math.max(ax, bx) && y >= Math.min(ay, by) && y <= Math.max(ay, by)) return 0;
    if (ay <= y !== by <= y && across > 0 === by > ay) within = !within;
  }
  return within ? 1 : -1;
}
