import { CellFinder } from "./cell-finder.ts";
import type { LaidNodes } from "./laid-nodes.ts";
import type { CurvilinearMesh } from "./mesh.ts";
import type { MeshLocator } from "./mesh-locator.ts";
import { QuadCells } from "./quad-cells.ts";

/** Bilinear over the cells of a curvilinear mesh whose nodes are laid on a sheet; the cells' sides are straight on the sheet. */
export class CurvilinearLocator implements MeshLocator {
  readonly nodes = new Int32Array(4);
  readonly weights = new Float64Array(4);
  readonly whereMissing = "renormalise";
  private readonly laid: LaidNodes;
  private readonly cells: QuadCells;
  private readonly finder: CellFinder;

  /** Serves the square of |x|, |y| ≤ `reachMetres`. */
  constructor(mesh: CurvilinearMesh, laid: LaidNodes, reachMetres: number) {
    this.laid = laid;
    this.cells = new QuadCells(mesh.rows, mesh.columns, laid);
    this.finder = new CellFinder(this.cells, reachMetres);
  }

  moveTo(xMetres: number, yMetres: number): boolean {
    const cell = this.finder.cellAt(xMetres, yMetres);
    if (cell < 0) return false;
    this.cells.cornersInto(this.nodes, cell);
    this.weighIn(this.cells.senses[cell] as number, xMetres, yMetres);
    return true;
  }

  /**
   * The shares s along A→B and t along A→D of the point P = A + s e + t f + s t g of the quadrilateral, e = AB, f = AD, g = BC − AD. With
   * h = P − A, h − t f is parallel to e + t g, so that (g×f) t² + (e×f + h×g) t + h×e = 0 (Heckbert, "Fundamentals of Texture Mapping and
   * Image Warping", UCB/CSD 89/516, 1989, ch. 2: bilinear mappings). Of its two roots the one wanted has a slope there, the Jacobian, of
   * the cell's own sense; it is written so that nothing cancels, also where the cell is a parallelogram and g is 0.
   */
  private weighIn(sense: number, xMetres: number, yMetres: number): void {
    const { x, y } = this.laid;
    const { nodes, weights } = this;
    const ax = x[nodes[0] as number] as number;
    const ay = y[nodes[0] as number] as number;
    const ex = (x[nodes[1] as number] as number) - ax;
    const ey = (y[nodes[1] as number] as number) - ay;
    const fx = (x[nodes[3] as number] as number) - ax;
    const fy = (y[nodes[3] as number] as number) - ay;
    const gx = (x[nodes[2] as number] as number) - ax - ex - fx;
    const gy = (y[nodes[2] as number] as number) - ay - ey - fy;
    const hx = xMetres - ax;
    const hy = yMetres - ay;
    const square = gx * fy - gy * fx;
    const slope = ex * fy - ey * fx + hx * gy - hy * gx;
    const constant = hx * ey - hy * ex;
    const jacobian = sense * Math.sqrt(Math.max(0, slope * slope - 4 * square * constant));
    let t = 0;
    if (slope * sense > 0) t = (-2 * constant) / (slope + jacobian);
    else if (square !== 0) t = (jacobian - slope) / (2 * square);
    t = Math.min(1, Math.max(0, t));
    const ux = ex + t * gx;
    const uy = ey + t * gy;
    const length = ux * ux + uy * uy;
    // At a corner where two nodes meet in one, any share between them is the same place.
    const s = length > 0 ? Math.min(1, Math.max(0, ((hx - t * fx) * ux + (hy - t * fy) * uy) / length)) : 0;
    weights[0] = (1 - s) * (1 - t);
    weights[1] = s * (1 - t);
    weights[2] = s * t;
    weights[3] = (1 - s) * t;
  }
}
