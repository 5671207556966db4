import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import {
  axesOf,
  kindOfCoordinate,
  type NetcdfAxis,
  type NetcdfFile,
  type NetcdfVariable,
  packingOf,
  readCoordinate,
  scalarCoordinate,
  textOf,
  unpack,
} from "../netcdf/index.ts";
import { MOST_MEMBERS } from "./allowance.ts";
import type { NetcdfFieldPlace } from "./netcdf-field.ts";
import { NetcdfMeshes } from "./netcdf-mesh.ts";
import { NetcdfTimes, timeAxisOf } from "./netcdf-times.ts";
import type { Oddities } from "./oddities.ts";

/** Finds where variables lie; each coordinate is read once. */
export class NetcdfPlaces {
  readonly times: NetcdfTimes;
  private readonly file: NetcdfFile;
  private readonly meshes: NetcdfMeshes;
  private readonly numbers = new Map<string, Promise<Parsed<Float64Array>>>();

  constructor(file: NetcdfFile, oddities: Oddities) {
    this.file = file;
    this.meshes = new NetcdfMeshes(file, oddities);
    this.times = new NetcdfTimes(file, oddities);
  }

  /** The place of a variable; or the issue that keeps it from being placed. */
  async placeOf(variable: NetcdfVariable): Promise<Parsed<NetcdfFieldPlace>> {
    const axes = axesOf(this.file.header, variable);
    const refused = (why: string): Parsed<never> => bad(issue(variable.name, "grid-not-read", `"${variable.name}" ${why}.`));
    const empty = axes.find((one) => one.length === 0);
    if (empty) return refused(`is empty: "${empty.dimension}" has no length`);
    const mesh = await this.meshes.of(variable);
    if (!mesh.ok) return mesh;
    const alongMesh = mesh.value.dimensions.map((one) => variable.dimensions.indexOf(one));
    const find = (kind: NetcdfAxis["kind"]): number => axes.findIndex((one, index) => one.kind === kind && !alongMesh.includes(index));
    const axisIndex = { mesh: alongMesh, time: timeAxisOf(this.file, variable), vertical: find("vertical"), member: find("member") };
    const used = new Set([...alongMesh, axisIndex.time, axisIndex.vertical, axisIndex.member]);
    const extra = axes.find((one, index) => !used.has(index) && one.length !== 1);
    if (extra) {
      if (extra.kind !== "time" && extra.kind !== "lead")
        return refused(`has a dimension "${extra.dimension}" of ${extra.length} that isn't understood`);
      return refused(`holds ${extra.length} runs of the forecast along "${extra.dimension}"; one run at a time is read`);
    }
    const memberCount = axes[axisIndex.member]?.length ?? 1;
    if (memberCount > MOST_MEMBERS) return refused(`has ${memberCount} members, and at most ${MOST_MEMBERS} are read`);
    const times = await this.times.of(variable, axes[axisIndex.time]);
    if (!times.ok) return times;
    if (axisIndex.time >= 0 && times.value.length !== axes[axisIndex.time]!.length) return refused("has not as many times as steps");
    const levelVariable = this.levelOf(variable, axes[axisIndex.vertical]);
    const levels = levelVariable ? await this.levelsOf(levelVariable, axes[axisIndex.vertical]?.dimension) : null;
    return good({
      mesh: mesh.value,
      times: times.value,
      levels: levels?.ok ? levels.value : null,
      levelVariable,
      members: await this.membersOf(axes[axisIndex.member]),
      axisIndex,
    });
  }

  /** The variable that gives heights or depths: of its dimension, be it sigma at every node, or a single value named beside the field. */
  private levelOf(variable: NetcdfVariable, axis: NetcdfAxis | undefined): NetcdfVariable | null {
    const { variables } = this.file.header;
    if (axis) {
      const own = variables.get(axis.coordinate ?? axis.dimension);
      return own && own.type !== "char" && own.dimensions.includes(axis.dimension) ? own : null;
    }
    const named = new Set(textOf(variable.attributes, "coordinates").split(/\s+/));
    return scalarCoordinate(this.file.header, variable, (one) => named.has(one.name) && kindOfCoordinate(one) === "vertical");
  }

  /** Levels along a dimension. Where every node has its own, as sigma layers are sometimes written, those of the first node stand for all. */
  private levelsOf(variable: NetcdfVariable, dimension: string | undefined): Promise<Parsed<Float64Array>> {
    if (dimension === undefined || variable.dimensions.length <= 1) return this.once(variable);
    const key = `${variable.name} ${dimension}`;
    const kept = this.numbers.get(key) ?? this.firstAlong(variable, dimension);
    this.numbers.set(key, kept);
    return kept;
  }

  private async firstAlong(variable: NetcdfVariable, dimension: string): Promise<Parsed<Float64Array>> {
    const count = variable.dimensions.map((one, index) => (one === dimension ? variable.shape[index]! : 1));
    const stored = await this.file.read(variable.name, { start: count.map(() => 0), count });
    if (!stored.ok) return stored;
    const { values, missing } = unpack(stored.value, packingOf(variable));
    return missing.includes(1) ? bad(issue(variable.name, "file-lies", `"${variable.name}" leaves levels without a value.`)) : good(values);
  }

  /** A member's number is its coordinate where that is whole numbers, each once; else its place, counting from 0. */
  private async membersOf(axis: NetcdfAxis | undefined): Promise<number[]> {
    if (!axis) return [0];
    const places = Array.from({ length: axis.length }, (_, index) => index);
    const variable = axis.coordinate === null ? undefined : this.file.header.variables.get(axis.coordinate);
    if (!variable) return places;
    const read = await this.once(variable);
    if (!read.ok) return places;
    const isNumbered = read.value.every((value) => Number.isSafeInteger(value) && value >= 0) && new Set(read.value).size === axis.length;
    return isNumbered ? [...read.value] : places;
  }

  private once(variable: NetcdfVariable): Promise<Parsed<Float64Array>> {
    const kept = this.numbers.get(variable.name) ?? readCoordinate(this.file, variable);
    this.numbers.set(variable.name, kept);
    return kept;
  }
}
