import { expect } from "vitest";
import { type Extreme, RUN_SEED, runCampaign } from "./campaign.ts";
import type { Structure } from "./fixture.ts";

/** How many mutations of each structure `npm test` bears: 20,000 together. HDF5's library is slow to load again after each fault. */
export const MUTATIONS: Readonly<Record<Structure, number>> = { grib2: 9_000, grib1: 5_000, netcdf: 5_600, hdf5: 400 };

/**
 * Runs the first mutations of a structure and holds the outcome: none a crash, none over its budget, none a silent value. `reached` are codes
 * that the mutations must meet, else they would show nothing. The slowest and the dearest are printed.
 */
export async function expectBorne(structure: Structure, reached: readonly string[]): Promise<void> {
  const { finds, met, slowest, askedMost, tookMost } = await runCampaign(structure, 0, MUTATIONS[structure]);
  const share = ({ number, value, fixture }: Extreme): string =>
    `${Math.round(value * 100)} % of its budget (number ${number}, ${fixture})`;
  console.log(
    `${MUTATIONS[structure]} mutations of ${structure} with seed ${RUN_SEED}: slowest ${Math.round(slowest.value)} ms (number ${slowest.number}, ${slowest.fixture}); ` +
      `asked at most ${share(askedMost)}, took at most ${share(tookMost)}.`,
  );
  expect(finds).toEqual([]);
  for (const code of ["read", ...reached]) expect(met.get(code) ?? 0, code).toBeGreaterThan(5);
}
