/** What may be under the keel at the shallowest of an entrance, metres. */
export interface EntranceDepth {
  /** Charted; below nought where it dries. */
  readonly chartedDepthMetres: number;
  readonly draughtMetres: number;
  /** The least the skipper wants under the keel. */
  readonly underKeelMetres: number;
  /** The name of the tide whose height is added. */
  readonly tide: string;
  /** What is taken off for the boat's fall in the waves: nothing, a stated height, or the significant height on the bar. */
  readonly waves: { readonly kind: "none" } | { readonly kind: "stated"; readonly metres: number } | { readonly kind: "seaOnBar" };
}

/** What may run in an entrance. What is null is not asked for. */
export interface EntranceStream {
  /** The name of the stream. */
  readonly of: string;
  readonly ebbNeverMps: number | null;
  readonly floodNeverMps: number | null;
  /** Passed only so long before and after a slack. */
  readonly slackWithinSeconds: number | null;
}

/** What sea may stand on the bar. A sea that breaks, or that the stream blocks, always shuts it. */
export interface EntranceSea {
  /** Significant height on the bar; null: any that doesn't break. */
  readonly neverHeightMetres: number | null;
  /** Significant height over length on the bar; null: any below that of breaking seas. */
  readonly neverSteepness: number | null;
  /** The period to reckon with where the forecast gives none; null: then it is not judged. */
  readonly periodSeconds: number | null;
  /** Where the forecast's sea comes from; null: not known, so that it is reckoned to run straight against the ebb. */
  readonly fromDegTrue: number | null;
  /** Open water to seaward over which the wind raises a sea of its own; null: the forecast's sea has it in. */
  readonly fetchMetres: number | null;
}

/** An entrance that is read by eye: the sun high enough, and off the bow (trade rule: the sun high and behind). */
export interface ReadByEye {
  readonly sunAboveDeg: number;
  /** The course through it and how far off the bow the sun must stand; null: the height alone counts. */
  readonly offBow: { readonly courseDegTrue: number; readonly leastDeg: number } | null;
}

/**
 * An entrance over a bar or through a cut, as the skipper states it. It can be passed while all that is stated is met at once; what is
 * null is not asked for. Tides and streams are told by name and found in the passage.
 */
export interface Entrance {
  readonly depth: EntranceDepth | null;
  readonly stream: EntranceStream | null;
  readonly sea: EntranceSea | null;
  /** Wind against the ebb: its component against the set times the rate, m²/s²; null: not asked for. */
  readonly windAgainstEbbNeverMps2: number | null;
  readonly eye: ReadByEye | null;
}

/** Why an entrance can't be passed, or can't be judged, at an instant. */
export type EntranceReason =
  | { readonly kind: "depth"; readonly underKeelMetres: number; readonly leastMetres: number }
  | { readonly kind: "ebb" | "flood"; readonly mps: number; readonly neverMps: number }
  /** `nearestAt`: the nearest slack; null where none is within a day. */
  | { readonly kind: "notSlack"; readonly nearestAt: number | null; readonly withinSeconds: number }
  /** The stream stops these waves: they pile up and break. */
  | { readonly kind: "blocked"; readonly waves: WavesOfBar }
  /** Too steep to stand, or too high for the water. */
  | { readonly kind: "breaking"; readonly heightMetres: number; readonly by: "steepness" | "depth" }
  | { readonly kind: "steep"; readonly steepness: number; readonly never: number }
  | { readonly kind: "seaHeight"; readonly heightMetres: number; readonly neverMetres: number }
  | { readonly kind: "windAgainstEbb"; readonly mps2: number; readonly neverMps2: number }
  | { readonly kind: "sunLow"; readonly altitudeDeg: number; readonly leastDeg: number }
  | { readonly kind: "sunAhead"; readonly offBowDeg: number; readonly leastDeg: number }
  /** Asked for, and not known then. */
  | { readonly kind: "notJudged"; readonly lacks: EntranceLack };

/** `sea`: the forecast's sea; `windSea`: what the wind raises over a stated fetch. */
export type WavesOfBar = "sea" | "windSea";

/** What the data doesn't reach. */
export type EntranceLack = "tide" | "stream" | "sea" | "seaPeriod" | "wind";

/** The figures of an entrance at an instant, and what shuts it. Null: not asked for, or not known (then a reason says so). */
export interface EntranceReading {
  readonly at: number;
  /** Height of the tide above chart datum, metres. */
  readonly heightAboveChartDatumMetres: number | null;
  /** With what is taken off for the waves; null also where these are blocked. */
  readonly underKeelMetres: number | null;
  /** Along the cut, flood positive. */
  readonly streamMps: number | null;
  readonly sea: SeaOnBar | null;
  readonly windAgainstEbbMps2: number | null;
  readonly sunAltitudeDeg: number | null;
  readonly reasons: readonly EntranceReason[];
}

/** The sea on the bar: the forecast's and the wind's own each changed by the stream and the depth, then joined by squares. */
export type SeaOnBar =
  | { readonly kind: "blocked"; readonly waves: WavesOfBar }
  | {
      readonly kind: "runs";
      readonly heightMetres: number;
      /** Of the steeper of the two. */
      readonly steepness: number;
      readonly breaking: "no" | "steepness" | "depth";
    };
