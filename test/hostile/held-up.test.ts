/** The measure that mutations are held to, tried on what it must find. */
import { describe, expect, test } from "vitest";
import type { GridData } from "../../src/core/fields/index.ts";
import { fixturesOf, mutation, RUN_SEED } from "./campaign.ts";
import { faultsOfGrid } from "./check-grid.ts";
import { counted } from "./counted-work.ts";
import type { Structure } from "./fixture.ts";
import { lookup3 } from "./mutate-hdf5.ts";

const grid = (more: Partial<GridData> = {}): GridData => ({
  quantities: ["currentEastMps", "currentNorthMps"],
  mesh: { kind: "latLon", latitudesDeg: Float64Array.of(40, 41), longitudesDeg: Float64Array.of(1, 2) },
  times: Float64Array.of(0, 3600),
  values: new Float32Array(16).fill(1),
  missing: new Uint8Array(8),
  nature: "instant",
  source: "made",
  issuedAt: null,
  member: 0,
  ...more,
});
const filled = (value: number, count: number): Float32Array => new Float32Array(count).fill(value);
const told = [{ code: "value-doubtful", message: "8 values of the current are beyond 6 m/s" } as const];
const faults = (more: Partial<GridData>, oddities: Parameters<typeof faultsOfGrid>[1] = []) => faultsOfGrid(grid(more), oddities, true);

describe("the measure", () => {
  test("lets a sound grid pass, and a swift current that is told", () => {
    expect(faults({})).toEqual([]);
    expect(faults({ values: filled(5, 16) }, told)).toEqual([]);
  });

  test("finds vectors that are too long though each part isn't, and scalars, in silence or told of another quantity", () => {
    expect(faults({ values: filled(5, 16) })[0]).toMatch(/current of 7\.07\d*, in silence/);
    expect(faults({ values: filled(5, 16) }, [{ code: "value-doubtful", message: "8 values of the wind" }])).toHaveLength(1);
    const scalars = [
      ["gustMps", 121],
      ["seaHeightMetres", 41],
      ["swellPeriodSeconds", 61],
      ["seaHeightMetres", -1],
    ] as const;
    for (const [quantity, value] of scalars) {
      expect([quantity, faults({ quantities: [quantity], values: filled(value, 8) }).length]).toEqual([quantity, 1]);
    }
  });

  test("finds values that are none, times and axes that don't ascend, lists of wrong lengths", () => {
    const twice = Float64Array.of(40, 40);
    const wrong: Partial<GridData>[] = [
      { values: filled(Number.NaN, 16) },
      { missing: new Uint8Array(8).fill(1) },
      { times: Float64Array.of(3600, 3600) },
      { values: filled(1, 15) },
      { mesh: { kind: "latLon", latitudesDeg: twice, longitudesDeg: twice } },
      { mesh: { kind: "curvilinear", rows: 2, columns: 2, latitudesDeg: filled64(91), longitudesDeg: filled64(1), placed: null } },
      {
        mesh: {
          kind: "curvilinear",
          rows: 2,
          columns: 2,
          latitudesDeg: filled64(0),
          longitudesDeg: filled64(0),
          placed: new Uint8Array(4),
        },
      },
      {
        mesh: {
          kind: "curvilinear",
          rows: 2,
          columns: 2,
          latitudesDeg: filled64(1),
          longitudesDeg: Float64Array.of(-179, 179, 0, 0),
          placed: null,
        },
      },
    ];
    expect(wrong.map((one) => faults(one).length > 0)).toEqual(wrong.map(() => true));
  });

  test("counts what is asked and what is made, slices and copies too, and leaves the constructors as they were", async () => {
    const real = Float64Array;
    const { result, work } = await counted(new Uint8Array(10), async (source) => {
      const bytes = await source.read(0, 10);
      const numbers = new Float64Array(100);
      const more = [numbers.slice(0, 10), numbers.map((one) => one + 1), Float64Array.from([1, 2]), new Uint8Array(bytes.buffer)];
      return more.every((one) => one instanceof Float64Array || one instanceof Uint8Array) && numbers instanceof real;
    });
    expect(result).toBe(true);
    expect(work).toEqual({ askedBytes: 10, allocatedBytes: 800 + 80 + 800 + 16 });
    expect(Float64Array).toBe(real);
    expect(new Float64Array(1).constructor).toBe(real);
  });
});

describe("mutations", () => {
  test("are the same for the same seed and number, and other for others", async () => {
    for (const structure of ["grib2", "grib1", "netcdf", "hdf5"] satisfies Structure[]) {
      const fixtures = await fixturesOf(structure);
      const again = await fixturesOf(structure);
      const made = [fixtures, again].map((ones) => mutation(ones, fixtures.length * 3 + 1, RUN_SEED).bytes);
      expect(made[0]).toEqual(made[1]);
      const different = new Set(Array.from({ length: 20 }, (_, i) => mutation(fixtures, fixtures.length * i, RUN_SEED).bytes.join()));
      expect(different.size).toBeGreaterThan(15);
    }
  });

  test("of HDF5 mend its check sums: lookup3 of its author's own example (MEMORY: 17770551 for the first words at Gettysburg)", () => {
    expect(lookup3(new TextEncoder().encode("Four score and seven years ago"))).toBe(0x17770551);
  });
});

function filled64(value: number): Float64Array {
  return new Float64Array(4).fill(value);
}
