import type { Position } from "../../earth/index.ts";
import type { EpochSeconds, Motion } from "../../units/index.ts";

/** What a stream does at a turn. `least …`: it eases and grows again without turning, so that there is no slack. */
export type StreamTurnKind = "slack before flood" | "greatest flood" | "slack before ebb" | "greatest ebb" | "least flood" | "least ebb";

/** A turn of a tidal stream: its instant, to a second. */
export interface StreamTurn {
  readonly kind: StreamTurnKind;
  readonly at: EpochSeconds;
  /** Along the axis, flood positive, m/s. */
  readonly alongMps: number;
  /** Of the whole stream, m/s: at the slack of a stream that turns round it is not nought. */
  readonly rateMps: number;
}

/** A stretch of time in which a stream is told with less right than its source gives. */
export interface StreamDoubt {
  /**
   * `beyond springs`, `short of neaps`: the tide's range lies outside the two that a table by hours is for, so that it is run on in a
   * straight line. `high waters uneven`: they stand so far apart, or so near, that the table's hours are stretched or squeezed.
   * `turns out of order`: the differences of a subordinate station put one turn behind the next, which is left out.
   */
  readonly kind: "beyond springs" | "short of neaps" | "high waters uneven" | "turns out of order";
  readonly from: EpochSeconds;
  readonly until: EpochSeconds;
  /** The tide's own range there and the one that the table goes to, metres; null for the other kinds. */
  readonly rangeMetres: number | null;
  readonly statedMetres: number | null;
}

/** From what a stream is told. */
export type StreamTold =
  | { readonly kind: "constants" }
  | { readonly kind: "subordinate"; readonly of: string }
  | { readonly kind: "byHours"; readonly of: string; readonly springRangeMetres: number; readonly neapRangeMetres: number };

/**
 * A tidal stream at a place, however it is told: rates in m/s, sets in degrees true, toward. Along the axis the flood counts positive.
 * Where the flood's set is not the ebb's turned about, the stream sets along the one or the other; a stream that turns round has
 * components of its own.
 */
export interface TidalStream {
  readonly name: string;
  readonly position: Position;
  readonly floodTowardDegTrue: number;
  readonly ebbTowardDegTrue: number;
  /** How far from its position it is taken to hold, metres; null where it serves only as a reference and for gates. */
  readonly withinMetres: number | null;
  readonly told: StreamTold;
  /** Along the axis, flood positive, m/s. */
  alongAt(at: number): number;
  /** Writes east and north, true, m/s. */
  vectorInto(out: Float64Array, at: number): void;
  vectorAt(at: number): Motion;
  /** Every turn in [from, until), in order of time. None is a slack where the stream never turns. */
  turns(from: number, until: number): readonly StreamTurn[];
  /** Where in [from, until) it is told with less right than its source gives; empty where nowhere. */
  doubts(from: number, until: number): readonly StreamDoubt[];
}

/** The stream of a name; null where there is none. */
export function streamNamed(streams: readonly TidalStream[], name: string): TidalStream | null {
  return streams.find((stream) => stream.name === name) ?? null;
}
