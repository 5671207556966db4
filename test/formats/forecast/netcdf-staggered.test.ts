import { describe, expect, it } from "vitest";
import { eastOf, hoursOfJune, madeFile, northOf, type ValueAt, type VariableMade, vectorAt } from "./netcdf-files.ts";
import { codesOf, JUNE, reading } from "./sample-files.ts";

/*
 * ROMS's own layout (wiki.myroms.org, "Grid generation" and "Numerical solution technique"): rho points in the cells' middles, u halfway to the next
 * column's, v halfway to the next row's; `angle` from east to the XI axis, anticlockwise.
 */
const SIZE = { time: 1, eta_rho: 5, xi_rho: 6, eta_u: 5, xi_u: 5, eta_v: 4, xi_v: 6 };
const FILL = 1e37;
const latitude: ValueAt = (y) => 50 + 0.1 * y!;
const longitude: ValueAt = (_y, x) => 10 + 0.1 * x!;

interface Made {
  readonly u?: ValueAt;
  readonly v?: ValueAt;
  readonly more?: Record<string, VariableMade>;
  readonly size?: Record<string, number>;
}
const roms = ({ u = () => 1, v = () => 0, more = {}, size = {} }: Made) =>
  madeFile(
    { ...SIZE, ...size },
    {
      time: { ...hoursOfJune },
      lat_rho: northOf(latitude, "eta_rho xi_rho"),
      lon_rho: eastOf(longitude, "eta_rho xi_rho"),
      u: component("u", "time eta_u xi_u", (_t, y, x) => u(y!, x!)),
      v: component("v", "time eta_v xi_v", (_t, y, x) => v(y!, x!)),
      ...more,
    },
  );
const component = (name: string, along: string, value: ValueAt): VariableMade => ({
  along,
  attributes: { units: "meter second-1", long_name: `${name}-momentum component, ocean`, _FillValue: FILL },
  value,
});
const mask = (along: string, isWater: (y: number, x: number) => boolean): VariableMade => ({
  along,
  value: (y, x) => (isWater(y!, x!) ? 1 : 0),
});
const angle = (value: number, units = "radians"): VariableMade => ({ along: "eta_rho xi_rho", attributes: { units }, value: () => value });
const only = async (made: Made) => {
  const read = await reading(roms(made));
  expect(read.grids).toHaveLength(1);
  return read.grids[0]!;
};
/** The node of a rho point among those with faces on every side: rows 1 to 3, columns 1 to 4. */
const node = (row: number, column: number): number => (row - 1) * 4 + column - 1;

describe("a current on the faces of cells", () => {
  it("comes out in the middles that have faces on every side, as the mean of the two", async () => {
    const grid = await only({ u: (y, x) => 0.1 * x! + 0.01 * y!, v: (y, x) => 0.2 * y! + 0.001 * x! });
    expect(grid.mesh).toMatchObject({ kind: "curvilinear", rows: 3, columns: 4 });
    expect([grid.mesh.latitudesDeg[0], grid.mesh.longitudesDeg[0]]).toEqual([50.1, 10.1]);
    // rho (2, 3) lies between u (2, 2) and u (2, 3), and between v (1, 3) and v (2, 3).
    expect(vectorAt(grid, node(2, 3))[0]).toBeCloseTo(0.27, 6);
    expect(vectorAt(grid, node(2, 3))[1]).toBeCloseTo(0.303, 6);
    expect(grid.missing.every((mark) => mark === 0)).toBe(true);
  });

  it.each([
    ["radians", Math.PI / 90],
    ["degrees", 2],
  ])("is turned by the file's angle in %s", async (units, value) => {
    const grid = await only({ more: { angle: angle(value, units) } });
    expect(vectorAt(grid, 0)[0]).toBeCloseTo(Math.cos(Math.PI / 90), 6);
    expect(vectorAt(grid, 0)[1]).toBeCloseTo(Math.sin(Math.PI / 90), 6);
  });

  it("is turned by the places of the nodes where the file has no angle, or one that contradicts them, which is told", async () => {
    const wrong = await reading(roms({ more: { angle: angle(1) } }));
    expect(codesOf(wrong)).toEqual(["file-lies"]);
    expect(wrong.oddities[0]!.message).toContain('"angle" is 57° off');
    expect(vectorAt(wrong.grids[0]!, 0)[0]).toBeCloseTo(1, 4);
  });

  it("has no component through a coast: a face on land is 0, whatever stands there", async () => {
    // Land at rho (2, 1) and all that touches it.
    const more = {
      mask_rho: mask("eta_rho xi_rho", (y, x) => !(y === 2 && x === 1)),
      mask_u: mask("eta_u xi_u", (y, x) => !(y === 2 && x <= 1)),
      mask_v: mask("eta_v xi_v", (y, x) => !(x === 1 && (y === 1 || y === 2))),
    };
    for (const onLand of [FILL, 0.341]) {
      const grid = await only({ more, u: (y, x) => (y === 2 && x! <= 1 ? onLand : 0.8), v: () => 0.4 });
      expect(grid.missing[node(2, 1)]).toBe(1);
      expect(vectorAt(grid, node(2, 2))[0]).toBeCloseTo(0.4, 6);
      expect(vectorAt(grid, node(2, 3))[0]).toBeCloseTo(0.8, 6);
      expect(vectorAt(grid, node(1, 1))[1]).toBeCloseTo(0.2, 6);
      expect(grid.missing.reduce((sum, mark) => sum + mark, 0)).toBe(1);
    }
  });

  it("without masks takes a fill for land, and a middle with none but such for land too", async () => {
    const grid = await only({
      u: (y, x) => (y === 2 && x! <= 1 ? FILL : 0.8),
      v: (y, x) => (x === 1 && (y === 1 || y === 2) ? FILL : 0.4),
    });
    expect(grid.missing[node(2, 1)]).toBe(1);
    expect(vectorAt(grid, node(2, 2))[0]).toBeCloseTo(0.4, 6);
  });

  it("is missing where a face in the water has no value", async () => {
    const more = { mask_u: mask("eta_u xi_u", () => true), mask_v: mask("eta_v xi_v", () => true) };
    const grid = await only({ more, u: (y, x) => (y === 2 && x === 2 ? FILL : 0.8) });
    expect([grid.missing[node(2, 2)], grid.missing[node(2, 3)], grid.missing[node(2, 4)]]).toEqual([1, 1, 0]);
  });

  it("cut out with as many faces as middles has each face after its middle, unless the faces' places say before it", async () => {
    const size = { xi_u: 6, eta_v: 5 };
    const blank = { lat_u: northOf(() => 0, "eta_u xi_u"), lon_u: eastOf(() => 0, "eta_u xi_u") };
    for (const more of [{}, blank]) {
      const grid = await only({ size, more, u: (_y, x) => 0.1 * x!, v: (y) => 0.1 * y! });
      expect(grid.mesh).toMatchObject({ rows: 4, columns: 5 });
      expect([grid.mesh.latitudesDeg[0], grid.mesh.longitudesDeg[0]]).toEqual([50.1, 10.1]);
      expect(vectorAt(grid, 0)[0]).toBeCloseTo(0.05, 6);
      expect(vectorAt(grid, 0)[1]).toBeCloseTo(0.05, 6);
    }
    const before = {
      lat_u: northOf((y) => 50 + 0.1 * y!, "eta_u xi_u"),
      lon_u: eastOf((_y, x) => 9.95 + 0.1 * x!, "eta_u xi_u"),
      lat_v: northOf((y) => 49.95 + 0.1 * y!, "eta_v xi_v"),
      lon_v: eastOf((_y, x) => 10 + 0.1 * x!, "eta_v xi_v"),
    };
    const shifted = await only({ size, more: before, u: (_y, x) => 0.1 * x!, v: (y) => 0.1 * y! });
    expect([shifted.mesh.latitudesDeg[0], shifted.mesh.longitudesDeg[0]]).toEqual([50, 10]);
    // At the grid's edge its lean is that of half a cell further in: a great circle leaves the parallel by 0.04° there.
    expect(vectorAt(shifted, 0)[0]).toBeCloseTo(0.05, 4);
    expect(vectorAt(shifted, 0)[1]).toBeCloseTo(0.05, 4);
    expect(vectorAt(shifted, 1)[0]).toBeCloseTo(0.15, 6);
  });

  it("is taken at the level nearest the surface, by its value and not by its place", async () => {
    for (const levels of [
      [-0.9, -0.5, -0.1],
      [-0.1, -0.5, -0.9],
    ]) {
      const layered = (name: string, along: string): VariableMade => component(name, along, (_t, k) => levels[k!]! + 1);
      const read = await reading(
        roms({
          size: { s_rho: 3 },
          more: {
            s_rho: { along: "s_rho", attributes: { standard_name: "ocean_s_coordinate_g2" }, value: (k) => levels[k!]! },
            u: layered("u", "time s_rho eta_u xi_u"),
            v: layered("v", "time s_rho eta_v xi_v"),
          },
        }),
      );
      expect(codesOf(read)).toEqual(["level-chosen", "level-chosen"]);
      expect(vectorAt(read.grids[0]!, 0)[0]).toBeCloseTo(0.9, 4);
    }
  });

  it("cropped gives the same as whole", async () => {
    const made: Made = { u: (y, x) => 0.1 * x! + 0.01 * y!, v: (y, x) => 0.2 * y! + 0.001 * x!, more: { angle: angle(0.02) } };
    const whole = await only(made);
    const area = { southDeg: 50.24, northDeg: 50.26, westDeg: 10.34, eastDeg: 10.36, from: JUNE, until: JUNE };
    const part = (await reading(roms(made), area)).grids[0]!;
    expect(part.mesh).toMatchObject({ rows: 3, columns: 3 });
    expect(vectorAt(part, 0)).toEqual(vectorAt(whole, node(1, 2)));
    expect(vectorAt(part, 8)).toEqual(vectorAt(whole, node(3, 4)));
  });

  it("already eastward in the middles stands on all of them, unturned", async () => {
    const eastward = (name: string, value: number): VariableMade => ({ ...component(name, "time eta_rho xi_rho", () => value) });
    const bytes = madeFile(SIZE, {
      time: hoursOfJune,
      lat_rho: northOf(latitude, "eta_rho xi_rho"),
      lon_rho: eastOf(longitude, "eta_rho xi_rho"),
      angle: angle(0.5),
      u_eastward: eastward("u_eastward", 0.3),
      v_northward: eastward("v_northward", -0.2),
    });
    const grid = (await reading(bytes)).grids[0]!;
    expect(grid.mesh).toMatchObject({ rows: 5, columns: 6 });
    expect(vectorAt(grid, 7)).toEqual([Math.fround(0.3), Math.fround(-0.2)]);
  });

  it("is left out where none of the middles with faces on every side has a place", async () => {
    const outermost: ValueAt = (y, x) => (y === 0 || y === 4 || x === 0 || x === 5 ? 0 : 1e20);
    const placed =
      (value: ValueAt): ValueAt =>
      (y, x) =>
        outermost(y!, x!) === 0 ? value(y!, x!) : 1e20;
    const more = { lat_rho: northOf(placed(latitude), "eta_rho xi_rho"), lon_rho: eastOf(placed(longitude), "eta_rho xi_rho") };
    const read = await reading(roms({ more }));
    expect([read.grids, codesOf(read)]).toEqual([[], expect.arrayContaining(["outside-passage"])]);
  });

  it("with one component only waits for the other, in the middles, with the way the grid lies", async () => {
    const bytes = madeFile(SIZE, {
      time: hoursOfJune,
      lat_rho: northOf(latitude, "eta_rho xi_rho"),
      lon_rho: eastOf(longitude, "eta_rho xi_rho"),
      angle: angle(0.02),
      u: component("u", "time eta_u xi_u", (_t, _y, x) => 0.1 * x!),
    });
    const read = await reading(bytes);
    expect([read.grids, codesOf(read)]).toEqual([[], expect.arrayContaining(["component-alone"])]);
    const { grid, northDegTrue } = read.lone[0]!;
    expect(grid.quantities).toEqual(["currentEastMps"]);
    expect(grid.values[0]).toBeCloseTo(0.05, 6);
    expect(northDegTrue![0]).toBeCloseTo((-0.02 * 180) / Math.PI, 6);
  });
});
