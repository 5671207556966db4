import { good, type Parsed } from "../../core/answers/index.ts";
import { type GridData, nodeCountOf } from "../../core/fields/index.ts";
import type { NetcdfFile } from "../netcdf/index.ts";
import type { Allowance } from "./allowance.ts";
import { chooseTimes } from "./crop.ts";
import type { Crop, LoneGrid } from "./forecast-reading.ts";
import { GridBuilder } from "./grid-builder.ts";
import type { NetcdfField } from "./netcdf-field.ts";
import { NodeMaker } from "./netcdf-make.ts";
import type { MeshWindow } from "./netcdf-mesh-place.ts";
import type { NetcdfSeries } from "./netcdf-series.ts";
import { middlesOf, type SteppedValues } from "./netcdf-staggered.ts";
import { readSteps, runsOf, type StepRun } from "./netcdf-values.ts";
import { instantWords, type Oddities } from "./oddities.ts";
import { orderTimes, tellGaps } from "./time-order.ts";

interface GridRequest {
  readonly crop: Crop | null;
  readonly issuedAt: number | null;
  readonly source: string;
  readonly allowance: Allowance;
}

/** So many values of one field are held at once while they are read. */
const VALUES_AT_ONCE = 200_000;

/** The grids of a series, one for each member; `northDegTrue` as in `LoneGrid`, null unless it is lone and along its grid. */
export async function gridsOfSeries(file: NetcdfFile, series: NetcdfSeries, about: GridRequest, oddities: Oddities): Promise<LoneGrid[]> {
  const first = series.fields[0]!;
  const group = series.lone === null ? series.group : { ...series.group, quantities: [series.lone] };
  const { place } = first;
  const order = orderTimes(place.times, group.name, oddities);
  tellGaps(order.times, group.name, oddities);
  const windowRead = await place.mesh.mesh.window(about.crop);
  if (!windowRead.ok) return told(windowRead.issues, oddities);
  const window = windowRead.value;
  // A single step is held steady by its user, whatever its time.
  const steps = order.times.length === 1 ? { start: 0, count: 1 } : chooseTimes(order.times, about.crop);
  if (!window) {
    oddities.tell("outside-passage", `The ${group.name} in this file does not reach the waters of the passage.`);
    return [];
  }
  if (!steps) {
    const span = `${instantWords(order.times[0]!)} to ${instantWords(order.times.at(-1)!)}`;
    oddities.tell("outside-passage", `The ${group.name} in this file, for ${span}, does not reach the days of the passage.`);
    return [];
  }
  const nodes = nodeCountOf(window.mesh);
  if (!about.allowance.takeValues(steps.count * nodes * group.quantities.length * place.members.length)) {
    oddities.tell(
      "file-too-large",
      `The ${group.name} has ${steps.count * nodes} points for each of ${place.members.length} members, more than is read at once.`,
    );
    return [];
  }
  const north = first.isAlongGrid ? await place.mesh.mesh.northDegTrue(window) : good(null);
  if (!north.ok) return told(north.issues, oddities);
  const land = await landOf(series, window);
  if (!land.ok) return told(land.issues, oddities);
  const times = order.times.slice(steps.start, steps.start + steps.count);
  const runs = runsOf(order.places.subarray(steps.start, steps.start + steps.count), Math.max(1, Math.floor(VALUES_AT_ONCE / nodes)));
  const maker = new NodeMaker(series, nodes, series.lone === null ? north.value : null, land.value.water);
  const grids: LoneGrid[] = [];
  for (const [memberIndex, member] of place.members.entries()) {
    const builder = new GridBuilder(group, window.mesh, times, {
      nature: first.nature,
      source: about.source,
      issuedAt: about.issuedAt,
      member,
    });
    for (const run of runs) {
      const parts: SteppedValues[] = [];
      for (const [index, field] of series.fields.entries()) {
        const part = await partOf(file, field, window, land.value.faces[index] ?? null, memberIndex, run);
        if (!part.ok) return told(part.issues, oddities);
        parts.push(part.value);
      }
      maker.makeInto(builder, run.first * nodes, parts);
    }
    const grid = builder.finish(oddities);
    tellEmptySteps(grid, nodes, group.name, oddities);
    grids.push(series.lone === null ? { grid, northDegTrue: null } : loneOf(grid, north.value));
  }
  maker.tell(oddities);
  return grids;
}

/** A component and the way its grid lies; nodes for which that can't be told have no value. */
function loneOf(grid: GridData, northDegTrue: Float64Array | null): LoneGrid {
  if (northDegTrue === null) return { grid, northDegTrue };
  for (let point = 0; point < grid.missing.length; point++) {
    if (Number.isNaN(northDegTrue[point % northDegTrue.length]!)) [grid.missing[point], grid.values[point]] = [1, 0];
  }
  return { grid, northDegTrue: northDegTrue.map((deg) => (Number.isNaN(deg) ? 0 : deg)) };
}

/** A field at the nodes of the window: as it stands, or in the middles between the sides on which it stands. */
async function partOf(
  file: NetcdfFile,
  field: NetcdfField,
  window: MeshWindow,
  land: Uint8Array | null,
  memberIndex: number,
  run: StepRun,
): Promise<Parsed<SteppedValues>> {
  const { side } = field.place.mesh;
  if (!side || !window.box) return readSteps(file, field, window.slabs, nodeCountOf(window.mesh), memberIndex, run);
  const slab = side.place.slabOf(side.face, window.box);
  const faces = await readSteps(file, field, [slab], slab.nodes.length, memberIndex, run);
  return faces.ok ? good(middlesOf(side.face, faces.value, land, window.box)) : faces;
}

/** Land on a staggered grid: on the sides that each field stands on, and `water`: 1 where the file's mask says that a middle is. */
async function landOf(
  series: NetcdfSeries,
  window: MeshWindow,
): Promise<Parsed<{ readonly faces: readonly (Uint8Array | null)[]; readonly water: Uint8Array | null }>> {
  const faces: (Uint8Array | null)[] = [];
  let water: Uint8Array | null = null;
  for (const field of series.fields) {
    const { side } = field.place.mesh;
    if (!side || !window.box) continue;
    const read = await side.place.landOf(side.face, window.box);
    if (!read.ok) return read;
    faces.push(read.value);
    const middles = await side.place.landOf(null, window.box);
    if (!middles.ok) return middles;
    water = middles.value?.map((mark) => 1 - mark) ?? null;
  }
  return good({ faces, water });
}

function tellEmptySteps(grid: GridData, nodes: number, what: string, oddities: Oddities): void {
  const empty = [...grid.times.keys()].filter((step) => !grid.missing.subarray(step * nodes, (step + 1) * nodes).includes(0));
  if (empty.length === 0 || empty.length === grid.times.length) return;
  const when =
    empty.length === 1
      ? `At ${instantWords(grid.times[empty[0]!]!)}`
      : `At ${empty.length} times, such as ${instantWords(grid.times[empty[0]!]!)},`;
  oddities.tell("step-empty", `${when} the ${what} holds no value anywhere.`);
}

function told(issues: readonly { readonly code: Parameters<Oddities["tell"]>[0]; readonly message: string }[], oddities: Oddities): [] {
  for (const one of issues) oddities.tell(one.code, one.message);
  return [];
}
