import type { AtlasStation } from "../atlas/index.ts";
import type { Position } from "../core/earth/index.ts";
import type { EpochSeconds } from "../core/units/index.ts";
import type { TideTurn } from "../core/water/index.ts";

/** High and low waters of a day at a station. */
export interface TideAnswer {
  readonly isoDate: string;
  readonly zone: string;
  readonly from: EpochSeconds;
  readonly until: EpochSeconds;
  /** The position asked about; null where a station was named. */
  readonly place: Position | null;
  readonly station: AtlasStation;
  /** From the position to the station; null where it was named. */
  readonly distanceNm: number | null;
  readonly reference: { readonly id: string; readonly name: string } | null;
  readonly turns: readonly TideTurn[];
  readonly others: readonly { readonly station: AtlasStation; readonly distanceNm: number }[];
}

/** What is typed after `athwart tide`. */
export interface TideFlags {
  readonly near?: string;
  readonly station?: string;
  /** With a passage file: one of its tides, or of its streams. */
  readonly tide?: string;
  readonly stream?: string;
  readonly on?: string;
  readonly zone?: string;
  readonly json?: boolean;
}
