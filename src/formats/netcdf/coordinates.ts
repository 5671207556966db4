import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import { type NetcdfFile, type NetcdfVariable, textOf } from "./netcdf-types.ts";
import { readTimeUnits, roundingSeconds, secondsFrom, withoutRounding } from "./time-units.ts";
import { packingOf, unpack } from "./unpack.ts";

/** Values of an axis, ascending, and whether the file holds them the other way round. */
export interface AscendingAxis {
  readonly values: Float64Array;
  readonly isReversed: boolean;
}

/** A forecast for a time outside these years is no forecast: the unit or the number is wrong. 1800-01-01 and 2300-01-01. */
const EARLIEST_AT = -5364662400;
const LATEST_AT = 10413792000;

/** Values of a coordinate, and how many of them the file's own attributes call missing though they stand in their place. */
export interface CoordinateValues {
  readonly values: Float64Array;
  readonly calledMissing: number;
}

/**
 * Reads a coordinate variable whole, unpacked. A coordinate has no missing values (CF 1.11, 2.5.1), so what its fill or valid range would
 * blank is kept where the axis rises or falls evenly through it: a fill of 0 is no fill on an axis that begins at 0. `file-lies` where a
 * value is missing indeed.
 */
export async function readCoordinateValues(file: NetcdfFile, variable: NetcdfVariable): Promise<Parsed<CoordinateValues>> {
  const stored = await file.read(variable.name);
  if (!stored.ok) return stored;
  const packing = packingOf(variable);
  const { values, missing } = unpack(stored.value, packing);
  const gap = missing.indexOf(1);
  if (gap < 0) return good({ values, calledMissing: 0 });
  const bare = unpack(stored.value, { ...packing, fills: [], least: Number.NEGATIVE_INFINITY, greatest: Number.POSITIVE_INFINITY });
  if (!bare.missing.includes(1) && isEven(bare.values)) {
    return good({ values: bare.values, calledMissing: missing.reduce((sum, mark) => sum + mark, 0) });
  }
  return bad(issue(variable.name, "file-lies", `"${variable.name}" has no value at place ${gap + 1} of ${values.length}.`));
}

/** Values alone of `readCoordinateValues`. */
export async function readCoordinate(file: NetcdfFile, variable: NetcdfVariable): Promise<Parsed<Float64Array>> {
  const read = await readCoordinateValues(file, variable);
  return read.ok ? good(read.value.values) : read;
}

/** Whether all steps are of one sign and none more than three times another; a single value is. */
function isEven(values: Float64Array): boolean {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let index = 1; index < values.length; index++) {
    const step = values[index]! - values[index - 1]!;
    least = Math.min(least, step);
    greatest = Math.max(greatest, step);
  }
  if (values.length < 2) return true;
  return least > 0 ? greatest <= 3 * least : greatest < 0 && least >= 3 * greatest;
}

/** Latitudes, degrees north, ascending. */
export async function readLatitudes(file: NetcdfFile, variable: NetcdfVariable): Promise<Parsed<AscendingAxis>> {
  const read = await readCoordinate(file, variable);
  if (!read.ok) return read;
  const off = read.value.find((value) => value < -90.001 || value > 90.001);
  if (off !== undefined) return bad(issue(variable.name, "file-lies", `"${variable.name}" holds a latitude of ${off}.`));
  return ascending(read.value, variable.name);
}

/** Longitudes, degrees east, unwrapped and ascending; the middle one lies in [−180, 180). */
export async function readLongitudes(file: NetcdfFile, variable: NetcdfVariable): Promise<Parsed<AscendingAxis>> {
  const read = await readCoordinate(file, variable);
  if (!read.ok) return read;
  const values = read.value;
  const off = values.find((value) => Math.abs(value) > 720);
  if (off !== undefined) return bad(issue(variable.name, "file-lies", `"${variable.name}" holds a longitude of ${off}.`));
  for (let index = 1; index < values.length; index++) {
    values[index] = values[index]! - 360 * Math.round((values[index]! - values[index - 1]!) / 360);
  }
  const middle = values[Math.floor(values.length / 2)] ?? 0;
  const turns = Math.floor((middle + 180) / 360);
  if (turns !== 0) for (let index = 0; index < values.length; index++) values[index]! -= 360 * turns;
  const axis = ascending(values, variable.name);
  if (axis.ok && values.length > 1 && axis.value.values.at(-1)! - axis.value.values[0]! > 360.001) {
    return bad(issue(variable.name, "file-lies", `"${variable.name}" goes more than once round the earth.`));
  }
  return axis;
}

/** Times of a coordinate, seconds of the UTC epoch in the file's order, and how many of them the file calls missing. */
export interface CoordinateTimes {
  readonly times: Float64Array;
  readonly calledMissing: number;
}

/** Times as seconds of the UTC epoch, in the file's order, freed of what rounding did to them (`withoutRounding`). */
export async function readTimes(file: NetcdfFile, variable: NetcdfVariable): Promise<Parsed<CoordinateTimes>> {
  const units = readTimeUnits(variable.name, textOf(variable.attributes, "units"), textOf(variable.attributes, "calendar"));
  if (!units.ok) return units;
  const counts = await readCoordinateValues(file, variable);
  if (!counts.ok) return counts;
  const { values, calledMissing } = counts.value;
  const times = withoutRounding(
    values.map((count) => secondsFrom(units.value, count)),
    roundingSeconds(units.value, values, variable.type === "float"),
  );
  if (times.some((at) => !isPlausibleTime(at))) {
    return bad(issue(variable.name, "time-not-read", `"${variable.name}" holds times outside the years 1800 to 2300.`));
  }
  return good({ times, calledMissing });
}

/** Whether a forecast can be for this time, seconds of the UTC epoch. */
export const isPlausibleTime = (at: number): boolean => at >= EARLIEST_AT && at <= LATEST_AT;

function ascending(values: Float64Array, name: string): Parsed<AscendingAxis> {
  const isReversed = values.length > 1 && values[1]! < values[0]!;
  if (isReversed) values.reverse();
  for (let index = 1; index < values.length; index++) {
    if (!(values[index]! > values[index - 1]!)) {
      return bad(
        issue(name, "file-lies", `"${name}" neither rises nor falls all the way: ${values[index - 1]} is followed by ${values[index]}.`),
      );
    }
  }
  return good({ values, isReversed });
}
