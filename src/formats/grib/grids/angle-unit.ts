import type { Octets } from "../octets.ts";

/** How the grid counts angles. */
export interface Angle {
  readonly deg: (units: number) => number;
  /** 360 degrees in units. */
  readonly turn: number;
}

/** The unit is the basic angle over its subdivisions, or a millionth of a degree where they are left out (template 3.0, note 1). */
export function angleIn(octets: Octets): Angle {
  const basic = octets.u32OrMissing(39) || 1;
  const subdivisions = octets.u32OrMissing(43) || 1_000_000;
  return { deg: (units) => (units * basic) / subdivisions, turn: (360 * subdivisions) / basic };
}
