import { sideOf } from "../../core/coast/index.ts";

interface Edge {
  readonly ring: number;
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
}

/**
 * The first place where two edges of a polygon's rings cross, each coming out on the other side of the other; touching is none. Null where
 * none do. Edges are gone through from west to east, each held against those not yet passed.
 */
export function properCrossing(
  rings: readonly Float64Array[],
): { readonly rings: readonly [number, number]; readonly at: readonly [number, number] } | null {
  const edges: Edge[] = rings.flatMap((ring, k) => {
    const n = ring.length / 2;
    return Array.from({ length: n }, (_, i) => {
      const next = 2 * ((i + 1) % n);
      return { ring: k, ax: ring[2 * i] as number, ay: ring[2 * i + 1] as number, bx: ring[next] as number, by: ring[next + 1] as number };
    });
  });
  edges.sort((one, other) => Math.min(one.ax, one.bx) - Math.min(other.ax, other.bx));
  let open: Edge[] = [];
  for (const edge of edges) {
    const west = Math.min(edge.ax, edge.bx);
    open = open.filter((one) => Math.max(one.ax, one.bx) >= west);
    for (const one of open)
      if (cross(one, edge)) return { rings: [one.ring, edge.ring], at: [(edge.ax + edge.bx) / 2, (edge.ay + edge.by) / 2] };
    open.push(edge);
  }
  return null;
}

function cross(p: Edge, q: Edge): boolean {
  if (Math.max(p.ay, p.by) < Math.min(q.ay, q.by) || Math.max(q.ay, q.by) < Math.min(p.ay, p.by)) return false;
  return (
    sideOf(p.ax, p.ay, p.bx, p.by, q.ax, q.ay) * sideOf(p.ax, p.ay, p.bx, p.by, q.bx, q.by) < 0 &&
    sideOf(q.ax, q.ay, q.bx, q.by, p.ax, p.ay) * sideOf(q.ax, q.ay, q.bx, q.by, p.bx, p.by) < 0
  );
}
