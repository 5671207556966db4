import type { GribSurface } from "../grib-field.ts";
import type { ParameterLine } from "./parameter-line.ts";

const metres = (value: number): GribSurface => ({ type: 103, value });
const SEA_LEVEL: GribSurface = { type: 101, value: null };
const HOUR = 3600;

/** Table 128, the atmosphere. Rain, snow and cloud are left out: theirs are other units than edition 2's. */
const ATMOSPHERE: Readonly<Record<number, ParameterLine>> = {
  31: { is: [10, 2, 0] },
  34: { is: [10, 3, 0] },
  49: { is: [0, 2, 22], at: metres(10), greatestOf: null },
  59: { is: [0, 7, 6] },
  121: { is: [0, 0, 0], at: metres(2), greatestOf: 6 * HOUR },
  122: { is: [0, 0, 0], at: metres(2), leastOf: 6 * HOUR },
  123: { is: [0, 2, 22], at: metres(10), greatestOf: 6 * HOUR },
  129: { is: [0, 3, 4] },
  130: { is: [0, 0, 0] },
  131: { is: [0, 2, 2] },
  132: { is: [0, 2, 3] },
  133: { is: [0, 1, 0] },
  134: { is: [0, 3, 0] },
  135: { is: [0, 2, 8] },
  138: { is: [0, 2, 12] },
  151: { is: [0, 3, 1], at: SEA_LEVEL },
  155: { is: [0, 2, 13] },
  156: { is: [0, 3, 5] },
  157: { is: [0, 1, 1] },
  165: { is: [0, 2, 2], at: metres(10) },
  166: { is: [0, 2, 3], at: metres(10) },
  167: { is: [0, 0, 0], at: metres(2) },
  168: { is: [0, 0, 6], at: metres(2) },
  172: { is: [2, 0, 0] },
  201: { is: [0, 0, 0], at: metres(2), greatestOf: null },
  202: { is: [0, 0, 0], at: metres(2), leastOf: null },
  207: { is: [0, 2, 1], at: metres(10) },
};

/** Table 140, waves: the first to third swell, the parts and the whole, and the wind over them. */
const WAVES: Readonly<Record<number, ParameterLine>> = {
  121: { is: [10, 0, 47] },
  122: { is: [10, 0, 53] },
  123: { is: [10, 0, 50] },
  124: { is: [10, 0, 48] },
  125: { is: [10, 0, 54] },
  126: { is: [10, 0, 51] },
  127: { is: [10, 0, 49] },
  128: { is: [10, 0, 55] },
  129: { is: [10, 0, 52] },
  215: { is: [10, 0, 21] },
  216: { is: [10, 0, 22] },
  217: { is: [10, 0, 23] },
  218: { is: [10, 0, 24] },
  220: { is: [10, 0, 25] },
  221: { is: [10, 0, 28] },
  223: { is: [10, 0, 26] },
  224: { is: [10, 0, 29] },
  226: { is: [10, 0, 27] },
  227: { is: [10, 0, 30] },
  229: { is: [10, 0, 3] },
  230: { is: [10, 0, 14] },
  231: { is: [10, 0, 34] },
  232: { is: [10, 0, 15] },
  234: { is: [10, 0, 5] },
  235: { is: [10, 0, 4] },
  236: { is: [10, 0, 6] },
  237: { is: [10, 0, 8] },
  238: { is: [10, 0, 7] },
  239: { is: [10, 0, 9] },
  245: { is: [0, 2, 1], at: metres(10) },
  249: { is: [0, 2, 0], at: metres(10) },
};

/** Table 151, the ocean. */
const OCEAN: Readonly<Record<number, ParameterLine>> = { 131: { is: [10, 1, 2] }, 132: { is: [10, 1, 3] } };

/** Table 228, more of the atmosphere. */
const MORE_ATMOSPHERE: Readonly<Record<number, ParameterLine>> = {
  1: { is: [0, 7, 7] },
  26: { is: [0, 0, 0], at: metres(2), greatestOf: 3 * HOUR },
  27: { is: [0, 0, 0], at: metres(2), leastOf: 3 * HOUR },
  28: { is: [0, 2, 22], at: metres(10), greatestOf: 3 * HOUR },
  29: { is: [0, 2, 22], at: metres(10) },
  246: { is: [0, 2, 2], at: metres(100) },
  247: { is: [0, 2, 3], at: metres(100) },
};

/** ECMWF's own parameter tables, by the table's version, then by the parameter. */
export const ECMWF_PARAMETERS: Readonly<Record<number, Readonly<Record<number, ParameterLine>>>> = {
  128: ATMOSPHERE,
  140: WAVES,
  151: OCEAN,
  228: MORE_ATMOSPHERE,
};
