const NONE = -1;

/**
 * The triangle at the other side of each edge, `[triangle][edge]`, edge k running from corner k to corner k + 1; -1 where there is none.
 * Of three triangles at one edge the first two are neighbours, the third has none there.
 */
export function neighboursOf(triangles: Int32Array, cornerCount: number): Int32Array {
  const edges = triangles.length;
  const neighbours = new Int32Array(edges).fill(NONE);
  let size = 16;
  while (size < 2 * edges) size *= 2;
  // Open addressing: each slot holds the first edge with its two corners.
  const slots = new Int32Array(size).fill(NONE);
  const lowest = (edge: number): number => Math.min(triangles[edge] as number, triangles[nextOf(edge)] as number);
  const highest = (edge: number): number => Math.max(triangles[edge] as number, triangles[nextOf(edge)] as number);
  for (let edge = 0; edge < edges; edge++) {
    const low = lowest(edge);
    const high = highest(edge);
    if (low === high) continue;
    const hash = Math.imul(Math.imul(low, cornerCount | 1) + high, 0x9e3779b1);
    let slot = (hash ^ (hash >>> 15)) & (size - 1);
    for (;;) {
      const other = slots[slot] as number;
      if (other === NONE) {
        slots[slot] = edge;
        break;
      }
      if (lowest(other) === low && highest(other) === high) {
        const [mine, theirs] = [Math.floor(edge / 3), Math.floor(other / 3)];
        if (neighbours[other] === NONE && mine !== theirs) {
          neighbours[other] = mine;
          neighbours[edge] = theirs;
        }
        break;
      }
      slot = (slot + 1) & (size - 1);
    }
  }
  return neighbours;
}

function nextOf(edge: number): number {
  return edge % 3 === 2 ? edge - 2 : edge + 1;
}
