import type { GridData } from "../../core/fields/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { type NetcdfHeader, packingOf, readVariable, unpack } from "../netcdf/index.ts";
import { type ColumnChoice, chooseColumns, chooseRows, chooseTimes, type IndexRange } from "./crop.ts";
import type { Crop } from "./forecast-reading.ts";
import { GridBuilder, MOST_VALUES } from "./grid-builder.ts";
import type { NetcdfField } from "./netcdf-field.ts";
import { instantWords, type Oddities } from "./oddities.ts";
import type { QuantityGroup } from "./quantities.ts";
import { orderTimes, tellGaps } from "./time-order.ts";

interface GridRequest {
  readonly crop: Crop | null;
  readonly issuedAt: number | null;
  readonly source: string;
}

/** The grids of one group, one for each member; `fields` are its components in order, on one and the same grid. */
export async function gridsOfFields(
  source: ByteSource,
  header: NetcdfHeader,
  group: QuantityGroup,
  fields: readonly NetcdfField[],
  about: GridRequest,
  oddities: Oddities,
): Promise<GridData[]> {
  const first = fields[0]!;
  const { place } = first;
  const order = orderTimes(place.times, group.name, oddities);
  tellGaps(order.times, group.name, oddities);
  const rows = chooseRows(place.latitudes.values, about.crop);
  const columns = chooseColumns(place.longitudes.values, about.crop);
  // A single step is held steady by its user, whatever its time.
  const steps = order.times.length === 1 ? { start: 0, count: 1 } : chooseTimes(order.times, about.crop);
  if (!rows || !columns) {
    oddities.tell("outside-passage", `The ${group.name} in this file does not reach the waters of the passage.`);
    return [];
  }
  if (!steps) {
    const span = `${instantWords(order.times[0]!)} to ${instantWords(order.times.at(-1)!)}`;
    oddities.tell("outside-passage", `The ${group.name} in this file, for ${span}, does not reach the days of the passage.`);
    return [];
  }
  const points = steps.count * rows.count * columns.longitudesDeg.length;
  if (points * group.quantities.length * place.members.length > MOST_VALUES) {
    oddities.tell(
      "file-too-large",
      `The ${group.name} has ${points} points for each of ${place.members.length} members, more than is read at once.`,
    );
    return [];
  }
  const grids: GridData[] = [];
  let implausible = 0;
  let worst = 0;
  for (const [memberIndex, member] of place.members.entries()) {
    const axes = {
      latitudesDeg: place.latitudes.values.slice(rows.start, rows.start + rows.count),
      longitudesDeg: Float64Array.from(columns.longitudesDeg),
      times: order.times.slice(steps.start, steps.start + steps.count),
    };
    const builder = new GridBuilder(group, axes, { nature: first.nature, source: about.source, issuedAt: about.issuedAt, member });
    const placesInFile = order.places.subarray(steps.start, steps.start + steps.count);
    for (const [component, field] of fields.entries()) {
      const isWhole = await fill(source, header, builder, field, component, { memberIndex, placesInFile, rows, columns }, oddities);
      if (!isWhole) return [];
    }
    const found = builder.finish();
    implausible += found.implausible;
    if (Math.abs(found.worst) > Math.abs(worst)) worst = found.worst;
    grids.push(builder.data);
  }
  if (implausible > 0) {
    oddities.tell(
      "value-implausible",
      `${implausible} values of the ${group.name}, such as ${Number(worst.toPrecision(4))}, can't be; they are taken as missing.`,
    );
  }
  return grids;
}

interface Block {
  readonly memberIndex: number;
  readonly placesInFile: Int32Array;
  readonly rows: IndexRange;
  readonly columns: ColumnChoice;
}

/** Reads one component of one member into the builder; false, and told, when the source breaks off. */
async function fill(
  source: ByteSource,
  header: NetcdfHeader,
  builder: GridBuilder,
  field: NetcdfField,
  component: number,
  block: Block,
  oddities: Oddities,
): Promise<boolean> {
  const { axisIndex, latitudes, longitudes } = field.place;
  const { shape } = field.variable;
  const packing = packingOf(field.variable);
  const { rows, columns } = block;
  const nx = columns.longitudesDeg.length;
  const rowStart = latitudes.isReversed ? latitudes.values.length - rows.start - rows.count : rows.start;
  for (const run of runsOf(block.placesInFile)) {
    let columnsDone = 0;
    for (const range of columns.ranges) {
      const columnStart = longitudes.isReversed ? longitudes.values.length - range.start - range.count : range.start;
      const start = new Array<number>(shape.length).fill(0);
      const count = new Array<number>(shape.length).fill(1);
      const put = (axis: number, from: number, many: number): void => {
        if (axis >= 0) [start[axis], count[axis]] = [from, many];
      };
      put(axisIndex.latitude, rowStart, rows.count);
      put(axisIndex.longitude, columnStart, range.count);
      put(axisIndex.time, run.start, run.count);
      put(axisIndex.vertical, field.levelIndex, 1);
      put(axisIndex.member, block.memberIndex, 1);
      const stored = await readVariable(source, header, field.variable.name, { start, count });
      if (!stored.ok) {
        for (const one of stored.issues) oddities.tell(one.code, one.message);
        return false;
      }
      const { values, missing } = unpack(stored.value, packing);
      const strideOf = (axis: number): number => (axis < 0 ? 0 : count.slice(axis + 1).reduce((product, many) => product * many, 1));
      const [perTime, perRow, perColumn] = [strideOf(axisIndex.time), strideOf(axisIndex.latitude), strideOf(axisIndex.longitude)];
      for (let t = 0; t < run.count; t++) {
        for (let y = 0; y < rows.count; y++) {
          const fileRow = latitudes.isReversed ? rows.count - 1 - y : y;
          const point = ((run.first + t) * rows.count + y) * nx + columnsDone;
          for (let x = 0; x < range.count; x++) {
            const fileColumn = longitudes.isReversed ? range.count - 1 - x : x;
            const at = t * perTime + fileRow * perRow + fileColumn * perColumn;
            builder.set(point + x, component, values[at]! * field.toSi, missing[at] === 1);
          }
        }
      }
      columnsDone += range.count;
    }
  }
  return true;
}

/** Times that also follow one another in the file, so that they are read at once. `first`: the place of the first in the series. */
function runsOf(placesInFile: Int32Array): { first: number; start: number; count: number }[] {
  const runs: { first: number; start: number; count: number }[] = [];
  placesInFile.forEach((place, index) => {
    const last = runs.at(-1);
    if (last && last.start + last.count === place) last.count++;
    else runs.push({ first: index, start: place, count: 1 });
  });
  return runs;
}
