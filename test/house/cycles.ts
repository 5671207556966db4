/**
 * The cycles of a graph, one for each knot of nodes that reach one another, as the shortest way round from the knot's first node.
 *
 * The graph is a map from a node to those it points to; nodes that are only pointed to count too.
 */
export function cyclesOf(graph: ReadonlyMap<string, readonly string[]>): string[][] {
  const cycles: string[][] = [];
  const told = new Set<string>();
  for (const start of [...graph.keys()].sort()) {
    if (told.has(start)) continue;
    const cycle = shortestRound(graph, start);
    if (cycle === null) continue;
    cycles.push(cycle);
    for (const node of cycle) told.add(node);
  }
  return cycles;
}

/** The shortest way from a node back to itself, the node first and not repeated; null when there is none. */
function shortestRound(graph: ReadonlyMap<string, readonly string[]>, start: string): string[] | null {
  const cameFrom = new Map<string, string>();
  const queue = [start];
  for (const node of queue) {
    for (const next of graph.get(node) ?? []) {
      if (next === start) {
        const way = [node];
        for (let back = node; back !== start; ) {
          back = cameFrom.get(back) ?? start;
          way.unshift(back);
        }
        return way;
      }
      if (cameFrom.has(next)) continue;
      cameFrom.set(next, node);
      queue.push(next);
    }
  }
  return null;
}
