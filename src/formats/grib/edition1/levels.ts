import type { GribSurface } from "../grib-field.ts";
import type { Octets } from "../octets.ts";

/** One level, or a layer's two sides. */
export interface Edition1Level {
  readonly level: GribSurface;
  readonly secondLevel: GribSurface | null;
}

/** What a code of edition 1's table 3 is in edition 2's table 4.5, and how its number becomes one in that table's unit. */
interface Kind {
  readonly type: number;
  readonly value: (number: number) => number;
}

/** No number belongs to these: surfaces of ground, water, clouds, the freezing level, mean sea level, the whole atmosphere. */
const WITHOUT_NUMBER: Readonly<Record<number, number>> = {
  1: 1,
  2: 2,
  3: 3,
  4: 4,
  5: 5,
  6: 6,
  7: 7,
  8: 8,
  9: 9,
  102: 101,
  200: 10,
};

const ISOBARIC = 100;
const ALTITUDE = 102;
const HEIGHT = 103;
const SIGMA = 104;
const HYBRID = 105;
const DEPTH_IN_LAND = 106;
const POTENTIAL_TEMPERATURE = 107;
const BELOW_GROUND_PRESSURE = 108;
const ETA = 111;
const DEPTH_IN_SEA = 160;

const times =
  (factor: number) =>
  (number: number): number =>
    number * factor;
/** Division keeps 0.1 what it is; multiplying by a hundredth doesn't. */
const over =
  (divisor: number) =>
  (number: number): number =>
    number / divisor;

/** Octets 11 and 12 are one number. Pressures in hPa, heights in metres, depths in land in cm. */
const ONE_NUMBER: Readonly<Record<number, Kind>> = {
  20: { type: 20, value: over(100) },
  100: { type: ISOBARIC, value: times(100) },
  103: { type: ALTITUDE, value: times(1) },
  105: { type: HEIGHT, value: times(1) },
  107: { type: SIGMA, value: over(10_000) },
  109: { type: HYBRID, value: times(1) },
  111: { type: DEPTH_IN_LAND, value: over(100) },
  113: { type: POTENTIAL_TEMPERATURE, value: times(1) },
  115: { type: BELOW_GROUND_PRESSURE, value: times(100) },
  119: { type: ETA, value: over(10_000) },
  125: { type: HEIGHT, value: over(100) },
  160: { type: DEPTH_IN_SEA, value: times(1) },
};

/** Codes of a centre's own, by the centre: ECMWF's pressure in Pa; NCEP's ordered sequence, by which it numbers swells. */
const OF_CENTRE: Readonly<Record<number, Readonly<Record<number, Kind>>>> = {
  98: { 210: { type: ISOBARIC, value: times(1) } },
  7: { 241: { type: 241, value: times(1) } },
};

/** Octet 11 is a layer's top, octet 12 its bottom. Pressures in kPa, or in hPa below 1100 hPa; heights in hundreds of metres. */
const LAYERS: Readonly<Record<number, readonly [top: Kind, bottom: Kind]>> = {
  101: both({ type: ISOBARIC, value: times(1000) }),
  104: both({ type: ALTITUDE, value: times(100) }),
  106: both({ type: HEIGHT, value: times(100) }),
  108: both({ type: SIGMA, value: over(100) }),
  110: both({ type: HYBRID, value: times(1) }),
  112: both({ type: DEPTH_IN_LAND, value: over(100) }),
  114: both({ type: POTENTIAL_TEMPERATURE, value: (number) => 475 - number }),
  116: both({ type: BELOW_GROUND_PRESSURE, value: times(100) }),
  120: both({ type: ETA, value: over(100) }),
  121: both({ type: ISOBARIC, value: (number) => (1100 - number) * 100 }),
  128: both({ type: SIGMA, value: (number) => (1100 - number) / 1000 }),
  141: [
    { type: ISOBARIC, value: times(1000) },
    { type: ISOBARIC, value: (number) => (1100 - number) * 100 },
  ],
};

function both(kind: Kind): readonly [Kind, Kind] {
  return [kind, kind];
}

/**
 * Section 1's level (octets 10 to 12, the centre in 5; Manual on Codes I.2, FM 92 GRIB edition 1, code table 3) as surfaces of edition 2's table 4.5, in
 * its units. Codes that table 4.5 has nothing for, and a centre's own, give type 255, which is no level at all.
 */
export function edition1Level(octets: Octets): Edition1Level {
  const code = octets.u8(10);
  const plain = WITHOUT_NUMBER[code];
  if (plain !== undefined) return { level: { type: plain, value: null }, secondLevel: null };
  const one = ONE_NUMBER[code] ?? OF_CENTRE[octets.u8(5)]?.[code];
  if (one !== undefined) return { level: surface(one, octets.u16(11), 0xffff), secondLevel: null };
  const layer = LAYERS[code];
  if (layer !== undefined) {
    return { level: surface(layer[0], octets.u8(11), 0xff), secondLevel: surface(layer[1], octets.u8(12), 0xff) };
  }
  return { level: { type: 255, value: null }, secondLevel: null };
}

function surface(kind: Kind, number: number, missing: number): GribSurface {
  return { type: kind.type, value: number === missing ? null : kind.value(number) };
}
