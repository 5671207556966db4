import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { type ForecastReading, readForecast } from "../../src/formats/forecast/index.ts";
import { diceOf, seedOf } from "./dice.ts";
import type { Fixture, Structure } from "./fixture.ts";
import { grib1Fixtures } from "./grib1-fixtures.ts";
import { grib2Fixtures } from "./grib2-fixtures.ts";
import { holdUp } from "./hold-up.ts";
import { mutateGrib } from "./mutate-grib.ts";
import { mutateHdf5 } from "./mutate-hdf5.ts";
import { mutateNetcdf } from "./mutate-netcdf.ts";
import { netcdfFixtures } from "./netcdf-fixtures.ts";
import { netcdf4Fixtures } from "./netcdf4-fixtures.ts";

/** The seed of `npm test`; ATHWART_TEST_SEED is another. */
export const RUN_SEED = Number(process.env["ATHWART_TEST_SEED"] ?? 20_270_406);

/** A file that was not borne. `number` with the run's seed and the structure makes it again. */
export interface Find {
  readonly fixture: string;
  readonly number: number;
  readonly faults: readonly string[];
}

/** A mutation that stands out: by milliseconds, or by the share that it is of its budget. */
export interface Extreme {
  readonly number: number;
  readonly fixture: string;
  readonly value: number;
}

/** What a stretch of mutations came to. */
export interface Campaign {
  readonly mutations: number;
  readonly finds: readonly Find[];
  /** How often each code was met. */
  readonly met: ReadonlyMap<string, number>;
  /** The slowest, and those that came nearest to their budgets. */
  readonly slowest: Extreme;
  readonly askedMost: Extreme;
  readonly tookMost: Extreme;
}

/** The sound files of one structure. */
export async function fixturesOf(structure: Structure): Promise<readonly Fixture[]> {
  if (structure === "grib2") return grib2Fixtures();
  if (structure === "grib1") return grib1Fixtures();
  return structure === "netcdf" ? netcdfFixtures() : await netcdf4Fixtures();
}

/** The mutation of a number: fixtures come by turns. */
export function mutation(fixtures: readonly Fixture[], number: number, runSeed: number): { fixture: Fixture; bytes: Uint8Array } {
  const fixture = fixtures[number % fixtures.length]!;
  const dice = diceOf(seedOf(runSeed, fixture.structure, number));
  const others = fixtures.map((one) => one.bytes);
  switch (fixture.structure) {
    case "grib2":
      return { fixture, bytes: mutateGrib(fixture.bytes, others, 2, dice) };
    case "grib1":
      return { fixture, bytes: mutateGrib(fixture.bytes, others, 1, dice) };
    case "netcdf":
      return { fixture, bytes: mutateNetcdf(fixture.bytes, dice) };
    default:
      return { fixture, bytes: mutateHdf5(fixture.bytes, dice) };
  }
}

const sounds = new Map<string, ForecastReading>();

/** A sound file read: damaged files are joined with some, as a skipper's files of two days are. */
export async function soundReading(fixture: Fixture): Promise<ForecastReading> {
  const known = sounds.get(fixture.name);
  if (known !== undefined) return known;
  const read = await readForecast(bytesFromMemory(fixture.bytes), { name: "sound", crop: null });
  if (!read.ok) throw new Error(`${fixture.name}: ${read.issues.map((one) => one.message).join("; ")}`);
  sounds.set(fixture.name, read.value);
  return read.value;
}

/** Runs the mutations with the numbers `from` up to `until`; `before` is told of each one before it begins. */
export async function runCampaign(
  structure: Structure,
  from: number,
  until: number,
  runSeed: number = RUN_SEED,
  before: (number: number) => void = () => {},
): Promise<Campaign> {
  const fixtures = await fixturesOf(structure);
  const finds: Find[] = [];
  const met = new Map<string, number>();
  const none: Extreme = { number: from, fixture: "", value: 0 };
  let [slowest, askedMost, tookMost] = [none, none, none];
  for (let number = from; number < until; number++) {
    before(number);
    const { fixture, bytes } = mutation(fixtures, number, runSeed);
    const beside = number % 4 === 0 ? fixture : number % 4 === 2 ? fixtures[(number * 7 + 3) % fixtures.length]! : null;
    const sound = beside === null ? null : await soundReading(beside);
    const outcome = await holdUp(fixture, bytes, sound);
    for (const code of outcome.codes) met.set(code, (met.get(code) ?? 0) + 1);
    const about = { number, fixture: fixture.name };
    if (outcome.faults.length > 0) finds.push({ ...about, faults: outcome.faults });
    const greater = (known: Extreme, value: number): Extreme => (value > known.value ? { ...about, value } : known);
    slowest = greater(slowest, outcome.milliseconds);
    askedMost = greater(askedMost, outcome.shares.askedBytes);
    tookMost = greater(tookMost, outcome.shares.allocatedBytes);
  }
  return { mutations: until - from, finds, met, slowest, askedMost, tookMost };
}
