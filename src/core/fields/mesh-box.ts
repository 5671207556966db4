import { wrap180Deg, wrap360Deg } from "../units/index.ts";
import type { Mesh } from "./mesh.ts";

/** The corners of an area, degrees; `eastDeg` is not below `westDeg` and may pass 180. */
export interface MeshBox {
  readonly southDeg: number;
  readonly northDeg: number;
  readonly westDeg: number;
  readonly eastDeg: number;
}

/**
 * The box around the places of a mesh. A latitude and longitude grid keeps its own longitudes. Elsewhere the box is the narrowest that holds
 * every placed node, or every corner that a triangle has, with `westDeg` in [-180, 180). Throws where there is no such place.
 */
export function meshBoxOf(mesh: Mesh): MeshBox {
  const { latitudesDeg, longitudesDeg } = mesh;
  if (mesh.kind === "latLon") {
    if (latitudesDeg.length === 0 || longitudesDeg.length === 0) throw new Error("a grid without rows or columns has no box");
    return {
      southDeg: latitudesDeg[0] as number,
      northDeg: latitudesDeg[latitudesDeg.length - 1] as number,
      westDeg: longitudesDeg[0] as number,
      eastDeg: longitudesDeg[longitudesDeg.length - 1] as number,
    };
  }
  const counts = new Uint8Array(latitudesDeg.length);
  if (mesh.kind === "triangles") for (const corner of mesh.triangles) counts[corner] = 1;
  else if (mesh.placed === null) counts.fill(1);
  else counts.set(mesh.placed);
  let southDeg = Number.POSITIVE_INFINITY;
  let northDeg = Number.NEGATIVE_INFINITY;
  const turns: number[] = [];
  for (let node = 0; node < counts.length; node++) {
    if (counts[node] === 0) continue;
    southDeg = Math.min(southDeg, latitudesDeg[node] as number);
    northDeg = Math.max(northDeg, latitudesDeg[node] as number);
    turns.push(wrap360Deg(longitudesDeg[node] as number));
  }
  if (turns.length === 0) throw new Error(`none of the ${counts.length} places of the mesh is one: it has no box`);
  return { southDeg, northDeg, ...narrowestArc(Float64Array.from(turns).sort()) };
}

/** The arc that leaves out the widest gap between longitudes in ascending order, [0, 360). */
function narrowestArc(ascendingDeg: Float64Array): { readonly westDeg: number; readonly eastDeg: number } {
  const count = ascendingDeg.length;
  let start = 0;
  let gapDeg = (ascendingDeg[0] as number) + 360 - (ascendingDeg[count - 1] as number);
  for (let i = 1; i < count; i++) {
    const gap = (ascendingDeg[i] as number) - (ascendingDeg[i - 1] as number);
    if (!(gap > gapDeg)) continue;
    gapDeg = gap;
    start = i;
  }
  const westDeg = wrap180Deg(ascendingDeg[start] as number);
  const eastDeg = wrap180Deg(ascendingDeg[(start + count - 1) % count] as number);
  return { westDeg, eastDeg: eastDeg < westDeg ? eastDeg + 360 : eastDeg };
}
