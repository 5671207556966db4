import type { NodeKind } from "./node-factors.ts";

/** The multiples of τ (lunar time, from midnight), s, h, p, N′ and p₁ in a constituent's argument: Doodson's numbers without his fives. */
export type DoodsonNumbers = readonly [number, number, number, number, number, number];

/** An astronomical constituent: its name, Doodson's numbers, the quarter turns added, and whose f and u it has, null for none (the sun's). */
export type AstronomicalRow = readonly [string, DoodsonNumbers, number, NodeKind | null];

/**
 * The astronomical constituents: arguments and factors of SP 98, table 2, to which are added, from the International Hydrographic
 * Organization's list of tidal constituents, those that published constants hold beyond it (marked IHO; their f and u are those of the
 * tide they are a satellite of, or none where that isn't known). M1's argument is without p, which its u brings in; its mean speed with
 * it is 14.4966939° an hour.
 */
export const astronomicalRows: readonly AstronomicalRow[] = [
  ["SA", [0, 0, 1, 0, 0, 0], 0, null],
  // The same with the sun's perigee (IHO), as some countries publish it.
  ["SA-P1", [0, 0, 1, 0, 0, -1], 0, null],
  ["SSA", [0, 0, 2, 0, 0, 0], 0, null],
  ["STA", [0, 0, 3, 0, 0, -1], 0, null], // IHO
  ["MSM", [0, 1, -2, 1, 0, 0], 0, "Mm"],
  ["MM", [0, 1, 0, -1, 0, 0], 0, "Mm"],
  ["MF", [0, 2, 0, 0, 0, 0], 0, "Mf"],
  ["MTM", [0, 3, 0, -1, 0, 0], 0, "Mf"],
  ["MSQM", [0, 4, -2, 0, 0, 0], 0, "Mf"], // IHO
  ["ALP1", [1, -4, 2, 1, 0, 0], -1, "O1"], // IHO
  ["2Q1", [1, -3, 0, 2, 0, 0], -1, "O1"],
  ["SIG1", [1, -3, 2, 0, 0, 0], -1, "O1"],
  ["Q1", [1, -2, 0, 1, 0, 0], -1, "O1"],
  ["RHO1", [1, -2, 2, -1, 0, 0], -1, "O1"],
  ["O1", [1, -1, 0, 0, 0, 0], -1, "O1"],
  ["MP1", [1, -1, 2, 0, 0, 0], 1, "J1"],
  ["TAU1", [1, -1, 2, 0, 0, 0], 1, null], // IHO
  ["BET1", [1, 0, -2, 1, 0, 0], 1, "O1"], // IHO
  ["M1", [1, 0, 0, 0, 0, 0], 1, "M1"],
  ["CHI1", [1, 0, 2, -1, 0, 0], 1, "J1"],
  ["PI1", [1, 1, -3, 0, 0, 1], -1, null],
  ["P1", [1, 1, -2, 0, 0, 0], -1, null],
  ["S1", [1, 1, -1, 0, 0, 0], 2, null],
  ["S1-P1", [1, 1, -1, 0, 0, 1], 1, null], // IHO
  ["K1", [1, 1, 0, 0, 0, 0], 1, "K1"],
  ["PSI1", [1, 1, 1, 0, 0, -1], 1, null],
  ["PHI1", [1, 1, 2, 0, 0, 0], 1, null],
  ["THE1", [1, 2, -2, 1, 0, 0], 1, "J1"],
  ["J1", [1, 2, 0, -1, 0, 0], 1, "J1"],
  ["SO1", [1, 3, -2, 0, 0, 0], 1, "J1"],
  ["OO1", [1, 3, 0, 0, 0, 0], 1, "OO1"],
  ["KQ1", [1, 4, 0, -1, 0, 0], 1, "OO1"],
  ["3N2", [2, -3, 0, 3, 0, 0], 0, "M2"], // IHO
  ["EPS2", [2, -3, 2, 1, 0, 0], 0, "M2"], // IHO
  ["2N2", [2, -2, 0, 2, 0, 0], 0, "M2"],
  ["MU2", [2, -2, 2, 0, 0, 0], 0, "M2"],
  ["N2", [2, -1, 0, 1, 0, 0], 0, "M2"],
  ["NU2", [2, -1, 2, -1, 0, 0], 0, "M2"],
  ["GAM2", [2, 0, -2, 2, 0, 0], 2, "M2"], // IHO
  ["H1", [2, 0, -1, 0, 0, 1], 2, "M2"], // IHO
  ["MA2", [2, 0, -1, 0, 0, 0], 0, "M2"], // IHO
  ["M2", [2, 0, 0, 0, 0, 0], 0, "M2"],
  ["MB2", [2, 0, 1, 0, 0, 0], 0, "M2"], // IHO
  ["H2", [2, 0, 1, 0, 0, -1], 0, "M2"], // IHO
  ["LDA2", [2, 1, -2, 1, 0, 0], 2, "M2"],
  ["L2", [2, 1, 0, -1, 0, 0], 2, "L2"],
  // The moon's third degree beside L2 (IHO).
  ["3L2", [2, 1, 0, 0, 0, 0], -1, "M2"],
  ["T2", [2, 2, -3, 0, 0, 1], 0, null],
  ["S2", [2, 2, -2, 0, 0, 0], 0, null],
  ["R2", [2, 2, -1, 0, 0, -1], 2, null],
  ["K2", [2, 2, 0, 0, 0, 0], 0, "K2"],
  ["KJ2", [2, 3, 0, -1, 0, 0], 0, "KJ2"],
  ["M3", [3, 0, 0, 0, 0, 0], 2, "M3"],
  // The sun's third degree, and its neighbour.
  ["T3", [3, 3, -4, 0, 0, 0], 2, null],
  ["S3", [3, 3, -3, 0, 0, 0], 2, null],
];
