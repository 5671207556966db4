import { degFromRad, radFromDeg } from "../../units/index.ts";
import type { LunarOrbit } from "./lunar-orbit.ts";

/** The constituents whose formula for f and u others share. */
export type NodeKind = "Mm" | "Mf" | "O1" | "K1" | "J1" | "OO1" | "M1" | "M2" | "M3" | "K2" | "L2" | "KJ2";

/** f, by which an amplitude is multiplied, and u, degrees, by which an argument runs ahead. */
export interface NodeFactor {
  readonly f: number;
  readonly uDeg: number;
}

/**
 * Node factors of the formulas of SP 98, for an orbit and the longitude of the moon's perigee in degrees. Equation numbers are
 * Schureman's; his mean values are the divisors.
 */
export function nodeFactors(orbit: LunarOrbit, moonPerigeeDeg: number): Readonly<Record<NodeKind, NodeFactor>> {
  const { xiDeg, nuDeg, nuPrimeDeg, nuSecondDeg } = orbit;
  const I = radFromDeg(orbit.inclinationDeg);
  const ν = radFromDeg(nuDeg);
  const P = radFromDeg(moonPerigeeDeg - xiDeg);
  const sinI = Math.sin(I);
  const cosHalf = Math.cos(I / 2);
  const tanHalf = Math.tan(I / 2);
  const sin2I = Math.sin(2 * I);
  const f = {
    Mm: (2 / 3 - sinI ** 2) / 0.5021, // 73
    Mf: sinI ** 2 / 0.1578, // 74
    O1: (sinI * cosHalf ** 2) / 0.38, // 75
    J1: sin2I / 0.7214, // 76
    OO1: (sinI * Math.sin(I / 2) ** 2) / 0.0164, // 77
    M2: cosHalf ** 4 / 0.9154, // 78
    KJ2: sinI ** 2 / 0.1565, // 79
    M3: cosHalf ** 6 / 0.8758, // 149
    K1: Math.sqrt(0.8965 * sin2I ** 2 + 0.6001 * sin2I * Math.cos(ν) + 0.1006), // 227
    K2: Math.sqrt(19.0444 * sinI ** 4 + 2.7702 * sinI ** 2 * Math.cos(2 * ν) + 0.0981), // 235
  };
  const uOfM2Deg = 2 * xiDeg - 2 * nuDeg;
  const uOfO1Deg = 2 * xiDeg - nuDeg;
  // M1 is two waves as one, with P between them (paragraphs 116 to 121); Q runs on with P, in its quadrant.
  const overQa = Math.sqrt(2.31 + 1.435 * Math.cos(2 * P));
  const qDeg = degFromRad(Math.atan2(0.483 * Math.sin(P), Math.cos(P)));
  // L2 likewise: R by equation 214, 1/Ra by 213.
  const overRa = Math.sqrt(1 - 12 * tanHalf ** 2 * Math.cos(2 * P) + 36 * tanHalf ** 4);
  const rDeg = degFromRad(Math.atan2(Math.sin(2 * P), 1 / (6 * tanHalf ** 2) - Math.cos(2 * P)));
  return {
    Mm: { f: f.Mm, uDeg: 0 },
    Mf: { f: f.Mf, uDeg: -2 * xiDeg },
    O1: { f: f.O1, uDeg: uOfO1Deg },
    K1: { f: f.K1, uDeg: -nuPrimeDeg },
    J1: { f: f.J1, uDeg: -nuDeg },
    OO1: { f: f.OO1, uDeg: -2 * xiDeg - nuDeg },
    M1: { f: f.O1 * overQa, uDeg: xiDeg - nuDeg + qDeg },
    M2: { f: f.M2, uDeg: uOfM2Deg },
    M3: { f: f.M3, uDeg: 1.5 * uOfM2Deg },
    K2: { f: f.K2, uDeg: -2 * nuSecondDeg },
    L2: { f: f.M2 * overRa, uDeg: uOfM2Deg - rDeg },
    KJ2: { f: f.KJ2, uDeg: -2 * nuDeg },
  };
}
