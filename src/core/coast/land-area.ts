/**
 * Corners of an area one after another: longitude and latitude in turn, degrees. Closed (the first corner repeated) or not. Each edge is
 * straight in longitude and latitude (as RFC 7946, section 3.1.1, has it) and goes the shorter way round the earth. Either sense of turning.
 */
export type Ring = Float64Array;

/** `land`: dry, from a coastline or the skipper's own. `keptOut`: wet or not, the skipper keeps out of it. */
export type LandKind = "land" | "keptOut";

/** One area that no way leads through: its outer ring first, holes (lakes; ways in) after. `name` is null for the nameless coast. */
export interface LandArea {
  readonly kind: LandKind;
  readonly name: string | null;
  readonly rings: readonly Ring[];
}

/** A part of the earth between two parallels and two meridians, degrees; it reaches from west eastward to east, over 180° where need be. */
export interface GeoBox {
  readonly southDeg: number;
  readonly northDeg: number;
  readonly westDeg: number;
  readonly eastDeg: number;
}
