/** The least share of a cell's weight that must be covered for its value to count; below it the place is not covered. */
export const LEAST_COVERED_WEIGHT = 0.5;

/**
 * What becomes of the weights where one of the four nodes is missing at a time level.
 *
 * - `renormalise`: the weights are shares of a cell. The missing node is left out and the others' are made up to 1; the place is not
 *   covered where less than `LEAST_COVERED_WEIGHT` is left.
 * - `firstAlone`: the weights are the first node's value and a slope fitted through all four, which stand or fall together. Where another
 *   is missing the first node's value holds alone; where the first is missing the place is not covered.
 */
export type WhereMissing = "renormalise" | "firstAlone";

/**
 * Finds how the values of a mesh are read at a place: four nodes and their weights, which add up to 1. Nothing is allocated after it is
 * built, and what `moveTo` finds depends on the place alone, never on the places asked before.
 */
export interface MeshLocator {
  /** The four nodes at the place last moved to; one whose weight is 0 may stand for another. */
  readonly nodes: Int32Array;
  readonly weights: Float64Array;
  readonly whereMissing: WhereMissing;
  /** Finds the nodes around (x, y) metres on the plane; false where no cell covers it, and nodes and weights then mean nothing. */
  moveTo(xMetres: number, yMetres: number): boolean;
}
