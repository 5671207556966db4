import type { Plane } from "../../../src/core/earth/index.ts";
import type { CurvilinearMesh, GridData, GridQuantity, Mesh, TriangleMesh } from "../../../src/core/fields/index.ts";
import { nodeCountOf } from "../../../src/core/fields/index.ts";
import { latLonOf } from "./grids.ts";

export interface SheetPoint {
  readonly x: number;
  readonly y: number;
}

/** Latitudes and longitudes of places on a plane's sheet; longitudes on from the first, within half a turn of it. */
export function onEarth(plane: Plane, points: readonly SheetPoint[]): { latitudesDeg: Float64Array; longitudesDeg: Float64Array } {
  const positions = points.map(({ x, y }) => plane.toPosition(x, y));
  const first = positions[0]?.longitudeDeg ?? 0;
  return {
    latitudesDeg: Float64Array.from(positions, (position) => position.latitudeDeg),
    longitudesDeg: Float64Array.from(positions, ({ longitudeDeg }) => longitudeDeg - 360 * Math.round((longitudeDeg - first) / 360)),
  };
}

/** A curvilinear mesh whose node (j, i) lies on the sheet where `at` says; null for one without a place. */
export function curvilinearOn(
  plane: Plane,
  rows: number,
  columns: number,
  at: (j: number, i: number) => SheetPoint | null,
): CurvilinearMesh {
  const points = Array.from({ length: rows * columns }, (_, node) => at(Math.floor(node / columns), node % columns));
  const mesh = {
    kind: "curvilinear",
    rows,
    columns,
    ...onEarth(
      plane,
      points.map((point) => point ?? { x: 0, y: 0 }),
    ),
  } as const;
  if (!points.includes(null)) return { ...mesh, placed: null };
  points.forEach((point, node) => {
    if (point === null) mesh.latitudesDeg[node] = mesh.longitudesDeg[node] = 1e20;
  });
  return { ...mesh, placed: Uint8Array.from(points, (point) => (point === null ? 0 : 1)) };
}

/** Triangles on the sheet. */
export function trianglesOn(
  plane: Plane,
  corners: readonly SheetPoint[],
  triangles: readonly number[],
  valuesAt: TriangleMesh["valuesAt"],
): TriangleMesh {
  return { kind: "triangles", ...onEarth(plane, corners), triangles: Int32Array.from(triangles), valuesAt };
}

/** The cells of `rows` × `columns` nodes cut into two triangles each, along the diagonal and in the sense that `cut` says. */
export function cutCells(rows: number, columns: number, cut: () => { readonly rising: boolean; readonly clockwise: boolean }): number[] {
  const triangles: number[] = [];
  for (let j = 0; j + 1 < rows; j++) {
    for (let i = 0; i + 1 < columns; i++) {
      const a = j * columns + i;
      const [b, c, d] = [a + 1, a + columns + 1, a + columns];
      const { rising, clockwise } = cut();
      const pair = rising
        ? [
            [a, b, c],
            [a, c, d],
          ]
        : [
            [a, b, d],
            [b, c, d],
          ];
      for (const one of pair) triangles.push(...(clockwise ? one.reverse() : one));
    }
  }
  return triangles;
}

/** A regular grid's nodes as a curvilinear mesh, row after row. */
export function curvilinearOf(grid: GridData): GridData {
  const { latitudesDeg, longitudesDeg } = latLonOf(grid);
  const [rows, columns] = [latitudesDeg.length, longitudesDeg.length];
  return {
    ...grid,
    mesh: {
      kind: "curvilinear",
      rows,
      columns,
      latitudesDeg: Float64Array.from({ length: rows * columns }, (_, node) => latitudesDeg[Math.floor(node / columns)]!),
      longitudesDeg: Float64Array.from({ length: rows * columns }, (_, node) => longitudesDeg[node % columns]!),
      placed: null,
    },
  };
}

/** A regular grid's nodes as corners of triangles. */
export function cornersOf(grid: GridData): GridData {
  const { mesh } = curvilinearOf(grid);
  if (mesh.kind !== "curvilinear") throw new Error(mesh.kind);
  const { latitudesDeg, longitudesDeg, rows, columns } = mesh;
  const triangles = Int32Array.from(cutCells(rows, columns, () => ({ rising: true, clockwise: false })));
  return { ...grid, mesh: { kind: "triangles", latitudesDeg, longitudesDeg, triangles, valuesAt: "corners" } };
}

/** A field on any mesh, filled node by node; null where missing. */
export function fieldOn(
  mesh: Mesh,
  values: (node: number, t: number) => readonly number[] | null,
  quantities: readonly GridQuantity[] = ["seaHeightMetres"],
  times: readonly number[] = [0],
): GridData {
  const count = nodeCountOf(mesh);
  const data = new Float32Array(times.length * count * quantities.length);
  const missing = new Uint8Array(times.length * count);
  for (let point = 0; point < missing.length; point++) {
    const given = values(point % count, Math.floor(point / count));
    if (given === null) missing[point] = 1;
    else data.set(given, point * quantities.length);
  }
  const about = { nature: "instant", source: "test mesh", issuedAt: null, member: 0 } as const;
  return { quantities, mesh, times: Float64Array.from(times), values: data, missing, ...about };
}
