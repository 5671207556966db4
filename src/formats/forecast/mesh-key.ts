import type { Mesh } from "../../core/fields/index.ts";

/** Nodes nearer than this in latitude and longitude are the same place: single-precision coordinates differ in their last digits. */
const SAME_PLACE_DEG = 1e-4;

/** Whether two meshes have the same nodes in the same order. */
export function isSameMesh(one: Mesh, other: Mesh): boolean {
  if (one === other) return true;
  if (one.kind !== other.kind) return false;
  if (one.kind === "curvilinear" && other.kind === "curvilinear") {
    if (one.columns !== other.columns || !isSameMask(one.placed, other.placed)) return false;
  }
  if (one.kind === "triangles" && other.kind === "triangles") {
    if (one.valuesAt !== other.valuesAt || !isSameList(one.triangles, other.triangles, 0)) return false;
  }
  return (
    isSameList(one.latitudesDeg, other.latitudesDeg, SAME_PLACE_DEG) && isSameList(one.longitudesDeg, other.longitudesDeg, SAME_PLACE_DEG)
  );
}

function isSameList(one: Float64Array | Int32Array, other: Float64Array | Int32Array, within: number): boolean {
  return one.length === other.length && one.every((value, index) => Math.abs(value - other[index]!) <= within);
}

function isSameMask(one: Uint8Array | null, other: Uint8Array | null): boolean {
  if (one === null || other === null) return one === other;
  return one.length === other.length && one.every((value, index) => value === other[index]);
}
