import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { Nature } from "../../core/fields/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import {
  type AscendingAxis,
  axesOf,
  kindOfCoordinate,
  type NetcdfAxis,
  type NetcdfHeader,
  type NetcdfVariable,
  readCoordinate,
  readLatitudes,
  readLongitudes,
  readTimes,
  scalarCoordinate,
  textOf,
} from "../netcdf/index.ts";

/** Where a variable's values lie: its grid, its times in the file's order, its heights and members. */
export interface NetcdfFieldPlace {
  readonly latitudes: AscendingAxis;
  readonly longitudes: AscendingAxis;
  readonly times: Float64Array;
  /** Of each height or depth: its value where the file gives one. */
  readonly levels: Float64Array | null;
  readonly levelVariable: NetcdfVariable | null;
  readonly members: readonly number[];
  /** Positions among the variable's dimensions; −1 where it has none of the kind. */
  readonly axisIndex: {
    readonly latitude: number;
    readonly longitude: number;
    readonly time: number;
    readonly vertical: number;
    readonly member: number;
  };
}

/** Finds where variables lie; each coordinate is read once. */
export class NetcdfPlaces {
  private readonly source: ByteSource;
  private readonly header: NetcdfHeader;
  private readonly latitudes: (name: string) => Promise<Parsed<AscendingAxis>>;
  private readonly longitudes: (name: string) => Promise<Parsed<AscendingAxis>>;
  private readonly times: (name: string) => Promise<Parsed<Float64Array>>;
  private readonly numbers: (name: string) => Promise<Parsed<Float64Array>>;

  constructor(source: ByteSource, header: NetcdfHeader) {
    this.source = source;
    this.header = header;
    this.latitudes = this.once(readLatitudes);
    this.longitudes = this.once(readLongitudes);
    this.times = this.once(readTimes);
    this.numbers = this.once(readCoordinate);
  }

  /** The place of a variable; or the issue that keeps it from being placed. */
  async placeOf(variable: NetcdfVariable): Promise<Parsed<NetcdfFieldPlace>> {
    const axes = axesOf(this.header, variable);
    const notRead = (code: "grid-not-read" | "time-not-read", why: string): Parsed<never> =>
      bad(issue(variable.name, code, `"${variable.name}" ${why}.`));
    const find = (kind: NetcdfAxis["kind"]): number => axes.findIndex((one) => one.kind === kind);
    const axisIndex = {
      latitude: find("latitude"),
      longitude: find("longitude"),
      time: find("time"),
      vertical: find("vertical"),
      member: find("member"),
    };
    const latitudeName = axes[axisIndex.latitude]?.coordinate;
    const longitudeName = axes[axisIndex.longitude]?.coordinate;
    if (!latitudeName || !longitudeName) {
      return notRead(
        "grid-not-read",
        `stands on no regular latitude and longitude grid, but along ${axes.map((one) => one.dimension).join(", ") || "nothing"}`,
      );
    }
    const used = new Set(Object.values(axisIndex));
    const extra = axes.find((one, index) => !used.has(index) && one.length !== 1);
    if (extra) return notRead("grid-not-read", `has a dimension "${extra.dimension}" of ${extra.length} that isn't understood`);
    const empty = axes.find((one) => one.length === 0);
    if (empty) return notRead("grid-not-read", `is empty: "${empty.dimension}" has no length`);
    const latitudes = await this.latitudes(latitudeName);
    if (!latitudes.ok) return latitudes;
    const longitudes = await this.longitudes(longitudeName);
    if (!longitudes.ok) return longitudes;
    const timeVariable = this.timeOf(variable, axes[axisIndex.time]);
    if (!timeVariable) return notRead("time-not-read", "does not say when it holds");
    const times = await this.times(timeVariable.name);
    if (!times.ok) return times;
    const levelVariable = this.levelOf(variable, axes[axisIndex.vertical]);
    const levels = levelVariable ? await this.numbers(levelVariable.name) : null;
    return good({
      latitudes: latitudes.value,
      longitudes: longitudes.value,
      times: times.value,
      levels: levels?.ok ? levels.value : null,
      levelVariable,
      members: await this.membersOf(axes[axisIndex.member]),
      axisIndex,
    });
  }

  private timeOf(variable: NetcdfVariable, axis: NetcdfAxis | undefined): NetcdfVariable | null {
    if (axis) return axis.coordinate === null ? null : (this.header.variables.get(axis.coordinate) ?? null);
    const isTime = (one: NetcdfVariable): boolean => kindOfCoordinate(one) === "time" && !isReferenceTime(one);
    return scalarCoordinate(this.header, variable, isTime);
  }

  private levelOf(variable: NetcdfVariable, axis: NetcdfAxis | undefined): NetcdfVariable | null {
    if (axis) return axis.coordinate === null ? null : (this.header.variables.get(axis.coordinate) ?? null);
    const named = new Set(textOf(variable.attributes, "coordinates").split(/\s+/));
    return scalarCoordinate(this.header, variable, (one) => named.has(one.name) && kindOfCoordinate(one) === "vertical");
  }

  /** A member's number is its coordinate where that is whole numbers, each once; else its place, counting from 0. */
  private async membersOf(axis: NetcdfAxis | undefined): Promise<number[]> {
    if (!axis) return [0];
    const places = Array.from({ length: axis.length }, (_, index) => index);
    if (axis.coordinate === null) return places;
    const read = await this.numbers(axis.coordinate);
    if (!read.ok) return places;
    const isNumbered = read.value.every((value) => Number.isSafeInteger(value) && value >= 0) && new Set(read.value).size === axis.length;
    return isNumbered ? [...read.value] : places;
  }

  private once<T>(
    read: (source: ByteSource, header: NetcdfHeader, variable: NetcdfVariable) => Promise<Parsed<T>>,
  ): (name: string) => Promise<Parsed<T>> {
    const known = new Map<string, Promise<Parsed<T>>>();
    return (name) => {
      const variable = this.header.variables.get(name);
      if (!variable) throw new Error(`no variable ${JSON.stringify(name)}`);
      const kept = known.get(name) ?? read(this.source, this.header, variable);
      known.set(name, kept);
      return kept;
    };
  }
}

/** Whether a variable says when the run was made rather than when a value holds. */
export function isReferenceTime(variable: NetcdfVariable): boolean {
  const standard = textOf(variable.attributes, "standard_name");
  return standard === "forecast_reference_time" || /^(forecast_reference_time|reftime|time_run|refdate)$/i.test(variable.name);
}

/** The run's reference time, where the file has one and only one. */
export async function referenceTimeOf(source: ByteSource, header: NetcdfHeader): Promise<number | null> {
  for (const variable of header.variables.values()) {
    if (variable.type === "char" || !isReferenceTime(variable) || variable.shape.length > 1) continue;
    const times = await readTimes(source, header, variable);
    if (times.ok && times.value.length > 0 && times.value.every((at) => at === times.value[0])) return times.value[0]!;
  }
  return null;
}

/** A field found to be one of ours, ready to be read. */
export interface NetcdfField {
  readonly variable: NetcdfVariable;
  readonly place: NetcdfFieldPlace;
  readonly levelIndex: number;
  /** Factor from the file's unit to SI. */
  readonly toSi: number;
  readonly nature: Nature;
}
