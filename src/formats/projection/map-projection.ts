/** The figure of the earth that a grid was laid out on, metres; a sphere has both the same. */
export interface EarthFigure {
  readonly semiMajorMetres: number;
  readonly semiMinorMetres: number;
}

/**
 * How a grid's own x and y stand to places on the earth. x and y are metres on the map, but degrees for a turned pole: x then is the
 * turned longitude and y the turned latitude.
 */
export type MapProjection =
  | {
      readonly kind: "rotatedPole";
      /** Where the turned grid's south pole lies on the earth. */
      readonly southPoleLatitudeDeg: number;
      readonly southPoleLongitudeDeg: number;
      /** The turn about the new pole, degrees; added to the turned longitude as GRIB template 3.1 says. */
      readonly rotationDeg: number;
    }
  | {
      readonly kind: "mercator";
      /** Where lengths on the map are true. */
      readonly trueScaleLatitudeDeg: number;
      readonly originLongitudeDeg: number;
      readonly earth: EarthFigure;
      readonly falseEastingMetres: number;
      readonly falseNorthingMetres: number;
    }
  | {
      readonly kind: "polarStereographic";
      readonly pole: "north" | "south";
      readonly trueScaleLatitudeDeg: number;
      /** The meridian that runs along the map's y. */
      readonly originLongitudeDeg: number;
      readonly earth: EarthFigure;
      readonly falseEastingMetres: number;
      readonly falseNorthingMetres: number;
    }
  | {
      readonly kind: "lambertConformal";
      readonly standardLatitude1Deg: number;
      readonly standardLatitude2Deg: number;
      readonly originLatitudeDeg: number;
      readonly originLongitudeDeg: number;
      readonly earth: EarthFigure;
      readonly falseEastingMetres: number;
      readonly falseNorthingMetres: number;
    };
