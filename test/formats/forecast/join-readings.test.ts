import { describe, expect, it } from "vitest";
import type { CurvilinearMesh, GridData, GridQuantity } from "../../../src/core/fields/index.ts";
import { type ForecastReading, joinReadings, type LoneGrid } from "../../../src/formats/forecast/index.ts";
import { HOUR, JUNE, join, message, reading } from "./sample-files.ts";

const filled = (value: number) => new Float64Array(12).fill(value);

/** A file of current: one value at each hour, of a run. */
async function file(name: string, runHour: number, hours: readonly number[], value = 0.1): Promise<ForecastReading> {
  const parts = hours.flatMap((hour) =>
    [2, 3].map((number) =>
      message({ number, referenceAt: JUNE + runHour * HOUR, validFrom: JUNE + hour * HOUR, values: filled(value + hour / 100) }),
    ),
  );
  return { ...(await reading(join(parts))), name };
}

const hoursOf = (grid: GridData): number[] => [...grid.times].map((at) => (at - JUNE) / HOUR);
const codes = (joined: ReturnType<typeof joinReadings>): string[] => joined.oddities.map((one) => one.code);

describe("files of one source", () => {
  it("give one run over the hours that each has", async () => {
    const joined = joinReadings([await file("a", 0, [0, 3]), await file("b", 0, [6, 9])]);
    expect(joined.grids.map(hoursOf)).toEqual([[0, 3, 6, 9]]);
    expect(joined.grids[0]!.issuedAt).toBe(JUNE);
    expect([0, 1, 2, 3].map((t) => joined.grids[0]!.values[t * 24])).toEqual([0.1, 0.13, 0.16, 0.19].map(Math.fround));
    expect(codes(joined)).toEqual([]);
  });

  it("are used once where they repeat a time, and that is told", async () => {
    const joined = joinReadings([await file("a", 0, [0, 3, 6]), await file("b", 0, [6, 9])]);
    expect(joined.grids.map(hoursOf)).toEqual([[0, 3, 6, 9]]);
    expect(codes(joined)).toEqual(["files-repeat"]);
    expect(joined.oddities[0]!.message).toContain("1 times of the current");
  });

  it("contradict one another: the first named is used, and the time is told", async () => {
    const joined = joinReadings([await file("a", 0, [0, 3], 0.1), await file("b", 0, [3, 6], 0.5)]);
    expect(joined.grids[0]!.values[24]).toBe(Math.fround(0.13));
    expect(codes(joined)).toEqual(["files-disagree"]);
    expect(joined.oddities[0]!.message).toContain("2030-06-01 03:00Z");
  });

  it("leave a gap between them, and it is told", async () => {
    const joined = joinReadings([await file("a", 0, [0, 3, 6]), await file("b", 0, [15, 18])]);
    expect(codes(joined)).toEqual(["time-gap"]);
    expect(joined.oddities[0]!.message).toMatch(/Between 2030-06-01 06:00Z and 2030-06-01 15:00Z/);
  });

  it("of several runs are kept apart, newest first, whatever their order", async () => {
    const joined = joinReadings([await file("old", 0, [0, 3, 6, 9]), await file("new", 6, [6, 9, 12])]);
    expect(joined.grids.map((one) => [one.issuedAt, hoursOf(one)])).toEqual([
      [JUNE + 6 * HOUR, [6, 9, 12]],
      [JUNE, [0, 3, 6, 9]],
    ]);
    expect(codes(joined)).toEqual(["several-runs"]);
  });

  it("with one time each, all as far ahead, are one series of analyses", async () => {
    const joined = joinReadings([await file("a", 0, [0]), await file("c", 12, [12]), await file("b", 6, [6])]);
    expect(joined.grids.map((one) => [one.issuedAt, hoursOf(one)])).toEqual([[null, [0, 6, 12]]]);
    // The same hour of two runs is no series: the newer run is the better.
    const same = joinReadings([await file("a", 0, [6], 0.1), await file("b", 6, [6], 0.4)]);
    expect(same.grids.map((one) => [one.issuedAt, one.values[0]])).toEqual([
      [JUNE + 6 * HOUR, Math.fround(0.46)],
      [JUNE, Math.fround(0.16)],
    ]);
  });
});

/** A reading of nothing but one component on a mesh, with a value a node. */
function lone(
  quantity: GridQuantity,
  mesh: GridData["mesh"],
  values: readonly number[],
  more: Partial<LoneGrid> & { missing?: number } = {},
): ForecastReading {
  const grid: GridData = {
    quantities: [quantity],
    mesh,
    times: Float64Array.of(JUNE),
    values: Float32Array.from(values, (value, node) => (node === more.missing ? 0 : value)),
    missing: Uint8Array.from(values, (_, node) => (node === more.missing ? 1 : 0)),
    nature: "instant",
    source: quantity,
    issuedAt: null,
    member: 0,
  };
  const about = { kind: "netcdf4", name: quantity, sizeBytes: 1, grids: [], contents: [], oddities: [] } as const;
  return { ...about, lone: [{ grid, northDegTrue: more.northDegTrue ?? null }] };
}

/** Rows and columns of nodes from a corner, a degree apart, turned nowhere. */
function nodes(rows: number, columns: number, south: number, west: number): CurvilinearMesh {
  const at = Array.from({ length: rows * columns }, (_, node) => [south + Math.floor(node / columns), west + (node % columns)] as const);
  return {
    kind: "curvilinear",
    rows,
    columns,
    latitudesDeg: Float64Array.from(at, ([latitude]) => latitude),
    longitudesDeg: Float64Array.from(at, ([, longitude]) => longitude),
    placed: null,
  };
}

describe("components in two files", () => {
  it("on one mesh are paired node by node", () => {
    const mesh = nodes(2, 2, 40, -10);
    const joined = joinReadings([lone("windNorthMps", mesh, [5, 6, 7, 8]), lone("windEastMps", mesh, [1, 2, 3, 4])]);
    expect([...joined.grids[0]!.values]).toEqual([1, 5, 2, 6, 3, 7, 4, 8]);
    expect(codes(joined)).toEqual([]);
  });

  it("half a cell apart, as on an ocean model's C grid, meet at the centres between them", () => {
    // Centres at 40…42 N, 10…8 W; u half a degree east of each, v half a degree north.
    const u = nodes(3, 3, 40, -9.5);
    const v = nodes(3, 3, 40.5, -10);
    const joined = joinReadings([
      lone("windEastMps", u, [0, 1, 2, 3, 4, 5, 6, 7, 8]),
      lone("windNorthMps", v, [0, 10, 20, 30, 40, 50, 60, 70, 80]),
    ]);
    const grid = joined.grids[0]!;
    expect(grid.mesh).toMatchObject({ kind: "curvilinear", rows: 2, columns: 2 });
    expect([...(grid.mesh as CurvilinearMesh).latitudesDeg]).toEqual([41, 41, 42, 42]);
    expect([...(grid.mesh as CurvilinearMesh).longitudesDeg]).toEqual([-9, -8, -9, -8]);
    // At 41 N 9 W: u of row 1 between columns 0 and 1; v of column 1 between rows 0 and 1.
    expect([...grid.values]).toEqual([3.5, 25, 4.5, 35, 6.5, 55, 7.5, 65]);
    expect(codes(joined)).toEqual([]);
  });

  it("half a cell apart, some without a place: what lies between those has none either", () => {
    const u = nodes(3, 3, 40, -9.5);
    // The last node of the first row has no place, as on land, and stands at 0° N 0° E.
    u.latitudesDeg[5] = u.longitudesDeg[5] = 0;
    const placed = Uint8Array.of(1, 1, 1, 1, 1, 0, 1, 1, 1);
    const joined = joinReadings([
      lone("windEastMps", { ...u, placed }, [0, 1, 2, 3, 4, 5, 6, 7, 8]),
      lone("windNorthMps", nodes(3, 3, 40.5, -10), [0, 10, 20, 30, 40, 50, 60, 70, 80]),
    ]);
    expect(joined.grids[0]!.mesh).toMatchObject({ kind: "curvilinear", placed: Uint8Array.of(1, 0, 1, 1) });
  });

  it("take nothing to go through land", () => {
    const joined = joinReadings([
      lone("windEastMps", nodes(3, 3, 40, -9.5), [0, 1, 2, 3, 4, 5, 6, 7, 8], { missing: 3 }),
      lone("windNorthMps", nodes(3, 3, 40.5, -10), [0, 10, 20, 30, 40, 50, 60, 70, 80]),
    ]);
    expect([...joined.grids[0]!.values.slice(0, 2)]).toEqual([2, 25]);
    expect(joined.grids[0]!.missing[0]).toBe(0);
  });

  it("that are sound alone but make a vector that can't be, or hardly, are told as such", () => {
    const mesh = nodes(1, 3, 40, -10);
    const of = (east: GridQuantity, north: GridQuantity, speeds: readonly number[]) =>
      joinReadings([lone(east, mesh, speeds), lone(north, mesh, speeds)]);
    const current = of("currentEastMps", "currentNorthMps", [1, 5, 9]);
    expect([...current.grids[0]!.values]).toEqual([1, 1, 5, 5, 0, 0]);
    expect([...current.grids[0]!.missing]).toEqual([0, 0, 1]);
    expect(codes(current)).toEqual(["value-implausible", "value-doubtful"]);
    expect(current.oddities[1]!.message).toContain("current are beyond 6 m/s, up to 7.071");
    expect(codes(of("windEastMps", "windNorthMps", [20, 63, 65]))).toEqual(["value-doubtful"]);
  });

  it("along a turned grid are turned to true when they meet", () => {
    const mesh = nodes(1, 2, 40, -10);
    const northDegTrue = Float64Array.of(90, 90);
    const joined = joinReadings([
      lone("windEastMps", mesh, [3, 3], { northDegTrue }),
      lone("windNorthMps", mesh, [4, 4], { northDegTrue }),
    ]);
    // The grid's north lies east: what goes along y goes east, what goes along x goes south.
    expect([...joined.grids[0]!.values.slice(0, 2)]).toEqual([expect.closeTo(4, 6), expect.closeTo(-3, 6)]);
  });

  it("on grids that have nothing to do with each other, or alone, are told and not used", () => {
    const apart = joinReadings([
      lone("windEastMps", nodes(2, 2, 40, -10), [1, 2, 3, 4]),
      lone("windNorthMps", nodes(2, 2, 50.2, 3), [1, 2, 3, 4]),
    ]);
    expect([apart.grids.length, codes(apart)]).toEqual([0, ["component-missing"]]);
    const alone = joinReadings([lone("windEastMps", nodes(2, 2, 40, -10), [1, 2, 3, 4])]);
    expect([alone.grids.length, codes(alone)]).toEqual([0, ["component-missing"]]);
  });
});
