import type { NoAnswer } from "../../answers/index.ts";
import type { Position } from "../../earth/index.ts";
import type { FeltOnce } from "../limit.ts";

/** One figure of a passage, with the moment and the place that it belongs to. */
export interface KnownOnce {
  readonly value: number;
  readonly at: number;
  readonly where: Position;
  /** Which of several it is of, as a shallow by its name. */
  readonly name?: string;
}

/** One figure of a passage as far as it is known. */
export type OnceValue =
  | ({ readonly kind: "known" } & KnownOnce)
  /** This or more: the forecast does not reach farther back. `why` tells so where that is not enough. */
  | ({ readonly kind: "atLeast"; readonly why: NoAnswer } & KnownOnce)
  /** `knownPart`: the worst of what is known, null where nothing is. */
  | { readonly kind: "unknown"; readonly why: NoAnswer; readonly knownPart: KnownOnce | null };

/** The wind before leaving, hour by hour: it is calm or not only by the limit that asks. */
export interface WindBefore {
  /** The first instant, and from there on every `LOOK_BACK_EVERY_SECONDS`. */
  readonly from: number;
  /** The strongest at the places looked at, m/s; below 0 where it is not known. */
  readonly windMps: Float64Array;
}

/** What a passage has one figure of. */
export interface WholePassage {
  readonly values: Readonly<Record<Exclude<FeltOnce, "calmBeforeSeconds">, OnceValue>>;
  /** Null where no wind is looked at. */
  readonly windBefore: WindBefore | null;
}
