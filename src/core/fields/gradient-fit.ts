import type { LaidNodes } from "./laid-nodes.ts";

/**
 * No fit is used whose weights' sizes add up to more than this at a corner: it would blow up the differences between neighbours. Among
 * equilateral triangles they add up to 7/3, among those between points scattered at random to less than 7 in all but one of a thousand.
 * Common practice.
 */
export const GREATEST_FIT_WEIGHTS = 8;

/**
 * A value that holds for triangles, read as linear inside each: its own value at the centroid, with the gradient that fits the values of the
 * three triangles beyond its edges best by least squares, as finite-volume sea models do (Chen, Liu and Beardsley, "An unstructured grid,
 * finite-volume, three-dimensional, primitive equations ocean model", J. Atmos. Oceanic Technol. 20, 2003). Linear fields are met exactly.
 */
export class GradientFit {
  private readonly triangles: Int32Array;
  private readonly neighbours: Int32Array;
  private readonly corners: LaidNodes;
  private readonly centroids: LaidNodes;
  /** 1 where a triangle has three neighbours and a fit of use. */
  private readonly fits: Uint8Array;

  constructor(triangles: Int32Array, neighbours: Int32Array, corners: LaidNodes, centroids: LaidNodes) {
    this.triangles = triangles;
    this.neighbours = neighbours;
    this.corners = corners;
    this.centroids = centroids;
    const count = triangles.length / 3;
    this.fits = new Uint8Array(count);
    const weights = new Float64Array(4);
    for (let triangle = 0; triangle < count; triangle++) this.fits[triangle] = this.isOfUse(triangle, weights) ? 1 : 0;
  }

  /** Writes the nodes, the triangle's own first, and their weights at (x, y) metres; the own value alone where there is no fit. */
  weighInto(nodes: Int32Array, weights: Float64Array, triangle: number, xMetres: number, yMetres: number): void {
    if (this.fits[triangle] === 0) {
      nodes.fill(triangle);
      weights.fill(0);
      weights[0] = 1;
      return;
    }
    nodes[0] = triangle;
    for (let k = 0; k < 3; k++) nodes[k + 1] = this.neighbours[3 * triangle + k] as number;
    this.fitInto(weights, triangle, xMetres, yMetres);
  }

  /** The normal equations M g = Σ d (v − own), M = Σ d dᵀ over the neighbours' centroids d from the own one: weight pᵀ M⁻¹ d at p. */
  private fitInto(weights: Float64Array, triangle: number, xMetres: number, yMetres: number): void {
    const { x, y } = this.centroids;
    const { neighbours } = this;
    const x0 = x[triangle] as number;
    const y0 = y[triangle] as number;
    const a = neighbours[3 * triangle] as number;
    const b = neighbours[3 * triangle + 1] as number;
    const c = neighbours[3 * triangle + 2] as number;
    const ax = (x[a] as number) - x0;
    const ay = (y[a] as number) - y0;
    const bx = (x[b] as number) - x0;
    const by = (y[b] as number) - y0;
    const cx = (x[c] as number) - x0;
    const cy = (y[c] as number) - y0;
    const xx = ax * ax + bx * bx + cx * cx;
    const xy = ax * ay + bx * by + cx * cy;
    const yy = ay * ay + by * by + cy * cy;
    const determinant = xx * yy - xy * xy;
    const px = xMetres - x0;
    const py = yMetres - y0;
    const ux = (yy * px - xy * py) / determinant;
    const uy = (xx * py - xy * px) / determinant;
    const wa = ux * ax + uy * ay;
    const wb = ux * bx + uy * by;
    const wc = ux * cx + uy * cy;
    weights[0] = 1 - wa - wb - wc;
    weights[1] = wa;
    weights[2] = wb;
    weights[3] = wc;
  }

  private isOfUse(triangle: number, weights: Float64Array): boolean {
    for (let k = 0; k < 3; k++) if ((this.neighbours[3 * triangle + k] as number) < 0) return false;
    for (let k = 0; k < 3; k++) {
      const corner = this.triangles[3 * triangle + k] as number;
      this.fitInto(weights, triangle, this.corners.x[corner] as number, this.corners.y[corner] as number);
      const sizes = weights.reduce((sum, weight) => sum + Math.abs(weight), 0);
      if (!(sizes <= GREATEST_FIT_WEIGHTS)) return false;
    }
    return true;
  }
}
