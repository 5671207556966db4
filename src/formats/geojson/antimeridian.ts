import { twiceArea } from "../../core/coast/index.ts";

type Polygon = readonly Float64Array[];
type Corner = readonly [number, number];
type Edge = readonly [Corner, Corner];

/**
 * Joins polygons that were cut apart at 180°, as RFC 7946, section 3.1.9, asks: where a piece has an edge along 180° E and another one
 * along 180° W they are laid beside each other, and what of the two edges lies together is taken out. Outer rings turn left and holes
 * right, before and after. Polygons that don't come to 180° stay as they are, and so does one that comes to it from both sides.
 */
export function joinAtAntimeridian(polygons: readonly Polygon[]): readonly Polygon[] {
  const comesTo = (polygon: Polygon, meridian: number): boolean =>
    polygon.some((ring) => edgesOf(ring).some((edge) => isAlong(edge, meridian)));
  const east = polygons.filter((polygon) => comesTo(polygon, 180) && !comesTo(polygon, -180));
  const west = polygons.filter((polygon) => comesTo(polygon, -180) && !comesTo(polygon, 180));
  if (east.length === 0 || west.length === 0) return polygons;
  const others = polygons.filter((polygon) => !east.includes(polygon) && !west.includes(polygon));
  const moved = west.map((polygon) => polygon.map((ring) => ring.map((value, i) => (i % 2 === 0 ? value + 360 : value))));
  const edges = [...east, ...moved].flatMap((polygon) => polygon.flatMap(edgesOf));
  const along = edges.filter((edge) => isAlong(edge, 180));
  const rest = edges.filter((edge) => !isAlong(edge, 180));
  return [...others, ...polygonsOf(ringsOf([...rest, ...withoutPairs(along)]))];
}

function edgesOf(ring: Float64Array): readonly Edge[] {
  const n = ring.length / 2;
  const corner = (i: number): Corner => [ring[2 * (i % n)] as number, ring[2 * (i % n) + 1] as number];
  return Array.from({ length: n }, (_, i) => [corner(i), corner(i + 1)] as const);
}

function isAlong([[ax], [bx]]: Edge, meridian: number): boolean {
  return ax === meridian && bx === meridian;
}

/** Edges along one meridian, cut at each other's ends, without those that run both ways. */
function withoutPairs(edges: readonly Edge[]): readonly Edge[] {
  const latitudes = [...new Set(edges.flatMap(([[, ay], [, by]]) => [ay, by]))].sort((a, b) => a - b);
  const left: Edge[] = [];
  for (let i = 0; i + 1 < latitudes.length; i++) {
    const [south, north] = [latitudes[i] as number, latitudes[i + 1] as number];
    const over = edges.filter(([[, ay], [, by]]) => Math.min(ay, by) <= south && Math.max(ay, by) >= north);
    const up = over.filter(([[, ay], [, by]]) => by > ay).length;
    const [low, high]: [Corner, Corner] = [
      [180, south],
      [180, north],
    ];
    for (let k = up; k < over.length - up; k++) left.push([high, low]);
    for (let k = over.length - up; k < up; k++) left.push([low, high]);
  }
  return left;
}

/** Edges put together end to start into rings. */
function ringsOf(edges: readonly Edge[]): readonly Float64Array[] {
  const key = ([x, y]: Corner): string => `${x} ${y}`;
  const from = new Map<string, Edge[]>();
  for (const edge of edges) from.set(key(edge[0]), [...(from.get(key(edge[0])) ?? []), edge]);
  const rings: Float64Array[] = [];
  for (const first of edges) {
    const corners: number[] = [];
    for (let edge = take(from, key(first[0]), first); edge !== undefined; edge = take(from, key(edge[1]))) corners.push(...edge[0]);
    if (corners.length >= 6) rings.push(Float64Array.from(corners));
  }
  return rings;
}

/** Takes an edge that begins at a corner: the wanted one if it is still there, any where none is asked for. */
function take(from: Map<string, Edge[]>, at: string, wanted?: Edge): Edge | undefined {
  const there = from.get(at) ?? [];
  const place = wanted === undefined ? there.length - 1 : there.indexOf(wanted);
  return place < 0 ? undefined : there.splice(place, 1)[0];
}

/** Rings by their turn: those that turn left are polygons, the others holes of the least that holds them. */
function polygonsOf(rings: readonly Float64Array[]): readonly Polygon[] {
  const outers = rings.filter((ring) => twiceArea(ring) > 0).map((ring) => ({ ring, holes: [] as Float64Array[] }));
  outers.sort((one, other) => twiceArea(one.ring) - twiceArea(other.ring));
  for (const hole of rings.filter((ring) => twiceArea(ring) < 0)) outers.find(({ ring }) => holds(ring, hole))?.holes.push(hole);
  return outers.map(({ ring, holes }) => [ring, ...holes]);
}

/** Whether a ring that crosses another nowhere lies within it: by its edges' middles, so that a common corner does not matter. */
function holds(outer: Float64Array, ring: Float64Array): boolean {
  const [[[ax, ay], [bx, by]]] = edgesOf(ring) as readonly [Edge];
  const [x, y] = [(ax + bx) / 2, (ay + by) / 2];
  let within = false;
  for (const [[px, py], [qx, qy]] of edgesOf(outer)) {
    if (py <= y !== qy <= y && px + ((y - py) / (qy - py)) * (qx - px) > x) within = !within;
  }
  return within;
}
