import type { Mesh } from "./mesh.ts";

/** How many nodes, places of values, a mesh has. */
export function nodeCountOf(mesh: Mesh): number {
  if (mesh.kind === "latLon") return mesh.latitudesDeg.length * mesh.longitudesDeg.length;
  if (mesh.kind === "curvilinear") return mesh.rows * mesh.columns;
  return mesh.valuesAt === "corners" ? mesh.latitudesDeg.length : mesh.triangles.length / 3;
}

/**
 * Throws, quoting what is wrong, when the parts of a mesh don't fit together, a placed node's latitude or longitude is no number or beyond
 * a pole, or a triangle has a corner that is not there. Axes of a latitude and longitude grid are checked where they are searched.
 */
export function checkMesh(mesh: Mesh): void {
  if (mesh.kind === "latLon") return;
  const { latitudesDeg, longitudesDeg } = mesh;
  const places = mesh.kind === "curvilinear" ? mesh.rows * mesh.columns : latitudesDeg.length;
  if (latitudesDeg.length !== places || longitudesDeg.length !== places) {
    throw new Error(`a mesh of ${places} places has ${latitudesDeg.length} latitudes and ${longitudesDeg.length} longitudes`);
  }
  const placed = mesh.kind === "curvilinear" ? mesh.placed : null;
  if (placed !== null && placed.length !== places) throw new Error(`a mesh of ${places} places has ${placed.length} marks of placing`);
  for (let node = 0; node < places; node++) {
    if (placed !== null && placed[node] === 0) continue;
    const latitudeDeg = latitudesDeg[node] as number;
    const longitudeDeg = longitudesDeg[node] as number;
    if (!(Math.abs(latitudeDeg) <= 90)) throw new Error(`latitude ${node} of the mesh is ${latitudeDeg}`);
    if (!Number.isFinite(longitudeDeg)) throw new Error(`longitude ${node} of the mesh is ${longitudeDeg}`);
  }
  if (mesh.kind !== "triangles") return;
  const { triangles } = mesh;
  if (triangles.length % 3 !== 0) throw new Error(`triangles of three corners each can't have ${triangles.length} in all`);
  for (let k = 0; k < triangles.length; k++) {
    const corner = triangles[k] as number;
    if (!(corner >= 0 && corner < places)) {
      throw new Error(`triangle ${Math.floor(k / 3)} of the mesh has corner ${corner} of ${places}`);
    }
  }
}
