import { GRAVITY_MPS2 } from "./hull-speed.ts";

/** The sea from dead ahead for which a boat's loss of speed is stated: 1 m significant at a peak period of 5 s, in deep water. */
export const HEAD_SEA_METRES = 1;
export const HEAD_SEA_SECONDS = 5;
const HEAD_SEA_LENGTH_METRES = (GRAVITY_MPS2 * HEAD_SEA_SECONDS * HEAD_SEA_SECONDS) / (2 * Math.PI);
/** So many waterline lengths make a wave over which the boat begins to ride. */
const RIDES_OVER_LENGTHS = 2;
/** The greatest loss that is believed: she keeps a tenth of her speed. Ours. */
export const MOST_HEAD_SEA_LOSS_SHARE = 0.9;
/** In place of twice the waterline where that isn't known, metres. */
export const RIDES_OVER_METRES = 20;

/** How a boat is slowed by head seas. */
export interface HeadSeaRule {
  /** Share of the speed lost into the stated sea, 0 to below 1. */
  readonly lossShare: number;
  /** The wave length over which she begins to ride, metres. */
  readonly ridesOverMetres: number;
}

/** The rule of a boat that states her loss; null where none is stated. Throws on a share that is not from 0 to below 1. */
export function headSeaRule(lossShare: number, waterlineLengthMetres: number | null): HeadSeaRule | null {
  if (!(lossShare >= 0 && lossShare < 1)) throw new Error(`not a share of the speed lost in head seas: ${lossShare}`);
  if (lossShare === 0) return null;
  return { lossShare, ridesOverMetres: waterlineLengthMetres === null ? RIDES_OVER_METRES : RIDES_OVER_LENGTHS * waterlineLengthMetres };
}

/**
 * The resistance that a sea adds from dead ahead, counted in that of the stated sea: H² / (L² + (2 Lwl)²), L the length at the peak.
 *
 * Ours, fitted: the added resistance of a small hull, integrated over a wind sea's spectrum, goes with the square of the height, and of a sea
 * much longer than the boat with the square of its steepness. From 4 s on it holds to 4 % of two response functions (Jinkine and
 * Ferdinande, 1974; Gerritsma and Beukelman, 1972) for waterlines of 8 to 12 m; of shorter seas it says up to 1.5 times too much.
 *
 * @example
 * addedBySea({ lossShare: 0.2, ridesOverMetres: 20 }, 1, 39.02) // => 1.0000
 * addedBySea({ lossShare: 0.2, ridesOverMetres: 20 }, 1, 156.1) // => 0.0776
 */
export function addedBySea({ ridesOverMetres }: HeadSeaRule, heightMetres: number, lengthMetres: number): number {
  const rides = ridesOverMetres * ridesOverMetres;
  return (
    ((heightMetres / HEAD_SEA_METRES) ** 2 * (HEAD_SEA_LENGTH_METRES * HEAD_SEA_LENGTH_METRES + rides)) /
    (lengthMetres * lengthMetres + rides)
  );
}

/**
 * The share of her speed that is left in seas that together add `added` times the stated one's resistance, each by the cosine of how far off
 * the bow it comes: 1 / (1 + added q / (1 − q)), with q the stated loss. Ours: at a fixed power and a drag that grows with the speed a boat
 * loses less and less to more of the same; within 0.03 of such sums for waterlines of 8 to 12 m.
 *
 * @example
 * speedLeftInSea({ lossShare: 0.2, ridesOverMetres: 20 }, 1) // => 0.8
 * speedLeftInSea({ lossShare: 0.2, ridesOverMetres: 20 }, 4) // => 0.5
 */
export function speedLeftInSea({ lossShare }: HeadSeaRule, added: number): number {
  return 1 / (1 + (added * lossShare) / (1 - lossShare));
}
