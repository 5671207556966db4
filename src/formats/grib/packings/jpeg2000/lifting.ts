/** A wavelet undone on numbers of double precision, low samples at even places and high ones at odd places of a line. */
export interface Lifting {
  /** What low and high samples of a line of so many are multiplied by first. */
  scales(length: number): { readonly low: number; readonly high: number };
  /** One line in place, `parity` being that of its first place. */
  weaveLine(out: Float64Array, at: number, length: number, parity: number): void;
  /** The columns of `rows` rows of `width` samples, in place. */
  weaveColumns(out: Float64Array, width: number, rows: number, parity: number): void;
}
