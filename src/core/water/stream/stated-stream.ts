import type { Position } from "../../earth/index.ts";

/** A constituent's amplitude along an axis, m/s, and its phase behind Greenwich, degrees. */
export interface StreamConstant {
  readonly name: string;
  readonly rateMps: number;
  readonly phaseDeg: number;
}

/** Constants of one component, and the mean flow along it (Z0), m/s, in its positive sense. */
export interface StreamComponent {
  readonly meanMps: number;
  readonly constants: readonly StreamConstant[];
}

/** Seconds later than the reference's turn (earlier: negative), and by what its greatest rates are multiplied. */
export interface StreamDifferences {
  readonly slackBeforeFloodLaterSeconds: number;
  readonly greatestFloodLaterSeconds: number;
  readonly slackBeforeEbbLaterSeconds: number;
  readonly greatestEbbLaterSeconds: number;
  readonly floodRatio: number;
  readonly ebbRatio: number;
}

/** One line of a table by hours: so many whole hours after high water (before: negative), a set, degrees true, and two rates, m/s. */
export interface HourOfStream {
  readonly hour: number;
  readonly setDegTrue: number;
  readonly springsMps: number;
  readonly neapsMps: number;
}

/** A table by hours from high water of the tide named `of`; ranges in metres, null where they are the mean ones of its constants. */
export interface StreamTable {
  readonly of: string;
  readonly springRangeMetres: number | null;
  readonly neapRangeMetres: number | null;
  readonly hours: readonly HourOfStream[];
}

/** A tidal stream as it is stated: plain data. */
export interface StatedStream {
  readonly name: string;
  readonly position: Position;
  readonly floodTowardDegTrue: number;
  readonly ebbTowardDegTrue: number;
  readonly withinMetres: number | null;
  readonly told:
    | {
        readonly kind: "constants";
        /** Along the flood's set; with `across` along `axisTowardDegTrue`. */
        readonly along: StreamComponent;
        /** Square to the axis, to the right of one who looks along it; null for a stream that runs to and fro. */
        readonly across: StreamComponent | null;
        /** The axis of the two components; null: the flood's set. It goes with `across` only. */
        readonly axisTowardDegTrue: number | null;
      }
    /** Differences from the stream named `of`, which has constants or a table of its own. */
    | { readonly kind: "subordinate"; readonly of: string; readonly differences: StreamDifferences }
    | { readonly kind: "byHours"; readonly table: StreamTable };
}
