/** Where a straight leg crosses a ring's edge: how far along the leg (0 to 1), which edge, and whether the leg goes in there. */
export interface EdgeCrossing {
  readonly share: number;
  readonly edge: number;
  readonly inward: boolean;
}

/** A stretch of a straight leg inside a ring, as shares of the leg. */
export interface InsideSpan {
  readonly from: number;
  readonly until: number;
}

/** A ring on the plane's sheet, metres, counter-clockwise (its inside lies to port of every edge); edge i runs from corner i to the next. */
export class LaneRing {
  readonly x: Float64Array;
  readonly y: Float64Array;
  private readonly west: number;
  private readonly east: number;
  private readonly south: number;
  private readonly north: number;

  /** Throws on fewer than three corners. */
  constructor(corners: readonly { readonly xMetres: number; readonly yMetres: number }[]) {
    if (corners.length < 3) throw new Error(`a ring needs three corners: ${corners.length}`);
    const turned = doubleArea(corners) < 0 ? [...corners].reverse() : corners;
    this.x = Float64Array.from(turned, (corner) => corner.xMetres);
    this.y = Float64Array.from(turned, (corner) => corner.yMetres);
    this.west = Math.min(...this.x);
    this.east = Math.max(...this.x);
    this.south = Math.min(...this.y);
    this.north = Math.max(...this.y);
  }

  /** Whether a place lies inside. A place on the edge itself counts as either. */
  contains(xMetres: number, yMetres: number): boolean {
    const { x, y } = this;
    if (xMetres < this.west || xMetres > this.east || yMetres < this.south || yMetres > this.north) return false;
    let inside = false;
    for (let i = 0, j = x.length - 1; i < x.length; j = i++) {
      const yi = y[i] as number;
      const yj = y[j] as number;
      if (yi > yMetres === yj > yMetres) continue;
      const xi = x[i] as number;
      if (xMetres < xi + (((x[j] as number) - xi) * (yMetres - yi)) / (yj - yi)) inside = !inside;
    }
    return inside;
  }

  /** Every place where a straight leg crosses the edge, in order along the leg. A leg along an edge, or one that only touches a corner, crosses nothing there. */
  crossings(fromX: number, fromY: number, toX: number, toY: number): readonly EdgeCrossing[] {
    if (Math.max(fromX, toX) < this.west || Math.min(fromX, toX) > this.east) return [];
    if (Math.max(fromY, toY) < this.south || Math.min(fromY, toY) > this.north) return [];
    const { x, y } = this;
    const dx = toX - fromX;
    const dy = toY - fromY;
    const found: EdgeCrossing[] = [];
    // Which side of the leg a corner lies on: those on it count as port, so that a corner is crossed once or not at all.
    const sideOf = (i: number): number => dx * ((y[i] as number) - fromY) - dy * ((x[i] as number) - fromX);
    for (let i = 0; i < x.length; i++) {
      const next = i + 1 === x.length ? 0 : i + 1;
      const a = sideOf(i);
      const b = sideOf(next);
      if (a >= 0 === b >= 0) continue;
      const edgeX = (x[next] as number) - (x[i] as number);
      const edgeY = (y[next] as number) - (y[i] as number);
      const into = edgeX * dy - edgeY * dx;
      const share = (edgeX * ((y[i] as number) - fromY) - edgeY * ((x[i] as number) - fromX)) / into;
      if (share >= 0 && share <= 1) found.push({ share, edge: i, inward: into > 0 });
    }
    return found.sort((one, other) => one.share - other.share);
  }

  /** The stretches of a straight leg that lie inside. */
  insideSpans(fromX: number, fromY: number, toX: number, toY: number): readonly InsideSpan[] {
    const cuts = [0, ...this.crossings(fromX, fromY, toX, toY).map((one) => one.share), 1];
    const spans: { from: number; until: number }[] = [];
    for (let i = 1; i < cuts.length; i++) {
      const from = cuts[i - 1] as number;
      const until = cuts[i] as number;
      const middle = (from + until) / 2;
      if (until <= from || !this.contains(fromX + middle * (toX - fromX), fromY + middle * (toY - fromY))) continue;
      const last = spans[spans.length - 1];
      if (last !== undefined && last.until === from) last.until = until;
      else spans.push({ from, until });
    }
    return spans;
  }
}

/** Twice the area that the corners enclose, square metres; negative when they run clockwise. */
function doubleArea(corners: readonly { readonly xMetres: number; readonly yMetres: number }[]): number {
  let sum = 0;
  corners.forEach((a, i) => {
    const b = corners[(i + 1) % corners.length] as { xMetres: number; yMetres: number };
    sum += a.xMetres * b.yMetres - b.xMetres * a.yMetres;
  });
  return sum;
}
