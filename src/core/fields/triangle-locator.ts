import { CellFinder } from "./cell-finder.ts";
import { GradientFit } from "./gradient-fit.ts";
import type { LaidNodes } from "./laid-nodes.ts";
import type { TriangleMesh } from "./mesh.ts";
import type { MeshLocator } from "./mesh-locator.ts";
import { TriangleCells } from "./triangle-cells.ts";
import { neighboursOf } from "./triangle-neighbours.ts";

/** Values at the corners of triangles: linear over each, by barycentric weights (common practice). */
export class CornerLocator implements MeshLocator {
  readonly nodes = new Int32Array(4);
  readonly weights = new Float64Array(4);
  readonly whereMissing = "renormalise";
  private readonly cells: TriangleCells;
  private readonly finder: CellFinder;

  /** `corners`: as laid on the sheet. Serves the square of |x|, |y| ≤ `reachMetres`. */
  constructor({ triangles }: TriangleMesh, corners: LaidNodes, reachMetres: number) {
    this.cells = new TriangleCells(triangles, neighboursOf(triangles, corners.x.length), corners);
    this.finder = new CellFinder(this.cells, reachMetres);
  }

  moveTo(xMetres: number, yMetres: number): boolean {
    const cell = this.finder.cellAt(xMetres, yMetres);
    if (cell < 0) return false;
    const { nodes, weights } = this;
    const { triangles, areas } = this.cells;
    nodes[0] = triangles[3 * cell] as number;
    nodes[1] = triangles[3 * cell + 1] as number;
    nodes[2] = triangles[3 * cell + 2] as number;
    nodes[3] = nodes[0];
    // The areas were reckoned when the cell was found. Each corner weighs as the triangle that the point makes with the edge across.
    const a = Math.max(0, areas[1] as number);
    const b = Math.max(0, areas[2] as number);
    const c = Math.max(0, areas[0] as number);
    const sum = a + b + c;
    weights[0] = a / sum;
    weights[1] = b / sum;
    weights[2] = c / sum;
    weights[3] = 0;
    return true;
  }
}

/**
 * Values that hold for triangles: the own value, and beyond the centroid a gradient fitted through the three neighbours. The weights of
 * the fit stand or fall together: where one neighbour is missing at a level, the own value alone holds for the whole triangle, so that
 * nothing is drawn out of the land; where the own value is missing the place is not covered.
 */
export class TriangleLocator implements MeshLocator {
  readonly nodes = new Int32Array(4);
  readonly weights = new Float64Array(4);
  readonly whereMissing = "firstAlone";
  private readonly finder: CellFinder;
  private readonly fit: GradientFit;

  constructor({ triangles }: TriangleMesh, corners: LaidNodes, centroids: LaidNodes, reachMetres: number) {
    const neighbours = neighboursOf(triangles, corners.x.length);
    this.finder = new CellFinder(new TriangleCells(triangles, neighbours, corners), reachMetres);
    this.fit = new GradientFit(triangles, neighbours, corners, centroids);
  }

  moveTo(xMetres: number, yMetres: number): boolean {
    const cell = this.finder.cellAt(xMetres, yMetres);
    if (cell < 0) return false;
    this.fit.weighInto(this.nodes, this.weights, cell, xMetres, yMetres);
    return true;
  }
}
