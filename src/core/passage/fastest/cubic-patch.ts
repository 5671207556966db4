import { fillCubicWeights, fillTimeWeights } from "./cubic-weights.ts";

/**
 * The cubic over four by four nodes at four instants: joined in time first, then in place, with the gradient by place. Values stand in
 * pairs; the answer in the fields, the gradient by cells.
 */
export class CubicPatch {
  along = 0;
  port = 0;
  alongByAlong = 0;
  alongByPort = 0;
  portByAlong = 0;
  portByPort = 0;
  private readonly inTime = new Float64Array(32);
  private readonly timeWeights = new Float64Array(4);
  private readonly alongWeights = new Float64Array(8);
  private readonly portWeights = new Float64Array(8);

  /**
   * Joins values of four instants, `s` (0 to 1) from the second to the third; the first and the last may be wanting (null). `corner`: where
   * the first node's pair stands, `columns`: nodes to a row.
   */
  joinInTime(
    a: Float32Array | null,
    b: Float32Array,
    c: Float32Array,
    d: Float32Array | null,
    s: number,
    corner: number,
    columns: number,
  ): void {
    const { inTime, timeWeights } = this;
    fillTimeWeights(timeWeights, s, a !== null, d !== null);
    const pa = a ?? b;
    const pd = d ?? c;
    const wa = timeWeights[0] as number;
    const wb = timeWeights[1] as number;
    const wc = timeWeights[2] as number;
    const wd = timeWeights[3] as number;
    const stride = 2 * columns;
    for (let row = 0, k = 0, from = corner; row < 4; row++, from += stride) {
      for (let n = from; n < from + 8; n++, k++) {
        inTime[k] = wa * (pa[n] as number) + wb * (b[n] as number) + wc * (c[n] as number) + wd * (pd[n] as number);
      }
    }
  }

  /** Joins what stands after `joinInTime` in place, `x` and `y` (0 to 1) within the middle cell. */
  joinInPlace(x: number, y: number): void {
    const { inTime: v, alongWeights: wx, portWeights: wy } = this;
    fillCubicWeights(wx, x);
    fillCubicWeights(wy, y);
    const x0 = wx[0] as number;
    const x1 = wx[1] as number;
    const x2 = wx[2] as number;
    const x3 = wx[3] as number;
    const d0 = wx[4] as number;
    const d1 = wx[5] as number;
    const d2 = wx[6] as number;
    const d3 = wx[7] as number;
    let along = 0;
    let port = 0;
    let alongDx = 0;
    let portDx = 0;
    let alongDy = 0;
    let portDy = 0;
    for (let row = 0, k = 0; row < 4; row++, k += 8) {
      const a0 = v[k] as number;
      const p0 = v[k + 1] as number;
      const a1 = v[k + 2] as number;
      const p1 = v[k + 3] as number;
      const a2 = v[k + 4] as number;
      const p2 = v[k + 5] as number;
      const a3 = v[k + 6] as number;
      const p3 = v[k + 7] as number;
      const a = x0 * a0 + x1 * a1 + x2 * a2 + x3 * a3;
      const p = x0 * p0 + x1 * p1 + x2 * p2 + x3 * p3;
      const w = wy[row] as number;
      const dw = wy[row + 4] as number;
      along += w * a;
      port += w * p;
      alongDy += dw * a;
      portDy += dw * p;
      alongDx += w * (d0 * a0 + d1 * a1 + d2 * a2 + d3 * a3);
      portDx += w * (d0 * p0 + d1 * p1 + d2 * p2 + d3 * p3);
    }
    this.along = along;
    this.port = port;
    this.alongByAlong = alongDx;
    this.portByAlong = portDx;
    this.alongByPort = alongDy;
    this.portByPort = portDy;
  }
}
