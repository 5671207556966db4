import type { TidalStream } from "./tidal-stream.ts";

/**
 * A stream is reckoned at nodes so far apart, seconds, and run straight between. Of a stream of rate A and speed σ that leaves out
 * A·σ²·h²/8: at 10 kn semidiurnal 0.00002 kn; where the sets of flood and ebb are not opposite, or a quarter of the tide is longer than
 * the next, the stream bends at slack, and there it leaves out at most a quarter of the bend in 30 s, below 0.005 kn at 10 kn.
 */
export const STREAM_NODE_SECONDS = 30;
const NODES_A_BLOCK = 720;
const BLOCK_SECONDS = STREAM_NODE_SECONDS * NODES_A_BLOCK;
/** Blocks kept at once, a hundred days: beyond any forecast. */
const KEPT_BLOCKS = 400;

/** A stream's vector by time, reckoned in blocks of six hours when first asked for: for asking often. */
export class StreamMemo {
  private readonly stream: TidalStream;
  private readonly blocks = new Map<number, Float64Array>();
  private lastNumber = Number.NaN;
  private last: Float64Array = new Float64Array(0);

  constructor(stream: TidalStream) {
    this.stream = stream;
  }

  /** Writes east and north, true, m/s. */
  into(out: Float64Array, at: number): void {
    const number = Math.floor(at / BLOCK_SECONDS);
    if (number !== this.lastNumber) {
      this.last = this.block(number);
      this.lastNumber = number;
    }
    const place = (at - number * BLOCK_SECONDS) / STREAM_NODE_SECONDS;
    const node = Math.min(NODES_A_BLOCK - 1, Math.floor(place));
    const share = place - node;
    const values = this.last;
    const k = 2 * node;
    const [east, north] = [values[k] as number, values[k + 1] as number];
    out[0] = east + share * ((values[k + 2] as number) - east);
    out[1] = north + share * ((values[k + 3] as number) - north);
  }

  private block(number: number): Float64Array {
    const known = this.blocks.get(number);
    if (known !== undefined) return known;
    const values = new Float64Array(2 * (NODES_A_BLOCK + 1));
    const from = number * BLOCK_SECONDS;
    for (let i = 0; i <= NODES_A_BLOCK; i++) this.stream.vectorInto(values.subarray(2 * i, 2 * i + 2), from + i * STREAM_NODE_SECONDS);
    if (this.blocks.size >= KEPT_BLOCKS) this.blocks.delete(this.blocks.keys().next().value as number);
    this.blocks.set(number, values);
    return values;
  }
}
