/** One measured or certified point of the boat's speed under sail. */
export interface SailPoint {
  /** Between the heading and where the wind over the water comes from, 0 to 180 degrees, either side. */
  readonly trueWindAngleDeg: number;
  readonly trueWindMps: number;
  readonly speedMps: number;
}

export interface PowerSpec {
  /** Speed through the water at the cruising setting, m/s; null: estimate it from the waterline and say so. */
  readonly speedMps: number | null;
  readonly burnLitresPerHour: number | null;
  /** Speed at which the burn was measured, m/s; the cube law scales it to `speedMps`. null: at `speedMps`. */
  readonly burnMeasuredAtMps: number | null;
  readonly usableFuelLitres: number | null;
  /** Of the usable fuel, the share that is not to be burnt, 0 to 1; left out: by thirds (`RESERVE_BY_THIRDS`). */
  readonly reserveShare?: number;
  /** Share of the speed lost into 20 kn of wind dead ahead, 0 to 1. */
  readonly headwindLossShare: number;
}

export interface SailSpec {
  readonly points: readonly SailPoint[];
  /** Leeway coefficient K of `K·sin(heel)/V²` or a plain rule; null: no leeway is reckoned, and that is said. */
  readonly leewayCoefficient: number | null;
  readonly leewayCapDeg: number;
}

/** What she anchors with: chain at the anchor, rope above it; either may be 0. */
export interface GroundTackle {
  readonly chainMetres: number;
  /** Of the wire; 0 without chain. */
  readonly chainDiameterMetres: number;
  readonly ropeMetres: number;
}

/** The boat as the core needs it. What is null was not given; nothing is guessed in silence. */
export interface BoatSpec {
  readonly name: string;
  readonly lengthOverallMetres: number | null;
  readonly waterlineLengthMetres: number | null;
  readonly draughtMetres: number | null;
  readonly airDraughtMetres: number | null;
  /** At anchor: her beam, the bow roller over the water, and what she anchors with; left out or null: not stated. */
  readonly beamMetres?: number | null;
  readonly bowHeightMetres?: number | null;
  readonly groundTackle?: GroundTackle | null;
  /** Share of the speed lost into a sea of 1 m at 5 s from dead ahead, 0 to below 1; left out or 0: none is reckoned. */
  readonly headSeaLossShare?: number;
  readonly goes: "power" | "sail" | "motor-sail";
  readonly power: PowerSpec | null;
  readonly sail: SailSpec | null;
  /** Under `sail`: the engine goes on below `onBelowMps` and off above `offAboveMps` (speed under sail); null: never. */
  readonly engineRule: { readonly onBelowMps: number; readonly offAboveMps: number } | null;
  readonly motorSail: {
    readonly exponent: number;
    readonly headsailOnlyBeyondDeg: number;
    readonly hullSpeedMps: number | null;
  };
  readonly compass: {
    /** East positive; null: from the magnetic model. */
    readonly variationDeg: number | null;
    /** By magnetic heading, east positive, ascending headings; empty: none known, compass = magnetic. */
    readonly deviationCard: readonly { readonly headingDegMag: number; readonly deviationDeg: number }[];
  };
}
