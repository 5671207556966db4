import type { Plane } from "../earth/index.ts";
import { radFromDeg, wrap180Deg } from "../units/index.ts";
import type { CurvilinearMesh, Mesh, TriangleMesh } from "./mesh.ts";
import { sheetPlaceOf } from "./sheet-place.ts";

/** Where nodes lie on a plane's sheet, metres, and the convergence there, degrees. NaN, for use in here only, where a node is not laid. */
export interface LaidNodes {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly convergenceDeg: Float64Array;
  /** Whether every node that has a place was laid. */
  readonly isWhole: boolean;
}

/** Nodes so far from the centre are not laid for the sake of their cells: no sea model has cells that reach from there to the plane. */
const FARTHEST_NODE_RAD = radFromDeg(45);
/** The ellipsoid's least radius of curvature, rounded down: an angle reckoned by it is never too small for its metres. */
const SMALLEST_RADIUS_METRES = 6_335_000;

/** Lays the nodes of a latitude and longitude grid or of a curvilinear mesh, or the corners of triangles, however far they are. */
export function layAllNodes(mesh: Mesh, plane: Plane): LaidNodes {
  return layNodes(mesh, plane, () => true);
}

/** Lays the nodes, or the corners, that cells on the plane can have, and those of such cells' neighbours. */
export function layNodesAround(mesh: CurvilinearMesh | TriangleMesh, plane: Plane): LaidNodes {
  const { latitudesDeg, longitudesDeg } = mesh;
  const placed = mesh.kind === "curvilinear" ? mesh.placed : null;
  const count = latitudesDeg.length;
  const unit = new Float64Array(3 * count);
  for (let node = 0; node < count; node++) {
    if (placed !== null && placed[node] === 0) unit.fill(Number.NaN, 3 * node, 3 * node + 3);
    else unitInto(unit, 3 * node, latitudesDeg[node] as number, longitudesDeg[node] as number);
  }
  const centre = new Float64Array(3);
  unitInto(centre, 0, plane.centre.latitudeDeg, plane.centre.longitudeDeg);
  const longestRad = 2 * Math.asin(Math.min(1, longestChord(mesh, unit) / 2));
  const reachRad = Math.min(FARTHEST_NODE_RAD, (Math.SQRT2 * plane.radiusMetres) / SMALLEST_RADIUS_METRES + 3.1 * longestRad + 1e-6);
  const least = Math.cos(reachRad);
  const [cx, cy, cz] = [centre[0] as number, centre[1] as number, centre[2] as number];
  return layNodes(
    mesh,
    plane,
    (node) => cx * (unit[3 * node] as number) + cy * (unit[3 * node + 1] as number) + cz * (unit[3 * node + 2] as number) >= least,
  );
}

/** The centroids of triangles whose corners are laid. */
export function centroidsOf(triangles: Int32Array, corners: LaidNodes): LaidNodes {
  const count = triangles.length / 3;
  const laid = unlaid(count, corners.isWhole);
  for (let triangle = 0; triangle < count; triangle++) {
    const a = triangles[3 * triangle] as number;
    const b = triangles[3 * triangle + 1] as number;
    const c = triangles[3 * triangle + 2] as number;
    laid.x[triangle] = ((corners.x[a] as number) + (corners.x[b] as number) + (corners.x[c] as number)) / 3;
    laid.y[triangle] = ((corners.y[a] as number) + (corners.y[b] as number) + (corners.y[c] as number)) / 3;
    const first = corners.convergenceDeg[a] as number;
    const [second, third] = [corners.convergenceDeg[b] as number, corners.convergenceDeg[c] as number];
    laid.convergenceDeg[triangle] = first + (wrap180Deg(second - first) + wrap180Deg(third - first)) / 3;
  }
  return laid;
}

function layNodes(mesh: Mesh, plane: Plane, isNear: (node: number) => boolean): LaidNodes {
  const { latitudesDeg, longitudesDeg } = mesh;
  const columns = mesh.kind === "latLon" ? longitudesDeg.length : 0;
  const count = mesh.kind === "latLon" ? latitudesDeg.length * columns : latitudesDeg.length;
  const placed = mesh.kind === "curvilinear" ? mesh.placed : null;
  let isWhole = true;
  const laid = unlaid(count, isWhole);
  for (let node = 0; node < count; node++) {
    if (placed !== null && placed[node] === 0) continue;
    if (!isNear(node)) {
      isWhole = false;
      continue;
    }
    const latitudeDeg = latitudesDeg[columns > 0 ? Math.floor(node / columns) : node] as number;
    const longitudeDeg = longitudesDeg[columns > 0 ? node % columns : node] as number;
    const place = sheetPlaceOf(plane, { latitudeDeg, longitudeDeg });
    laid.x[node] = place.xMetres;
    laid.y[node] = place.yMetres;
    laid.convergenceDeg[node] = place.convergenceDeg;
  }
  return { ...laid, isWhole };
}

function unlaid(count: number, isWhole: boolean): LaidNodes {
  const nothing = (): Float64Array => new Float64Array(count).fill(Number.NaN);
  return { x: nothing(), y: nothing(), convergenceDeg: nothing(), isWhole };
}

function unitInto(unit: Float64Array, at: number, latitudeDeg: number, longitudeDeg: number): void {
  const phi = radFromDeg(latitudeDeg);
  const lambda = radFromDeg(longitudeDeg);
  unit[at] = Math.cos(phi) * Math.cos(lambda);
  unit[at + 1] = Math.cos(phi) * Math.sin(lambda);
  unit[at + 2] = Math.sin(phi);
}

/** The longest side of any cell, as a chord of the unit sphere. */
function longestChord(mesh: CurvilinearMesh | TriangleMesh, unit: Float64Array): number {
  let square = 0;
  const look = (a: number, b: number): void => {
    const dx = (unit[3 * a] as number) - (unit[3 * b] as number);
    const dy = (unit[3 * a + 1] as number) - (unit[3 * b + 1] as number);
    const dz = (unit[3 * a + 2] as number) - (unit[3 * b + 2] as number);
    const one = dx * dx + dy * dy + dz * dz;
    if (one > square) square = one;
  };
  if (mesh.kind === "curvilinear") {
    const { rows, columns } = mesh;
    for (let node = 0; node < rows * columns; node++) {
      if (node % columns > 0) look(node - 1, node);
      if (node >= columns) look(node - columns, node);
    }
  } else {
    const { triangles } = mesh;
    for (let k = 0; k < triangles.length; k += 3) {
      look(triangles[k] as number, triangles[k + 1] as number);
      look(triangles[k + 1] as number, triangles[k + 2] as number);
      look(triangles[k + 2] as number, triangles[k] as number);
    }
  }
  return Math.sqrt(square);
}
