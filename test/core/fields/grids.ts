import type { GridData, GridQuantity, LatLonMesh } from "../../../src/core/fields/index.ts";

type Node = {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly at: number;
  readonly t: number;
  readonly j: number;
  readonly i: number;
};

interface Asked {
  readonly quantities?: readonly GridQuantity[];
  readonly latitudesDeg: readonly number[];
  readonly longitudesDeg: readonly number[];
  readonly times?: readonly number[];
  readonly nature?: GridData["nature"];
  readonly issuedAt?: number | null;
  readonly source?: string;
  /** One value a quantity, or null where missing. */
  readonly values: (node: Node) => readonly number[] | null;
}

/** A grid filled node by node; of current unless other quantities are asked for. */
export function gridOf(asked: Asked): GridData {
  const { latitudesDeg, longitudesDeg, times = [0] } = asked;
  const quantities = asked.quantities ?? ["currentEastMps", "currentNorthMps"];
  const n = quantities.length;
  const points = times.length * latitudesDeg.length * longitudesDeg.length;
  const values = new Float32Array(points * n);
  const missing = new Uint8Array(points);
  let point = 0;
  times.forEach((at, t) => {
    latitudesDeg.forEach((latitudeDeg, j) => {
      longitudesDeg.forEach((longitudeDeg, i) => {
        const given = asked.values({ latitudeDeg, longitudeDeg, at, t, j, i });
        if (given === null) missing[point] = 1;
        else values.set(given, point * n);
        point++;
      });
    });
  });
  return {
    quantities,
    mesh: { kind: "latLon", latitudesDeg: Float64Array.from(latitudesDeg), longitudesDeg: Float64Array.from(longitudesDeg) },
    times: Float64Array.from(times),
    values,
    missing,
    nature: asked.nature ?? "instant",
    source: asked.source ?? "test grid",
    issuedAt: asked.issuedAt ?? null,
    member: 0,
  };
}

/** The mesh of a grid that must be one of latitudes and longitudes; throws when it is not. */
export function latLonOf(grid: GridData): LatLonMesh {
  if (grid.mesh.kind !== "latLon") throw new Error(`not a grid of latitudes and longitudes: ${grid.mesh.kind}`);
  return grid.mesh;
}

/** `count` numbers from `first` on, `step` apart. */
export function steps(first: number, step: number, count: number): number[] {
  return Array.from({ length: count }, (_, k) => first + k * step);
}
