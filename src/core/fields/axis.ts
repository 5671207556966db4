/** Where a value lies on an ascending axis: written by `locate`. */
export interface AxisPlace {
  /** Index of the node at or below the value; the cell's upper node is `index + 1` (or `index` itself on a one-node axis). */
  index: number;
  /** How far into the cell, 0 to 1. */
  fraction: number;
}

/** An ascending axis of nodes that is searched often: directly when it is even, by halving when it is not. */
export class Axis {
  readonly nodes: Float64Array;
  private readonly first: number;
  private readonly last: number;
  /** Nodes a unit when the axis is even, else 0. */
  private readonly perUnit: number;

  /** Throws when the nodes are not finite and strictly ascending. */
  constructor(nodes: Float64Array) {
    if (nodes.length === 0) throw new Error("an axis needs at least one node");
    for (let i = 0; i < nodes.length; i++) {
      const node = nodes[i] as number;
      if (!Number.isFinite(node) || (i > 0 && node <= (nodes[i - 1] as number)))
        throw new Error(`axis not ascending at node ${i}: ${node}`);
    }
    this.nodes = nodes;
    this.first = nodes[0] as number;
    this.last = nodes[nodes.length - 1] as number;
    this.perUnit = isEven(nodes) ? (nodes.length - 1) / (this.last - this.first) : 0;
  }

  /**
   * Writes where `value` lies; false when it is outside the axis. On a node the fraction is 0, on the last one 1 of the cell before it.
   * A one-node axis holds only its own node.
   */
  locate(place: AxisPlace, value: number): boolean {
    if (!(value >= this.first && value <= this.last)) return false;
    const nodes = this.nodes;
    const cells = nodes.length - 1;
    if (cells === 0) {
      place.index = 0;
      place.fraction = 0;
      return true;
    }
    let low: number;
    if (this.perUnit > 0) {
      low = Math.min(cells - 1, Math.floor((value - this.first) * this.perUnit));
      if (value < (nodes[low] as number)) low--;
      else if (low < cells - 1 && value >= (nodes[low + 1] as number)) low++;
    } else {
      low = 0;
      let high = cells;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if ((nodes[middle] as number) <= value) low = middle;
        else high = middle;
      }
    }
    const lower = nodes[low] as number;
    place.index = low;
    place.fraction = (value - lower) / ((nodes[low + 1] as number) - lower);
    return true;
  }
}

function isEven(nodes: Float64Array): boolean {
  const count = nodes.length;
  if (count < 2) return false;
  const first = nodes[0] as number;
  const step = ((nodes[count - 1] as number) - first) / (count - 1);
  for (let i = 0; i < count; i++) if (Math.abs((nodes[i] as number) - (first + i * step)) > step * 1e-3) return false;
  return true;
}
