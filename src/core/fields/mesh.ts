/**
 * A regular latitude and longitude grid: `latitudesDeg` (ny) and `longitudesDeg` (nx) strictly ascending, evenly spaced or not, longitudes
 * unwrapped (they may pass 180). Node number = row × nx + column.
 */
export interface LatLonMesh {
  readonly kind: "latLon";
  readonly latitudesDeg: Float64Array;
  readonly longitudesDeg: Float64Array;
}

/**
 * Rows and columns of nodes anywhere on the earth, as on a map's grid, a turned pole or a grid bent along a coast: the latitude and
 * longitude of every node, row after row. Longitudes of neighbours differ by less than 180; they may pass 180. `placed`, where given, is
 * 0 at nodes that the file gives no place; no cell with such a corner covers anything.
 */
export interface CurvilinearMesh {
  readonly kind: "curvilinear";
  readonly rows: number;
  readonly columns: number;
  readonly latitudesDeg: Float64Array;
  readonly longitudesDeg: Float64Array;
  readonly placed: Uint8Array | null;
}

/**
 * Triangles (UGRID): `latitudesDeg`, `longitudesDeg` of the corners; `triangles` three corner numbers each, in either sense. The values
 * stand at the corners (node number = corner) or hold for the triangles (node number = triangle).
 */
export interface TriangleMesh {
  readonly kind: "triangles";
  readonly latitudesDeg: Float64Array;
  readonly longitudesDeg: Float64Array;
  readonly triangles: Int32Array;
  readonly valuesAt: "corners" | "triangles";
}

/** The places of a field's values. */
export type Mesh = LatLonMesh | CurvilinearMesh | TriangleMesh;

/** How many places values have. */
export function nodeCountOf(mesh: Mesh): number {
  switch (mesh.kind) {
    case "latLon":
      return mesh.latitudesDeg.length * mesh.longitudesDeg.length;
    case "curvilinear":
      return mesh.rows * mesh.columns;
    case "triangles":
      return mesh.valuesAt === "corners" ? mesh.latitudesDeg.length : mesh.triangles.length / 3;
  }
}
