import { describe, expect, it } from "vitest";
import { eastOf, firstOfJune, hoursOfJune, madeFile, northOf, standard, type VariableMade, vectorAt } from "./netcdf-files.ts";
import { codesOf, JUNE, reading } from "./sample-files.ts";

/** Corners on rows of five, a degree apart; each square is parted by its diagonal into two triangles. */
const COLUMNS = 5;
const CORNERS = 20;
const corner = (node: number): [latitude: number, longitude: number] => [40 + Math.floor(node / COLUMNS), 5 + (node % COLUMNS)];
const triangles: number[][] = [];
for (let y = 0; y < 3; y++) {
  for (let x = 0; x < COLUMNS - 1; x++) {
    const first = y * COLUMNS + x;
    triangles.push([first, first + 1, first + COLUMNS + 1], [first, first + COLUMNS + 1, first + COLUMNS]);
  }
}
const SIZE = { time: 2, node: CORNERS, nele: triangles.length, three: 3 };
const places = (lon360 = false): Record<string, VariableMade> => ({
  lat: northOf((node) => corner(node!)[0], "node"),
  lon: eastOf((node) => corner(node!)[1] + (lon360 ? 360 : 0), "node"),
});
const nv = (first: number, attributes: Record<string, number | string> = {}): VariableMade => ({
  along: "three nele",
  type: "int",
  attributes,
  value: (side, cell) => triangles[cell!]![side!]! + first,
});
const onCells = {
  u: standard("eastward_sea_water_velocity", "time nele", (t, cell) => t! + cell! / 100),
  v: standard("northward_sea_water_velocity", "time nele", () => -0.5),
};

describe("values on triangles", () => {
  it("are read as FVCOM writes them: corners counted from 1 along (three, nele), centres beside the nodes, longitudes to 360", async () => {
    const bytes = madeFile(SIZE, {
      ...places(true),
      latc: northOf(() => 41, "nele"),
      lonc: eastOf(() => 366, "nele"),
      nv: nv(1, { long_name: "nodes surrounding an element" }),
      time: hoursOfJune,
      ...onCells,
      uwind_speed: { along: "time nele", attributes: { units: "meters s-1", standard_name: "eastward wind" }, value: () => 7 },
      vwind_speed: { along: "time nele", attributes: { units: "meters s-1", standard_name: "northward wind" }, value: () => -3 },
    });
    const read = await reading(bytes);
    expect(read.oddities).toEqual([]);
    const [current, wind] = read.grids;
    const { mesh } = current!;
    if (mesh.kind !== "triangles") throw new Error(mesh.kind);
    expect(mesh.valuesAt).toBe("triangles");
    expect([...mesh.triangles.subarray(15, 18)].map((node) => [mesh.latitudesDeg[node], mesh.longitudesDeg[node]])).toEqual(
      triangles[5]!.map(corner),
    );
    expect(vectorAt(current!, triangles.length + 5)).toEqual([Math.fround(1.05), -0.5]);
    expect(vectorAt(wind!, 0)).toEqual([7, -3]);
    expect(read.contents.find((one) => one.name === "u")).toMatchObject({
      rows: 1,
      columns: 24,
      area: { southDeg: 40, northDeg: 43, westDeg: 5, eastDeg: 9 },
    });
  });

  it.each([
    [0, undefined],
    [0, 0],
    [1, 1],
  ])("are read by UGRID: cells along the first dimension, corners counted from %s, start_index %s", async (first, startIndex) => {
    const bytes = madeFile(SIZE, {
      mesh: {
        along: "",
        attributes: {
          cf_role: "mesh_topology",
          topology_dimension: 2,
          node_coordinates: "mesh_x mesh_y",
          face_node_connectivity: "mesh_faces",
        },
        value: () => 0,
      },
      mesh_y: { along: "node", attributes: { standard_name: "latitude", units: "degrees_north" }, value: (node) => corner(node!)[0] },
      mesh_x: { along: "node", attributes: { standard_name: "longitude", units: "degrees_east" }, value: (node) => corner(node!)[1] },
      mesh_faces: {
        along: "nele three",
        type: "int",
        attributes: { cf_role: "face_node_connectivity", ...(startIndex === undefined ? {} : { start_index: startIndex }) },
        value: (cell, side) => triangles[cell!]![side!]! + first,
      },
      time: hoursOfJune,
      hs: { along: "time node", attributes: { units: "m", mesh: "mesh", location: "node" }, value: (_t, node) => node! / 10 },
    });
    const grid = (await reading(bytes)).grids[0]!;
    const { mesh } = grid;
    if (mesh.kind !== "triangles") throw new Error(mesh.kind);
    expect(mesh.valuesAt).toBe("corners");
    const [one] = mesh.triangles.subarray(33, 34);
    expect([mesh.latitudesDeg[one!], mesh.longitudesDeg[one!]]).toEqual(corner(triangles[11]![0]!));
    expect(grid.values[one!]).toBeCloseTo(triangles[11]![0]! / 10, 6);
  });

  it("cropped keep the triangles that touch the passage and the ring around them, corners counted anew", async () => {
    const bytes = madeFile(SIZE, { ...places(), nv: nv(1), time: hoursOfJune, ...onCells });
    const area = { southDeg: 40.2, northDeg: 40.3, westDeg: 5.6, eastDeg: 5.7, from: JUNE, until: JUNE + 3600 };
    const grid = (await reading(bytes, area)).grids[0]!;
    const { mesh } = grid;
    if (mesh.kind !== "triangles") throw new Error(mesh.kind);
    // The square of corners 0, 1, 5, 6 and all triangles that share one of those four.
    const kept = triangles.map((one, cell) => (one.some((node) => [0, 1, 5, 6].includes(node)) ? cell : -1)).filter((cell) => cell >= 0);
    expect(mesh.triangles.length / 3).toBe(kept.length);
    expect(mesh.latitudesDeg.length).toBe(new Set(kept.flatMap((cell) => triangles[cell]!)).size);
    for (const [node, cell] of kept.entries()) {
      const corners = [...mesh.triangles.subarray(3 * node, 3 * node + 3)].map((at) => [mesh.latitudesDeg[at], mesh.longitudesDeg[at]]);
      expect(corners).toEqual(triangles[cell]!.map(corner));
      expect(vectorAt(grid, node)[0]).toBeCloseTo(cell / 100, 6);
    }
    const away = await reading(bytes, { ...area, westDeg: 15, eastDeg: 16 });
    expect(codesOf(away)).toEqual(["outside-passage"]);
  });

  it("at corners of four-cornered cells part each in two; values on such cells are refused", async () => {
    const quads = (fourth: number): VariableMade => ({
      along: "nele four",
      type: "int",
      attributes: { _FillValue: Int32Array.of(-1) },
      value: (cell, side) => (cell === 0 ? [0, 1, 6, 5][side!]! + 1 : side === 3 ? fourth : [1, 2, 7][side!]! + 1),
    });
    const size = { time: 1, node: CORNERS, nele: 2, four: 4 };
    const hs = { along: "time node", attributes: { units: "m" }, value: () => 2 };
    const read = await reading(madeFile(size, { ...places(), element: quads(-1), time: hoursOfJune, hs }));
    const { mesh } = read.grids[0]!;
    if (mesh.kind !== "triangles") throw new Error(mesh.kind);
    expect(mesh.triangles.length).toBe(9);
    const cells = await reading(madeFile(size, { ...places(), element: quads(-1), time: hoursOfJune, ...onCells }));
    expect(codesOf(cells)).toContain("grid-not-read");
  });

  it("that name corners which aren't there, or points without triangles, are refused", async () => {
    const beyond = nv(1);
    const wrong = { ...beyond, value: (side?: number, cell?: number) => (cell === 3 ? 99 : beyond.value(side!, cell!)) };
    const lies = await reading(madeFile(SIZE, { ...places(), nv: wrong, time: firstOfJune, ...onCells }));
    expect(codesOf(lies)).toContain("file-lies");
    expect(lies.grids).toEqual([]);
    const bare = await reading(
      madeFile(SIZE, { ...places(), time: hoursOfJune, hs: { along: "time node", attributes: { units: "m" }, value: () => 2 } }),
    );
    expect(bare.grids).toEqual([]);
    expect(codesOf(bare)).toContain("grid-not-read");
  });
});
