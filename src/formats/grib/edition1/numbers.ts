import type { Octets } from "../octets.ts";

/** Three octets, unsigned: edition 1's lengths. */
export function u24(octets: Octets, octet: number): number {
  return octets.u8(octet) * 65_536 + octets.u16(octet + 1);
}

/** Three octets, sign and magnitude: edition 1's latitudes and longitudes, in thousandths of a degree. */
export function s24(octets: Octets, octet: number): number {
  const value = u24(octets, octet);
  return value >= 0x80_0000 ? -(value - 0x80_0000) || 0 : value;
}

/**
 * IBM's single-precision number: a sign, a power of sixteen counted from 64, and 24 bits of fraction (Manual on Codes I.2, FM 92 GRIB
 * edition 1, section 4, octets 7 to 10). Every one is exact, and none is infinite, in double precision.
 */
export function ibmFloat(octets: Octets, octet: number): number {
  const first = octets.u8(octet);
  const magnitude = u24(octets, octet + 1) * 16 ** ((first & 0x7f) - 64 - 6);
  return first >= 0x80 && magnitude !== 0 ? -magnitude : magnitude;
}
