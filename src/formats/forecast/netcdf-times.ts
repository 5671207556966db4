import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import {
  axesOf,
  isPlausibleTime,
  kindOfCoordinate,
  type NetcdfAxis,
  type NetcdfFile,
  type NetcdfVariable,
  numbersOf,
  readCoordinate,
  readTimes,
  scalarCoordinate,
  textOf,
} from "../netcdf/index.ts";
import type { Oddities } from "./oddities.ts";
import { factorToSi } from "./units-in-file.ts";

/** Whether a variable says when the run was made rather than when a value holds. */
export function isReferenceTime(variable: NetcdfVariable): boolean {
  const standard = textOf(variable.attributes, "standard_name");
  return (
    standard === "forecast_reference_time" || /^(forecast_reference_time|reftime\d*|time_run|refdate|analysis_time)$/i.test(variable.name)
  );
}

/** The times of a file's fields, seconds of the UTC epoch in the file's order; each coordinate is read once. */
export class NetcdfTimes {
  private readonly file: NetcdfFile;
  private readonly oddities: Oddities;
  private readonly known = new Map<string, Promise<Parsed<Float64Array>>>();
  private reference: Promise<number | null> | null = null;

  constructor(file: NetcdfFile, oddities: Oddities) {
    this.file = file;
    this.oddities = oddities;
  }

  /** The run's reference time, where the file has one and only one. */
  issuedAt(): Promise<number | null> {
    this.reference ??= this.readReference();
    return this.reference;
  }

  /** The times along a variable's dimension of time or lead, or the one that holds for all of it. */
  async of(variable: NetcdfVariable, axis: NetcdfAxis | undefined): Promise<Parsed<Float64Array>> {
    const { header } = this.file;
    if (!axis) {
      const isTime = (one: NetcdfVariable): boolean => kindOfCoordinate(one) === "time" && !isReferenceTime(one);
      const scalar = scalarCoordinate(header, variable, isTime);
      return scalar ? this.once(scalar.name, () => this.timesOf(scalar)) : this.fromAttributes(variable);
    }
    const along = axis.coordinate === null ? undefined : header.variables.get(axis.coordinate);
    if (axis.kind === "lead") return this.once(`lead ${axis.dimension}`, () => this.fromLead(along, axis.dimension));
    const exact = await this.once(`exact ${axis.dimension}`, () => this.exactTimes(axis.dimension));
    if (exact.ok && exact.value.length > 0) return exact;
    if (along) return this.once(along.name, () => this.timesOf(along));
    return this.once(`runs ${axis.dimension}`, () => this.ofOneRun(variable, axis.dimension));
  }

  private once(key: string, read: () => Promise<Parsed<Float64Array>>): Promise<Parsed<Float64Array>> {
    const kept = this.known.get(key) ?? read();
    this.known.set(key, kept);
    return kept;
  }

  private async timesOf(variable: NetcdfVariable): Promise<Parsed<Float64Array>> {
    const read = await readTimes(this.file, variable);
    if (!read.ok) return read;
    const { times, calledMissing } = read.value;
    if (calledMissing > 0) {
      const fills = [...(numbersOf(variable.attributes, "_FillValue") ?? []), ...(numbersOf(variable.attributes, "missing_value") ?? [])];
      const why = fills.length > 0 ? ` (fill ${fills[0]})` : "";
      this.oddities.tell(
        "fill-doubtful",
        `"${variable.name}" calls ${calledMissing} of its times missing${why}, but they stand evenly among the others and are used.`,
      );
    }
    return good(times);
  }

  private async readReference(): Promise<number | null> {
    for (const variable of this.file.header.variables.values()) {
      if (variable.type === "char" || !isReferenceTime(variable) || variable.shape.length > 1) continue;
      const read = await readTimes(this.file, variable);
      const times = read.ok ? read.value.times : new Float64Array(0);
      if (times.length > 0 && times.every((at) => at === times[0])) return times[0]!;
    }
    return null;
  }

  /** A lead time (CF: `forecast_period`) counts from the run's reference time. */
  private async fromLead(lead: NetcdfVariable | undefined, dimension: string): Promise<Parsed<Float64Array>> {
    const issuedAt = await this.issuedAt();
    const factor = lead ? factorToSi(textOf(lead.attributes, "units"), "duration") : null;
    if (!lead || issuedAt === null || factor === null) {
      return bad(
        issue(dimension, "time-not-read", `"${dimension}" counts from the run, but the file doesn't say from when, or in what unit.`),
      );
    }
    const read = await readCoordinate(this.file, lead);
    if (!read.ok) return read;
    const times = read.value.map((count) => Math.round(issuedAt + count * factor));
    if (times.every(isPlausibleTime)) return good(times);
    return bad(issue(dimension, "time-not-read", `"${dimension}" holds leads that end outside the years 1800 to 2300.`));
  }

  /**
   * What FVCOM writes beside a `time` in single precision: whole days of the Modified Julian Date and milliseconds (`Itime`, `Itime2`), or
   * the date in letters (`Times`, also WRF's). None: an empty list.
   */
  private async exactTimes(dimension: string): Promise<Parsed<Float64Array>> {
    const none = good(new Float64Array(0));
    const { header } = this.file;
    const along = (name: string): NetcdfVariable | undefined => {
      const one = header.variables.get(name);
      return one?.dimensions[0] === dimension ? one : undefined;
    };
    const [days, milliseconds] = [along("Itime"), along("Itime2")];
    if (days?.shape.length === 1 && milliseconds?.shape.length === 1 && /^msec|^millisec/i.test(textOf(milliseconds.attributes, "units"))) {
      const whole = await readTimes(this.file, days);
      const rest = await readCoordinate(this.file, milliseconds);
      if (whole.ok && rest.ok) {
        const times = whole.value.times.map((at, index) => Math.round(at + rest.value[index]! / 1000));
        if (times.every(isPlausibleTime)) return good(times);
      }
    }
    const letters = along("Times");
    if (letters?.type !== "char" || letters.shape.length !== 2) return none;
    const stored = await this.file.read("Times");
    if (!stored.ok) return none;
    const [count, width] = letters.shape;
    const bytes = Uint8Array.from(stored.value, Number);
    const times = Float64Array.from({ length: count! }, (_, index) => instantOf(bytes.subarray(index * width!, (index + 1) * width!)));
    return times.some((at) => !isPlausibleTime(at)) ? none : good(times);
  }

  /** A time written for several runs at once (two dimensions): read where there is one run, refused where there are more. */
  private async ofOneRun(variable: NetcdfVariable, dimension: string): Promise<Parsed<Float64Array>> {
    for (const one of this.file.header.variables.values()) {
      if (one.shape.length !== 2 || !one.dimensions.includes(dimension) || kindOfCoordinate(one) !== "time" || isReferenceTime(one))
        continue;
      const other = one.shape[1 - one.dimensions.indexOf(dimension)]!;
      if (other === 1) return this.timesOf(one);
      const said = `"${variable.name}" holds ${other} runs, each with its own times in "${one.name}"; one run at a time is read.`;
      return bad(issue(variable.name, "time-not-read", said));
    }
    return bad(issue(variable.name, "time-not-read", `"${variable.name}" does not say when it holds.`));
  }

  /** A file of one moment may say it only in its own attributes (Attribute Convention for Data Discovery 1.3: `time_coverage_start`). */
  private fromAttributes(variable: NetcdfVariable): Parsed<Float64Array> {
    const { attributes } = this.file.header;
    const [start, end] = [textOf(attributes, "time_coverage_start"), textOf(attributes, "time_coverage_end")];
    const at = Date.parse(/[Zz]$|[+-]\d\d:?\d\d$/.test(start) ? start : `${start}Z`) / 1000;
    if (start !== "" && (end === "" || end === start) && isPlausibleTime(at)) return good(Float64Array.of(Math.round(at)));
    return bad(issue(variable.name, "time-not-read", `"${variable.name}" does not say when it holds.`));
  }
}

/** "2024-05-23T01:00:00.000000" or "2024-05-23_01:00:00", in UTC; NaN for anything else. */
function instantOf(bytes: Uint8Array): number {
  const text = new TextDecoder().decode(bytes).replace(/\0/g, "").trim();
  const found = /^(\d{4})-(\d{2})-(\d{2})[T_ ](\d{2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?Z?$/.exec(text);
  if (!found) return Number.NaN;
  const [year, month, day, hour, minute] = found.slice(1, 6).map(Number);
  return Math.round(Date.UTC(year!, month! - 1, day, hour, minute) / 1000 + Number(found[6] ?? 0));
}

/** The axis of time among a variable's dimensions: lead counts as time, a run's reference time doesn't. */
export function timeAxisOf(file: NetcdfFile, variable: NetcdfVariable): number {
  const axes = axesOf(file.header, variable);
  const isOfRuns = (axis: NetcdfAxis): boolean => {
    const along = axis.coordinate === null ? undefined : file.header.variables.get(axis.coordinate);
    return along !== undefined && isReferenceTime(along);
  };
  const time = axes.findIndex((axis) => axis.kind === "time" && !isOfRuns(axis));
  return time >= 0 ? time : axes.findIndex((axis) => axis.kind === "lead");
}
