/**
 * The only conversions. Exact by definition: the international nautical mile is 1852 m (First International Extraordinary
 * Hydrographic Conference, Monaco, 1929), the foot 0.3048 m (1959), the US gallon 231 cubic inches, the imperial gallon 4.54609 L.
 */
export const METRES_PER_NM = 1852;
export const METRES_PER_FOOT = 0.3048;
export const METRES_PER_INCH = 0.0254;
/** A tenth of a nautical mile (common practice; an older cable of 720 feet is not meant). */
export const METRES_PER_CABLE = METRES_PER_NM / 10;
export const METRES_PER_STATUTE_MILE = 1609.344;
export const METRES_PER_FATHOM = 1.8288;
export const SECONDS_PER_HOUR = 3600;
export const MPS_PER_KNOT = METRES_PER_NM / SECONDS_PER_HOUR;
export const MPS_PER_KMH = 1000 / SECONDS_PER_HOUR;
export const MPS_PER_MPH = 0.44704;
export const LITRES_PER_US_GALLON = 3.785411784;
export const LITRES_PER_IMPERIAL_GALLON = 4.54609;

/** Knots to metres a second. `mpsFromKnots(1)` is 0.5144… */
export const mpsFromKnots = (knots: number): number => knots * MPS_PER_KNOT;
/** Metres a second to knots. */
export const knotsFromMps = (mps: number): number => mps / MPS_PER_KNOT;
/** Nautical miles to metres. */
export const metresFromNm = (nm: number): number => nm * METRES_PER_NM;
/** Metres to nautical miles. */
export const nmFromMetres = (metres: number): number => metres / METRES_PER_NM;
/** Feet to metres. */
export const metresFromFeet = (feet: number): number => feet * METRES_PER_FOOT;
