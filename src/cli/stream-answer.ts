import { type Motion, mpsFromKnots } from "../core/units/index.ts";
import type { StreamDoubt, StreamTurn, TidalStream } from "../core/water/index.ts";

/** Slower than this a stream is told as slack, m/s; common practice. */
export const SLACK_BELOW_MPS: number = mpsFromKnots(0.5);

/** A tidal stream on a day; motions are true, toward, m/s. */
export interface StreamAnswer {
  readonly passage: string;
  readonly isoDate: string;
  readonly zone: string;
  readonly from: number;
  readonly until: number;
  readonly stream: TidalStream;
  readonly turns: readonly (StreamTurn & { readonly motion: Motion })[];
  /** Hour by hour from the beginning of the day to its end. */
  readonly hours: readonly { readonly at: number; readonly motion: Motion; readonly alongMps: number }[];
  /** Where it runs no faster than `SLACK_BELOW_MPS`. */
  readonly slower: readonly { readonly from: number; readonly until: number }[];
  readonly doubts: readonly StreamDoubt[];
  readonly credit: string;
}

/** What a stream leaves out, for every answer. */
export const STREAM_CAUTION =
  "Streams are of the tide alone: wind, air pressure and rivers change their rates and the times of slack, which is not the time of high or low water.";
