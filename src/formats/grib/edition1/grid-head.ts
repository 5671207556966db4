import type { EarthFigure } from "../../projection/index.ts";
import type { GribScan } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import { s24 } from "./numbers.ts";

/** How many octets of section 2 each data representation type takes. */
export const LEAST_OCTETS: Readonly<Record<number, number>> = { 0: 32, 1: 42, 3: 42, 5: 32, 10: 42 };

/** Angles are in thousandths of a degree. */
export const MILLIDEGREES = { deg: (units: number): number => units / 1000, turn: 360_000 };

export function degreesAt(octets: Octets, octet: number): number {
  return MILLIDEGREES.deg(s24(octets, octet));
}

/** Octet 17 (flag table 7): steps are given; the earth is an ellipsoid; u and v are along the grid. */
const STEPS_GIVEN = 0x80;
const ELLIPSOID = 0x40;
const ALONG_GRID = 0x08;

export function alongGrid(octets: Octets): boolean {
  return (octets.u8(17) & ALONG_GRID) !== 0;
}

/** The two figures of the earth that edition 1 knows: a sphere, and the International Astronomical Union's of 1965. */
export function earthIn(octets: Octets): EarthFigure {
  if ((octets.u8(17) & ELLIPSOID) === 0) return { semiMajorMetres: 6_367_470, semiMinorMetres: 6_367_470 };
  return { semiMajorMetres: 6_378_160, semiMinorMetres: 6_356_775 };
}

/** A grid of latitudes and longitudes (also about a turned pole) as its corners give it. */
export interface Corners {
  readonly firstLatitudeDeg: number;
  readonly lastLatitudeDeg: number;
  /** Thousandths of a degree. */
  readonly west: number;
  readonly east: number;
  /** Null where it isn't given, or where the corners say it better. */
  readonly latitudeStepDeg: number | null;
  readonly longitudeStepDeg: number | null;
  readonly componentsAlongGrid: boolean;
}

/** Octets 11 to 27. */
export function cornersIn(octets: Octets, scan: GribScan): Corners {
  const [first, last] = [s24(octets, 14), s24(octets, 21)];
  const [west, east] = scan.iNegative ? [last, first] : [first, last];
  const [firstLatitude, lastLatitude] = [s24(octets, 11), s24(octets, 18)];
  const turn = MILLIDEGREES.turn;
  const apart = (((east - west) % turn) + turn) % turn;
  return {
    firstLatitudeDeg: MILLIDEGREES.deg(firstLatitude),
    lastLatitudeDeg: MILLIDEGREES.deg(lastLatitude),
    west,
    east,
    latitudeStepDeg: stepDeg(octets, 26, scan.nj, Math.abs(lastLatitude - firstLatitude)),
    longitudeStepDeg: stepDeg(octets, 24, scan.ni, apart === 0 ? turn : apart),
    componentsAlongGrid: alongGrid(octets),
  };
}

/**
 * A step of the grid. A twelfth of a degree is no whole number of thousandths: over hundreds of columns the rounded step leads astray, and
 * where it is no more than the rounding that parts it from the corners, they are taken alone.
 */
function stepDeg(octets: Octets, octet: number, count: number, span: number): number | null {
  const step = octets.u16(octet);
  if ((octets.u8(17) & STEPS_GIVEN) === 0 || step === 0 || step === 0xffff) return null;
  return Math.abs(step * (count - 1) - span) <= 0.5 * (count - 1) + 1 ? null : MILLIDEGREES.deg(step);
}
