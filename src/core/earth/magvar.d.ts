declare module "magvar" {
  /** The main field at a decimal year and a geodetic position, degrees; height in kilometres. Angles to 0.01°, intensities to 0.1 nT. */
  export function calculateMagneticField(
    decimalYear: number,
    latitude: number,
    longitude: number,
    altitude?: number,
  ): {
    readonly declination: number;
    readonly inclination: number;
    readonly x: number;
    readonly y: number;
    readonly z: number;
    readonly h: number;
    readonly f: number;
    readonly decimalYear: number;
  };
  export const MODEL_EPOCH: number;
  export const MODEL_VALID_UNTIL: number;
}
