/** What is felt of one quantity along the passage: the low and the high end at each node, and whether it is known there (a `Coverage`). */
export interface FeltColumn {
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly coverage: Uint8Array;
}
