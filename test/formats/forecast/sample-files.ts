import { epochSeconds } from "../../../src/core/units/index.ts";
import { bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import { type Crop, type ForecastReading, readForecast } from "../../../src/formats/forecast/index.ts";
import { type Grib2Message, writeGrib2Message } from "../../../src/formats/grib/index.ts";
import { type AttributeToWrite, type NetcdfToWrite, type VariableToWrite, writeNetcdfClassic } from "../../../src/formats/netcdf/index.ts";

/** 2030-06-01T00:00:00Z. */
export const JUNE = Date.UTC(2030, 5, 1) / 1000;
export const HOUR = 3600;

export async function reading(bytes: Uint8Array, crop: Crop | null = null): Promise<ForecastReading> {
  const read = await readForecast(bytesFromMemory(bytes), { name: "made", crop });
  if (!read.ok) throw new Error(read.issues.map((one) => one.message).join("; "));
  return read.value;
}

export async function refusal(bytes: Uint8Array): Promise<{ code: string; message: string; whatToDo: string }> {
  const read = await readForecast(bytesFromMemory(bytes), { name: "made", crop: null });
  if (read.ok) throw new Error("it was read");
  return read.issues[0]!;
}

export const codesOf = (read: ForecastReading): string[] => read.oddities.map((one) => one.code);

export interface Made {
  readonly name: string;
  readonly attributes?: Record<string, AttributeToWrite>;
  /** By time, latitude and longitude index, as stored. */
  readonly value: (t: number, y: number, x: number) => number;
}

export interface MadeFile {
  readonly latitudes?: readonly number[];
  readonly longitudes?: readonly number[];
  readonly hours?: readonly number[];
  readonly timeUnits?: string;
  readonly axisAttributes?: boolean;
  readonly fields: readonly Made[];
  readonly extra?: readonly VariableToWrite[];
  readonly attributes?: Record<string, AttributeToWrite>;
  readonly alter?: (file: NetcdfToWrite) => NetcdfToWrite;
}

/** A small NetCDF file of fields over time, latitude and longitude. */
export function netcdf(made: MadeFile): Uint8Array {
  const latitudes = made.latitudes ?? [40, 41, 42];
  const longitudes = made.longitudes ?? [-10, -9, -8, -7];
  const hours = made.hours ?? [0, 3, 6];
  const said = made.axisAttributes ?? true;
  const field = (one: Made): VariableToWrite => ({
    name: one.name,
    dimensions: ["time", "lat", "lon"],
    attributes: one.attributes ?? { units: "m/s" },
    values: Float32Array.from({ length: hours.length * latitudes.length * longitudes.length }, (_, index) => {
      const x = index % longitudes.length;
      const y = Math.floor(index / longitudes.length) % latitudes.length;
      return one.value(Math.floor(index / longitudes.length / latitudes.length), y, x);
    }),
  });
  const file: NetcdfToWrite = {
    version: 1,
    dimensions: [
      { name: "time", length: "records" },
      { name: "lat", length: latitudes.length },
      { name: "lon", length: longitudes.length },
    ],
    attributes: made.attributes ?? {},
    variables: [
      {
        name: "time",
        dimensions: ["time"],
        attributes: { units: made.timeUnits ?? "hours since 2030-06-01 00:00" },
        values: Float64Array.from(hours),
      },
      { name: "lat", dimensions: ["lat"], attributes: said ? { units: "degrees_north" } : {}, values: Float64Array.from(latitudes) },
      { name: "lon", dimensions: ["lon"], attributes: said ? { units: "degrees_east" } : {}, values: Float64Array.from(longitudes) },
      ...(made.extra ?? []),
      ...made.fields.map(field),
    ],
  };
  return writeNetcdfClassic(made.alter?.(file) ?? file);
}

/** One GRIB2 message: by default a current toward the east at the run's time on three rows of four columns. */
export function message(
  over: Omit<Partial<Grib2Message>, "referenceAt" | "validFrom"> & { referenceAt?: number; validFrom?: number } = {},
): Uint8Array {
  const grid = over.grid ?? { rows: 3, columns: 4, southDeg: 40, westDeg: -10, latitudeStepDeg: 1, longitudeStepDeg: 1 };
  return writeGrib2Message({
    centre: 65535,
    discipline: 10,
    category: 1,
    number: 2,
    level: { type: 160, value: 0 },
    values: new Float64Array(grid.rows * grid.columns).fill(0.5),
    decimalScale: 3,
    ...over,
    grid,
    referenceAt: epochSeconds(over.referenceAt ?? JUNE),
    validFrom: epochSeconds(over.validFrom ?? over.referenceAt ?? JUNE),
  });
}

export const join = (parts: readonly Uint8Array[]): Uint8Array => Uint8Array.from(parts.flatMap((part) => [...part]));

/** A generator of even numbers in [0, 1) (Numerical Recipes' linear congruence), so that damage is the same each time. */
export function evenNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
