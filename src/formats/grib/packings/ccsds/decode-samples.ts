import type { Scaling } from "../simple.ts";
import { BlockReader, ENDED, FILLED, OUT_OF_RANGE, RUN_TOO_LONG } from "./block-reader.ts";
import type { CcsdsCoding } from "./coding.ts";

/** Fills `out` with the coded samples, scaled. Null, or why the code can't be true. */
export function decodeSamples(data: Uint8Array, coding: CcsdsCoding, scaling: Scaling, out: Float64Array): string | null {
  const { blockSamples, intervalBlocks, predicted, wholeBytes, bits } = coding;
  const blocks = new BlockReader(data, coding);
  const { residuals } = blocks;
  const samples = new SampleWriter(coding, scaling, out);
  let number = 0;
  while (samples.written < out.length) {
    const isReference = predicted && number === 0;
    const found = blocks.nextBlock(number, isReference);
    if (found === ENDED) return `The code of the values ends after ${samples.written} of ${out.length}.`;
    if (found === OUT_OF_RANGE) return `A value takes more than its ${bits} bits.`;
    if (found === RUN_TOO_LONG) return "A run of empty blocks goes beyond the next reference sample.";
    if (isReference) samples.startFrom(residuals[0]!);
    if (found !== FILLED) samples.repeat(found * blockSamples - (isReference ? 1 : 0));
    else if (predicted) samples.follow(residuals, isReference ? 1 : 0);
    else samples.copy(residuals);
    number += found === FILLED ? 1 : found;
    if (number === intervalBlocks) {
      number = 0;
      if (wholeBytes) blocks.toWholeByte();
    }
  }
  return null;
}

/**
 * Undoes the prediction (CCSDS 121.0-B-3, section 4: the unit-delay predictor and the prediction error mapper) and scales. Inside, a signed sample is
 * raised by half the range, which makes its prediction that of an unsigned one; what comes out is the sample's bits as a number from 0
 * to 2^bits − 1, as X has to be.
 */
class SampleWriter {
  written = 0;
  readonly #out: Float64Array;
  readonly #scaling: Scaling;
  readonly #most: number;
  readonly #raised: number;
  #last = 0;

  constructor(coding: CcsdsCoding, scaling: Scaling, out: Float64Array) {
    this.#out = out;
    this.#scaling = scaling;
    this.#most = 2 ** coding.bits - 1;
    this.#raised = coding.predicted && coding.signed ? 1 << (coding.bits - 1) : 0;
  }

  /** A reference sample. */
  startFrom(sample: number): void {
    this.#last = (sample ^ this.#raised) >>> 0;
    this.repeat(1);
  }

  /** The last sample again; nought where nothing is predicted. */
  repeat(count: number): void {
    const { reference, step, divisor } = this.#scaling;
    const until = Math.min(this.#out.length, this.written + count);
    this.#out.fill((reference + ((this.#last ^ this.#raised) >>> 0) * step) / divisor, this.written, until);
    this.written = until;
  }

  /** Samples as they are. */
  copy(samples: Int32Array): void {
    const { reference, step, divisor } = this.#scaling;
    const until = Math.min(this.#out.length, this.written + samples.length);
    for (let i = 0, o = this.written; o < until; i++, o++) this.#out[o] = (reference + (samples[i]! >>> 0) * step) / divisor;
    this.written = until;
  }

  /** Samples that follow the last one, from the residual `from` on. */
  follow(residuals: Int32Array, from: number): void {
    if (this.#most > 0x7fff_ffff) {
      this.#followWide(residuals, from);
      return;
    }
    const out = this.#out;
    const { reference, step, divisor } = this.#scaling;
    const until = Math.min(out.length, this.written + residuals.length - from);
    const raised = this.#raised;
    const most = this.#most | 0;
    let last = this.#last | 0;
    for (let i = from, o = this.written; o < until; i++, o++) {
      const residual = residuals[i]!;
      const above = (most - last) | 0;
      const room = Math.min(last, above);
      if (residual <= room << 1) last = (last + ((residual >> 1) ^ -(residual & 1))) | 0;
      else last = last < above ? residual : most - residual;
      out[o] = (reference + (last ^ raised) * step) / divisor;
    }
    this.#last = last;
    this.written = until;
  }

  /** The same for 32 bits, which go beyond whole numbers of 32 bits with a sign. */
  #followWide(residuals: Int32Array, from: number): void {
    const { reference, step, divisor } = this.#scaling;
    const until = Math.min(this.#out.length, this.written + residuals.length - from);
    for (let i = from, o = this.written; o < until; i++, o++) {
      const residual = residuals[i]! >>> 0;
      const last = this.#last;
      const above = this.#most - last;
      if (residual <= 2 * Math.min(last, above)) this.#last = residual % 2 === 0 ? last + residual / 2 : last - (residual + 1) / 2;
      else this.#last = last < above ? residual : this.#most - residual;
      this.#out[o] = (reference + ((this.#last ^ this.#raised) >>> 0) * step) / divisor;
    }
    this.written = until;
  }
}
