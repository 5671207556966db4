import type { Issue } from "../../core/answers/index.ts";
import type { EpochSeconds } from "../../core/units/index.ts";
import type { MapProjection } from "../projection/index.ts";

/** A level (WMO code table 4.5): `type` is the code; `value` in the code's unit, null where it has none or is missing. */
export interface GribSurface {
  readonly type: number;
  readonly value: number | null;
}

/** How a value was made over its interval (WMO code table 4.10). `other` keeps the code of what is named nowhere here. */
export type GribProcess = "mean" | "accumulation" | "maximum" | "minimum" | "other";

/** A value made over an interval rather than at an instant (product templates 4.8 and 4.11). */
export interface GribStatistic {
  readonly process: GribProcess;
  /** The code of table 4.10 itself. */
  readonly processCode: number;
}

/** One forecast of several (product templates 4.1 and 4.11). */
export interface GribEnsemble {
  /** WMO code table 4.6: 0 and 1 unperturbed control, 2 negatively and 3 positively perturbed. Old files pair 2 and 3 under one number. */
  readonly kindCode: number;
  readonly perturbationNumber: number;
  readonly forecastsInEnsemble: number;
}

/** Sections 1 and 4: what the numbers are, of which run, for when. */
export interface GribProduct {
  readonly centre: number;
  readonly subCentre: number;
  readonly generatingProcess: number;
  /** In edition 1 what table 4.2 of edition 2 has for the same parameter; 255 (missing) for all three where it has nothing. */
  readonly discipline: number;
  readonly category: number;
  readonly number: number;
  /** The parameter as edition 1 has it: a table's version and a number in it; null in edition 2. */
  readonly edition1: { readonly tableVersion: number; readonly parameter: number } | null;
  readonly level: GribSurface;
  /** The layer's other side; null where the product is on one level. */
  readonly secondLevel: GribSurface | null;
  /** The run: its analysis or the start of its forecast. */
  readonly referenceAt: EpochSeconds;
  readonly productTemplate: number;
  /** Start of the interval; for an instant the same as `validAt`. */
  readonly validFrom: EpochSeconds;
  /** The instant, or the end of the interval. */
  readonly validAt: EpochSeconds;
  /** Null for an instant. */
  readonly statistic: GribStatistic | null;
  /** Null where the product is not one of an ensemble. */
  readonly ensemble: GribEnsemble | null;
  /** The perturbation number; 0 for the control, and where there is only one forecast. */
  readonly member: number;
}

/** The order in which a grid's points stand in the message (WMO flag table 3.4). `ni` points along x, `nj` along y. */
export interface GribScan {
  readonly ni: number;
  readonly nj: number;
  /** 0x80: the first row runs toward −x (west). */
  readonly iNegative: boolean;
  /** 0x40: rows follow one another toward +y (north). */
  readonly jPositive: boolean;
  /** 0x20: points that follow one another in the message are neighbours in y. */
  readonly jConsecutive: boolean;
  /** 0x10: every other row (or column) runs the other way. */
  readonly alternating: boolean;
}

/** A regular latitude and longitude grid (grid template 3.0), said from its south-west corner whatever the scan. */
export interface LatLonGrid {
  readonly kind: "latLon";
  readonly template: number;
  readonly rows: number;
  readonly columns: number;
  readonly southDeg: number;
  /** In [-180, 180). */
  readonly westDeg: number;
  /** Positive; 0 where there is one row. */
  readonly latitudeStepDeg: number;
  /** Positive; 0 where there is one column. */
  readonly longitudeStepDeg: number;
  /** One step east of the last column is the first column again. */
  readonly roundTheEarth: boolean;
  /** u and v along the grid's own x and y rather than east and north; on this grid they are the same. */
  readonly componentsAlongGrid: boolean;
  readonly scan: GribScan;
}

/**
 * A grid that is even in the x and y of a map (grid templates 3.1, 3.10, 3.20, 3.30 and those of edition 1), said from the corner where x
 * and y are least whatever the scan. x and y are as `projection` has them: metres, or degrees for a turned pole.
 */
export interface ProjectedGrid {
  readonly kind: "projected";
  readonly template: number;
  readonly projection: MapProjection;
  readonly rows: number;
  readonly columns: number;
  readonly leastX: number;
  readonly leastY: number;
  /** Positive; 0 where there is one column, or one row. */
  readonly stepX: number;
  readonly stepY: number;
  /** u and v along the grid's own x and y rather than east and north. */
  readonly componentsAlongGrid: boolean;
  readonly scan: GribScan;
}

/** The grids that are read. `template` is that of edition 2, also for the same grid in edition 1. */
export type GribGrid = LatLonGrid | ProjectedGrid;

/**
 * How the values are packed (section 5; in edition 1 the head of section 4). `section` is the section's own bytes, which the packing's
 * file reads again at decoding. `name` tells packings apart.
 */
export interface GribPacking {
  /** Data representation template; null in edition 1. */
  readonly template: number | null;
  readonly name: string;
  readonly valueCount: number;
  readonly section: Uint8Array;
}

/** A stretch of the file. */
export interface GribSpan {
  readonly offsetBytes: number;
  readonly lengthBytes: number;
}

/** Where something stands in the file: messages and fields in a message count from 1. */
export interface GribPlace {
  readonly messageNumber: number;
  readonly fieldNumber: number;
  readonly messageOffsetBytes: number;
}

/** One field: everything but its values. Plain data; it may be sent to a worker. */
export interface GribField extends GribProduct {
  readonly kind: "field";
  readonly editionNumber: 1 | 2;
  readonly place: GribPlace;
  readonly grid: GribGrid;
  readonly packing: GribPacking;
  readonly pointCount: number;
  readonly hasBitmap: boolean;
  /** The bits of section 6, 1 where there is a value; null without a bitmap. May lie in an earlier field of the message. */
  readonly bitmap: GribSpan | null;
  /** The packed values of section 7. */
  readonly data: GribSpan;
}

/** Something in the file that was not read, and why; what stands around it is read all the same. */
export interface GribOddity {
  readonly kind: "oddity";
  readonly issue: Issue;
  readonly place: GribPlace;
  /** What it would have been, where that much could be read. */
  readonly product: GribProduct | null;
}

export type GribItem = GribField | GribOddity;

/** A field's values: row after row from the south, each from west to east. `missing` is 1 where there is none (the value is then 0). */
export interface GribValues {
  readonly values: Float64Array;
  readonly missing: Uint8Array;
}
