import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { type NetcdfHeader, type NetcdfVariable, textOf } from "./netcdf-types.ts";
import { readVariable } from "./read-variable.ts";
import { readTimeUnits, secondsFrom } from "./time-units.ts";
import { packingOf, unpack } from "./unpack.ts";

/** Values of an axis, ascending, and whether the file holds them the other way round. */
export interface AscendingAxis {
  readonly values: Float64Array;
  readonly isReversed: boolean;
}

/** A forecast for a time outside these years is no forecast: the unit or the number is wrong. 1800-01-01 and 2300-01-01. */
const EARLIEST_AT = -5364662400;
const LATEST_AT = 10413792000;

/** Reads a coordinate variable whole, unpacked. `file-lies` where a value is missing. */
export async function readCoordinate(source: ByteSource, header: NetcdfHeader, variable: NetcdfVariable): Promise<Parsed<Float64Array>> {
  const stored = await readVariable(source, header, variable.name);
  if (!stored.ok) return stored;
  const { values, missing } = unpack(stored.value, packingOf(variable));
  const gap = missing.indexOf(1);
  if (gap >= 0) return bad(issue(variable.name, "file-lies", `"${variable.name}" has no value at place ${gap + 1} of ${values.length}.`));
  return good(values);
}

/** Latitudes, degrees north, ascending. */
export async function readLatitudes(source: ByteSource, header: NetcdfHeader, variable: NetcdfVariable): Promise<Parsed<AscendingAxis>> {
  const read = await readCoordinate(source, header, variable);
  if (!read.ok) return read;
  const off = read.value.find((value) => value < -90.001 || value > 90.001);
  if (off !== undefined) return bad(issue(variable.name, "file-lies", `"${variable.name}" holds a latitude of ${off}.`));
  return ascending(read.value, variable.name);
}

/** Longitudes, degrees east, unwrapped and ascending; the middle one lies in [−180, 180). */
export async function readLongitudes(source: ByteSource, header: NetcdfHeader, variable: NetcdfVariable): Promise<Parsed<AscendingAxis>> {
  const read = await readCoordinate(source, header, variable);
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

/** Times as seconds of the UTC epoch, in the file's order. */
export async function readTimes(source: ByteSource, header: NetcdfHeader, variable: NetcdfVariable): Promise<Parsed<Float64Array>> {
  const units = readTimeUnits(variable.name, textOf(variable.attributes, "units"), textOf(variable.attributes, "calendar"));
  if (!units.ok) return units;
  const counts = await readCoordinate(source, header, variable);
  if (!counts.ok) return counts;
  const times = counts.value.map((count) => secondsFrom(units.value, count));
  if (times.some((at) => at < EARLIEST_AT || at > LATEST_AT)) {
    return bad(issue(variable.name, "time-not-read", `"${variable.name}" holds times outside the years 1800 to 2300.`));
  }
  return good(times);
}

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
