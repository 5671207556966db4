/** Steps from a node of a square grid to others, in cells, counter-clockwise; no two in one direction. */
export interface Directions {
  readonly count: number;
  readonly columns: Int8Array;
  readonly rows: Int8Array;
  /** Lengths in cells, and the unit vectors. */
  readonly cells: Float64Array;
  readonly alongShare: Float64Array;
  readonly portShare: Float64Array;
}

/**
 * All directions of a square grid down to mediants of the given depth (a Farey row in each octant): 8 at depth 0, 16, 32, 64 at depths
 * 1, 2, 3.
 */
export function directionsOf(depth: number): Directions {
  let octant: (readonly [number, number])[] = [
    [1, 0],
    [1, 1],
  ];
  for (let d = 0; d < depth; d++) {
    octant = octant.flatMap((step, i): (readonly [number, number])[] => {
      const next = octant[i + 1];
      return next === undefined ? [step] : [step, [step[0] + next[0], step[1] + next[1]]];
    });
  }
  const found = new Map<string, readonly [number, number]>();
  for (const [p, q] of octant) {
    for (const [c, r] of [
      [p, q],
      [q, p],
    ] as const) {
      for (const [sc, sr] of [
        [1, 1],
        [-1, 1],
        [-1, -1],
        [1, -1],
      ] as const) {
        const column = c === 0 ? 0 : sc * c;
        const row = r === 0 ? 0 : sr * r;
        found.set(`${column} ${row}`, [column, row]);
      }
    }
  }
  const all = [...found.values()].sort((a, b) => Math.atan2(a[1], a[0]) - Math.atan2(b[1], b[0]));
  const cells = Float64Array.from(all, ([c, r]) => Math.sqrt(c * c + r * r));
  return {
    count: all.length,
    columns: Int8Array.from(all, ([c]) => c),
    rows: Int8Array.from(all, ([, r]) => r),
    cells,
    alongShare: Float64Array.from(all, ([c], i) => c / (cells[i] as number)),
    portShare: Float64Array.from(all, ([, r], i) => r / (cells[i] as number)),
  };
}
