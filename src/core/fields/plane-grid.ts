import type { Plane } from "../earth/index.ts";
import { checkMesh, nodeCountOf } from "./check-mesh.ts";
import { CurvilinearLocator } from "./curvilinear-locator.ts";
import type { GridData } from "./grid-data.ts";
import { centroidsOf, type LaidNodes, layAllNodes, layNodesAround } from "./laid-nodes.ts";
import { LatLonLocator } from "./lat-lon-locator.ts";
import type { Mesh } from "./mesh.ts";
import { LEAST_COVERED_WEIGHT, type MeshLocator } from "./mesh-locator.ts";
import { CornerLocator, TriangleLocator } from "./triangle-locator.ts";
import { hasVectors, turnedToSheet } from "./turned-vectors.ts";

/** Of which north a laid grid's vectors are: the sheet's own y, or true north. */
export type VectorFrame = "sheet" | "trueNorth";

/**
 * A grid laid on a plane, whatever its mesh. Vectors are turned into the sheet's frame once, node by node, or left true where their user
 * wants bearings. Nothing is resampled and no smoothing is added.
 */
export class PlaneGrid {
  readonly data: GridData;
  readonly components: number;
  private readonly values: Float32Array;
  private readonly missing: Uint8Array;
  private readonly plane: Plane;
  private readonly locator: MeshLocator;
  private readonly nodes: Int32Array;
  private readonly weights: Float64Array;
  private readonly isFirstAlone: boolean;
  private readonly nodeCount: number;
  /** Where all nodes lie, once it is asked for. */
  private places: LaidNodes | null;

  /**
   * Throws when the mesh is none (an axis that does not ascend, a place or a corner that isn't one), the values do not fill it, one of them
   * is no number, or a vector that is to be turned lacks its other part.
   */
  constructor(data: GridData, plane: Plane, frame: VectorFrame) {
    this.data = data;
    this.plane = plane;
    this.components = data.quantities.length;
    this.missing = data.missing;
    this.nodeCount = nodeCountOf(data.mesh);
    checkMesh(data.mesh);
    const points = data.times.length * this.nodeCount;
    if (data.missing.length !== points || data.values.length !== points * this.components) {
      throw new Error(`a grid of ${points} points holds ${data.missing.length} marks and ${data.values.length} values`);
    }
    for (let i = 0; i < data.values.length; i++) {
      if (!Number.isFinite(data.values[i] as number)) throw new Error(`value ${i} of the grid is ${data.values[i]}`);
    }
    const { locator, laid } = laidMesh(data.mesh, plane);
    this.locator = locator;
    this.nodes = locator.nodes;
    this.weights = locator.weights;
    this.isFirstAlone = locator.whereMissing === "firstAlone";
    const isTurned = frame === "sheet" && hasVectors(data);
    const nodes = laid ?? (isTurned ? layAllNodes(data.mesh, plane) : null);
    this.values = isTurned && nodes !== null ? turnedToSheet(data, nodes.convergenceDeg) : data.values;
    this.places = nodes?.isWhole === true ? nodes : null;
  }

  /** Finds the cell under (x, y) metres for the `readLevelInto` calls that follow; false when it is off the grid or the plane. */
  moveTo(xMetres: number, yMetres: number): boolean {
    const { radiusMetres } = this.plane;
    if (!(Math.abs(xMetres) <= radiusMetres && Math.abs(yMetres) <= radiusMetres)) return false;
    return this.locator.moveTo(xMetres, yMetres);
  }

  /**
   * Stands on the node nearest to (x, y) within `withinMetres` that is covered at both time levels, for the `readLevelInto` calls that
   * follow; false when there is none. Of values that hold for triangles, the nodes are the centroids.
   */
  moveToNearest(xMetres: number, yMetres: number, level: number, otherLevel: number, withinMetres: number): boolean {
    this.places ??= placesOfNodes(this.data.mesh, this.plane);
    const { x, y } = this.places;
    const { missing } = this.data;
    let best = -1;
    let bestSquare = withinMetres * withinMetres;
    for (let node = 0; node < x.length; node++) {
      const dx = (x[node] as number) - xMetres;
      const dy = (y[node] as number) - yMetres;
      const square = dx * dx + dy * dy;
      if (!(best < 0 ? square <= bestSquare : square < bestSquare)) continue;
      if (missing[level * x.length + node] !== 0 || missing[otherLevel * x.length + node] !== 0) continue;
      bestSquare = square;
      best = node;
    }
    if (best < 0) return false;
    this.nodes.fill(best);
    this.weights.fill(0);
    this.weights[0] = 1;
    return true;
  }

  /**
   * The values at the place last moved to, at time level `level`, as the mesh joins them over its covered nodes; false where it is not
   * covered. Writes `components` numbers from `offset`.
   */
  readLevelInto(out: Float64Array, offset: number, level: number): boolean {
    const { values, missing, nodes, weights } = this;
    const base = level * this.nodeCount;
    let a = base + (nodes[0] as number);
    let b = base + (nodes[1] as number);
    let c = base + (nodes[2] as number);
    let d = base + (nodes[3] as number);
    let wa = weights[0] as number;
    let wb = weights[1] as number;
    let wc = weights[2] as number;
    let wd = weights[3] as number;
    if (missing[a] !== 0) wa = 0;
    if (missing[b] !== 0) wb = 0;
    if (missing[c] !== 0) wc = 0;
    if (missing[d] !== 0) wd = 0;
    if (this.isFirstAlone && (missing[a] !== 0 || missing[b] !== 0 || missing[c] !== 0 || missing[d] !== 0)) {
      wa = missing[a] === 0 ? 1 : 0;
      wb = 0;
      wc = 0;
      wd = 0;
    }
    const covered = wa + wb + wc + wd;
    if (covered < LEAST_COVERED_WEIGHT) return false;
    const n = this.components;
    a *= n;
    b *= n;
    c *= n;
    d *= n;
    for (let k = 0; k < n; k++) {
      out[offset + k] =
        (wa * (values[a + k] as number) +
          wb * (values[b + k] as number) +
          wc * (values[c + k] as number) +
          wd * (values[d + k] as number)) /
        covered;
    }
    return true;
  }
}

/** The mesh's locator, and where its nodes lie unless that is not needed to find a place. */
function laidMesh(mesh: Mesh, plane: Plane): { readonly locator: MeshLocator; readonly laid: LaidNodes | null } {
  if (mesh.kind === "latLon") return { locator: new LatLonLocator(mesh, plane), laid: null };
  const laid = layNodesAround(mesh, plane);
  if (mesh.kind === "curvilinear") return { locator: new CurvilinearLocator(mesh, laid, plane.radiusMetres), laid };
  if (mesh.valuesAt === "corners") return { locator: new CornerLocator(mesh, laid, plane.radiusMetres), laid };
  const centroids = centroidsOf(mesh.triangles, laid);
  return { locator: new TriangleLocator(mesh, laid, centroids, plane.radiusMetres), laid: centroids };
}

function placesOfNodes(mesh: Mesh, plane: Plane): LaidNodes {
  const laid = layAllNodes(mesh, plane);
  return mesh.kind === "triangles" && mesh.valuesAt === "triangles" ? centroidsOf(mesh.triangles, laid) : laid;
}
