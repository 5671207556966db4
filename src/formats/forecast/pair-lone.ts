import { type GridData, type Mesh, nodeCountOf } from "../../core/fields/index.ts";
import { trueFromGridInto } from "../projection/index.ts";
import type { LoneGrid } from "./forecast-reading.ts";
import { sourcesInWords } from "./join-times.ts";
import { isSameMesh } from "./mesh-key.ts";
import type { Oddities } from "./oddities.ts";
import type { QuantityGroup } from "./quantities.ts";
import { type Staggering, staggeringOf } from "./stagger.ts";
import { ValueCheck } from "./value-check.ts";

/**
 * An east and a north component from two files put together, over the times that both have: node by node on the same mesh, or at the
 * centres between them where they are staggered. Null, and told, where that can't be.
 */
export function pairLone(first: LoneGrid, second: LoneGrid, group: QuantityGroup, oddities: Oddities): GridData | null {
  const [east, north] = [first.grid, second.grid];
  const isSame = isSameMesh(east.mesh, north.mesh);
  const staggering = isSame ? null : staggeringOf(east.mesh, north.mesh);
  if (!isSame && staggering === null) {
    oddities.tell(
      "component-missing",
      `The components of the ${group.name} in ${east.source} and in ${north.source} stand on different grids; they are not used.`,
    );
    return null;
  }
  const steps: (readonly [number, number])[] = [];
  const places = new Map(Array.from(north.times, (at, index) => [at, index] as const));
  east.times.forEach((at, index) => {
    const other = places.get(at);
    if (other !== undefined) steps.push([index, other]);
  });
  const lame = east.times.length + north.times.length - 2 * steps.length;
  if (lame > 0) {
    const said = `${lame} times of the ${group.name} have one component only, in ${east.source} or in ${north.source}; they are not used.`;
    oddities.tell("component-missing", said);
  }
  if (steps.length === 0) return null;
  const mesh = staggering === null ? east.mesh : meshOf(staggering);
  const nodes = nodeCountOf(mesh);
  const values = new Float32Array(2 * steps.length * nodes);
  const missing = new Uint8Array(steps.length * nodes);
  const [eastAt, northAt] = [nodeCountOf(east.mesh), nodeCountOf(north.mesh)];
  const vector = new Float64Array(2);
  const check = new ValueCheck(group);
  const turnDegTrue = first.northDegTrue ?? second.northDegTrue;
  const isTurned = turnDegTrue !== null;
  const turnNode = (node: number): number => {
    if (staggering === null) return node;
    return first.northDegTrue === null ? staggering.alongColumn[node]! : staggering.alongRow[node]!;
  };
  steps.forEach(([e, n], t) => {
    for (let node = 0; node < nodes; node++) {
      const point = t * nodes + node;
      const isThere =
        readHalf(vector, 0, east, e * eastAt, staggering?.alongRow ?? null, 1, node) &&
        readHalf(vector, 1, north, n * northAt, staggering?.alongColumn ?? null, staggering?.columnStride ?? 0, node);
      if (!isThere || !check.isPossibleTogether(vector[0]!, vector[1]!)) {
        missing[point] = 1;
        continue;
      }
      if (isTurned) trueFromGridInto(vector, vector[0]!, vector[1]!, turnDegTrue[turnNode(node)]!);
      values[2 * point] = vector[0]!;
      values[2 * point + 1] = vector[1]!;
    }
  });
  check.tell(oddities);
  return {
    ...east,
    quantities: group.quantities,
    mesh,
    times: Float64Array.from(steps, ([index]) => east.times[index]!),
    values,
    missing,
    source: sourcesInWords([east.source, north.source]),
  };
}

/**
 * One component at a node, or the mean of its two neighbours. Where one of them is missing it is land's: no water goes through it, and it
 * counts as 0, as the ocean models that have such grids reckon (common practice). False where there is none.
 */
function readHalf(
  out: Float64Array,
  component: number,
  grid: GridData,
  from: number,
  nodes: Int32Array | null,
  stride: number,
  node: number,
): boolean {
  const before = from + (nodes === null ? node : nodes[node]!);
  const after = nodes === null ? before : before + stride;
  const [isBefore, isAfter] = [grid.missing[before] === 0, grid.missing[after] === 0];
  if (!isBefore && !isAfter) return false;
  const [a, b] = [grid.values[before]!, grid.values[after]!];
  // What is missing holds 0.
  out[component] = (a + b) / 2;
  return true;
}

function meshOf({ rows, columns, latitudesDeg, longitudesDeg, placed }: Staggering): Mesh {
  return { kind: "curvilinear", rows, columns, latitudesDeg, longitudesDeg, placed };
}
