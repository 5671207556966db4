import { good, type Parsed } from "../../core/answers/index.ts";
import { type NetcdfFile, type NetcdfVariable, packingOf, textOf, unpack } from "../netcdf/index.ts";
import type { Projector } from "../projection/index.ts";
import type { IndexBox } from "./netcdf-mesh-place.ts";
import type { NodePlaces } from "./netcdf-node-places.ts";
import type { Oddities } from "./oddities.ts";

/** The true bearing of a grid's own north, a quarter turn to the left of its x, at each node of a box, degrees; NaN where it can't be told. */
export type GridNorth = (places: NodePlaces, box: IndexBox) => Promise<Parsed<Float64Array>>;

const RAD_PER_DEG = Math.PI / 180;
/** A file's own angles and those between its nodes lie this near together; further apart one of them is something else (common practice). */
const GREATEST_DISAGREEMENT_DEG = 5;

/** By the map that the grid is laid out on. */
export function northOfMap(projector: Projector): GridNorth {
  return async (places, box) => {
    const block = await places.read(box);
    if (!block.ok) return block;
    const { latitudesDeg, longitudesDeg } = block.value;
    return good(
      latitudesDeg.map((latitude, node) =>
        Number.isNaN(latitude) ? Number.NaN : projector.gridNorthDegTrue(latitude, longitudesDeg[node]!),
      ),
    );
  };
}

/**
 * By the way from each node's left neighbour to its right one, columns taken to run along the grid's x; at an edge, or beside a node
 * without a place, from or to the node itself. On a sphere, as ocean models reckon.
 */
export const northOfNodes: GridNorth = async (places, box) => {
  const more = box.columnStart > 0 ? 1 : 0;
  const columnCount = box.columnCount + more + (box.columnStart + box.columnCount < places.columns ? 1 : 0);
  const block = await places.read({ ...box, columnStart: box.columnStart - more, columnCount });
  if (!block.ok) return block;
  const { latitudesDeg, longitudesDeg } = block.value;
  const bearings = new Float64Array(box.rowCount * box.columnCount).fill(Number.NaN);
  for (let row = 0; row < box.rowCount; row++) {
    for (let column = 0; column < box.columnCount; column++) {
      const node = row * columnCount + column + more;
      if (Number.isNaN(latitudesDeg[node]!)) continue;
      const has = (other: number, inRow: boolean): boolean => inRow && !Number.isNaN(latitudesDeg[other]!);
      const from = has(node - 1, column + more > 0) ? node - 1 : node;
      const to = has(node + 1, column + more + 1 < columnCount) ? node + 1 : node;
      if (from === to) continue;
      const [latitudeRad, longitudeRad] = [latitudesDeg[node]! * RAD_PER_DEG, longitudesDeg[node]! * RAD_PER_DEG];
      let [east, north] = [0, 0];
      for (const [end, sign] of [
        [to, 1],
        [from, -1],
      ] as const) {
        const [phiRad, lambdaRad] = [latitudesDeg[end]! * RAD_PER_DEG, longitudesDeg[end]! * RAD_PER_DEG - longitudeRad];
        east += sign * Math.cos(phiRad) * Math.sin(lambdaRad);
        north += sign * (Math.sin(phiRad) * Math.cos(latitudeRad) - Math.cos(phiRad) * Math.cos(lambdaRad) * Math.sin(latitudeRad));
      }
      if (east !== 0 || north !== 0) bearings[row * box.columnCount + column] = -Math.atan2(north, east) / RAD_PER_DEG;
    }
  }
  return good(bearings);
};

/** The same where columns run against the grid's x. */
export const northAgainstNodes: GridNorth = async (places, box) => {
  const bearings = await northOfNodes(places, box);
  return bearings.ok ? good(bearings.value.map((deg) => deg + 180)) : bearings;
};

/**
 * By the file's own angle from true east to the grid's x, anticlockwise (ROMS: `angle`, the angle between the XI-axis and east; radians
 * unless its unit says degrees). Where it contradicts the places of the nodes, those count, and that is told.
 */
export function northOfAngles(file: NetcdfFile, angle: NetcdfVariable, oddities: Oddities): GridNorth {
  return async (places, box) => {
    const byNodes = await northOfNodes(places, box);
    if (!byNodes.ok) return byNodes;
    const stored = await file.read(angle.name, { start: [box.rowStart, box.columnStart], count: [box.rowCount, box.columnCount] });
    if (!stored.ok) return stored;
    const { values, missing } = unpack(stored.value, packingOf(angle));
    const toDeg = /^deg/i.test(textOf(angle.attributes, "units")) ? 1 : 1 / RAD_PER_DEG;
    const bearings = values.map((value, node) => (missing[node] === 1 ? Number.NaN : -value * toDeg));
    const apart = [...bearings.keys()]
      .map((node) => Math.abs(withinHalfTurn(bearings[node]! - byNodes.value[node]!)))
      .filter((one) => !Number.isNaN(one))
      .sort((one, other) => one - other);
    const middle = apart[apart.length >> 1] ?? 0;
    if (middle <= GREATEST_DISAGREEMENT_DEG) return good(bearings);
    oddities.tell("file-lies", `"${angle.name}" is ${Math.round(middle)}° off what the places of the nodes say; the places are used.`);
    return byNodes;
  };
}

const withinHalfTurn = (deg: number): number => deg - 360 * Math.round(deg / 360);
