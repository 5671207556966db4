import { radFromDeg } from "../units/index.ts";
import type { GridData, GridQuantity } from "./grid-data.ts";

/** Where the east and the north part of a vector stand among a grid's quantities. */
interface VectorPair {
  readonly east: number;
  readonly north: number;
}

const EAST = /East(?=Mps$|$)/;
const NORTH = /North(?=Mps$|$)/;

/** The vectors among quantities, at whatever places; throws when one lacks its other part. */
function vectorPairsOf(quantities: readonly GridQuantity[]): readonly VectorPair[] {
  const names: readonly string[] = quantities;
  const indexOf = (name: string, whose: string): number => {
    const index = names.indexOf(name);
    if (index < 0) throw new Error(`a grid that holds ${whose} must hold ${name} too`);
    return index;
  };
  const pairs: VectorPair[] = [];
  names.forEach((name, index) => {
    if (EAST.test(name)) pairs.push({ east: index, north: indexOf(name.replace(EAST, "North"), name) });
    else if (NORTH.test(name)) indexOf(name.replace(NORTH, "East"), name);
  });
  return pairs;
}

/** Whether a grid holds vectors at all. Throws when one lacks its other part. */
export function hasVectors(data: GridData): boolean {
  return vectorPairsOf(data.quantities).length > 0;
}

/**
 * A grid's values with all vectors turned from true north to the sheet's, node by node, by the convergence there in degrees; scalars, and
 * nodes without a convergence (NaN), are left as they are.
 */
export function turnedToSheet(data: GridData, convergenceDeg: Float64Array): Float32Array {
  const n = data.quantities.length;
  const levels = data.times.length;
  const nodes = convergenceDeg.length;
  const pairs = vectorPairsOf(data.quantities);
  const turned = new Float32Array(data.values);
  for (let node = 0; node < nodes; node++) {
    const turnRad = radFromDeg(convergenceDeg[node] as number);
    if (Number.isNaN(turnRad)) continue;
    const cos = Math.cos(turnRad);
    const sin = Math.sin(turnRad);
    for (const { east, north } of pairs) {
      for (let level = 0; level < levels; level++) {
        const at = (level * nodes + node) * n;
        const toEast = data.values[at + east] as number;
        const toNorth = data.values[at + north] as number;
        // A bearing on the sheet is the true bearing less the convergence: the vector turns counter-clockwise by it.
        turned[at + east] = toEast * cos - toNorth * sin;
        turned[at + north] = toEast * sin + toNorth * cos;
      }
    }
  }
  return turned;
}
