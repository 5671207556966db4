import { BlockState, isNegative, STRIPE, UNIFORM } from "./block-state.ts";
import { cleanupPass } from "./cleanup-pass.ts";
import { RESET, SEGMENTATION_SYMBOLS, VERTICALLY_CAUSAL } from "./coding-style.ts";
import { SIGNIFICANCE } from "./contexts.ts";
import { MQ_PADDING_BYTES } from "./mq-decoder.ts";
import { RawBits } from "./raw-bits.ts";
import { rawRefinementPass, rawSignificancePass } from "./raw-passes.ts";
import { refinementPass } from "./refinement-pass.ts";
import { isRaw, passesLeftInSegment } from "./segments.ts";
import { significancePass } from "./significance-pass.ts";
import type { Band, CodeBlock } from "./tile-layout.ts";

/** The symbols that end each plane where the style asks for them (ISO/IEC 15444-1 D.5). */
const SEGMENTATION = 0b1010;

/** Decodes code-blocks (annex D), one after the other in the same memory. */
export class BlockDecoder {
  readonly #state = new BlockState();
  readonly #raw = new RawBits();
  #segment = new Uint8Array(1024);

  /**
   * Decodes a code-block from the packets' bytes and writes its coefficients into its band. A coefficient of which the lowest planes were
   * left out, or that stands for an interval, is taken in the middle. False where the block's own marks say that it is damaged.
   */
  decode(block: CodeBlock, band: Band, packets: Uint8Array, blockStyle: number, isReversible: boolean): boolean {
    const state = this.#state;
    state.begin(block.x1 - block.x0, block.y1 - block.y0, (blockStyle & VERTICALLY_CAUSAL) !== 0);
    const { pieces } = block;
    for (let pass = 0, i = 0; i < pieces.length; ) {
      let left = passesLeftInSegment(pass, blockStyle);
      let passes = 0;
      let length = 0;
      for (; i < pieces.length && left > 0; i += 3) {
        length = this.#append(packets, pieces[i]!, pieces[i + 1]!, length);
        passes += pieces[i + 2]!;
        left -= pieces[i + 2]!;
      }
      if (isRaw(pass, blockStyle)) this.#raw.begin(this.#segment, 0, length);
      else {
        this.#segment.fill(0xff, length, length + MQ_PADDING_BYTES);
        state.mq.begin(this.#segment, 0);
      }
      for (const end = pass + passes; pass < end; pass++) if (!this.#decodePass(pass, block.planes, band, blockStyle)) return false;
    }
    writeCoefficients(state, block, band, isReversible);
    return true;
  }

  /** Copies a piece of a segment behind those before it; gives the segment's length so far. */
  #append(packets: Uint8Array, offset: number, length: number, before: number): number {
    const after = before + length;
    if (after + MQ_PADDING_BYTES > this.#segment.length) {
      const larger = new Uint8Array(2 * (after + MQ_PADDING_BYTES));
      larger.set(this.#segment.subarray(0, before));
      this.#segment = larger;
    }
    if (length < 64) for (let i = 0; i < length; i++) this.#segment[before + i] = packets[offset + i]!;
    else this.#segment.set(packets.subarray(offset, offset + length), before);
    return after;
  }

  #decodePass(pass: number, planes: number, band: Band, blockStyle: number): boolean {
    const state = this.#state;
    const plane = planes - 1 - Math.floor((pass + 2) / 3);
    const significance = SIGNIFICANCE[band.orientation]!;
    const kind = pass % 3;
    let isSound = true;
    if (kind === 0) {
      cleanupPass(state, plane, significance);
      if ((blockStyle & SEGMENTATION_SYMBOLS) !== 0) {
        let symbols = 0;
        for (let i = 0; i < 4; i++) symbols = 2 * symbols + state.mq.decode(UNIFORM);
        isSound = symbols === SEGMENTATION;
      }
    } else if (isRaw(pass, blockStyle)) {
      if (kind === 1) rawSignificancePass(state, plane, this.#raw);
      else rawRefinementPass(state, plane, this.#raw);
    } else if (kind === 1) significancePass(state, plane, significance);
    else refinementPass(state, plane);
    if ((blockStyle & RESET) !== 0) state.resetContexts();
    return isSound;
  }
}

function writeCoefficients(state: BlockState, block: CodeBlock, band: Band, isReversible: boolean): void {
  const { flags, magnitudes, width, height, stride } = state;
  const { coefficients } = band;
  const bandWidth = band.x1 - band.x0;
  // Halves are kept for the irreversible wavelet only.
  const drop = isReversible ? 1 : 0;
  for (let y = 0; y < height; y++) {
    const row = y % STRIPE;
    const flagsFrom = ((y >> 2) + 1) * stride + 1;
    let k = (y >> 2) * width * STRIPE + row;
    let to = (block.y0 - band.y0 + y) * bandWidth + block.x0 - band.x0;
    for (let x = 0; x < width; x++, k += STRIPE, to++) {
      const magnitude = magnitudes[k]! >>> drop;
      if (magnitude !== 0) coefficients[to] = isNegative(flags[flagsFrom + x]!, row) === 1 ? -magnitude : magnitude;
    }
  }
}
