import { type EpochSeconds, epochSeconds } from "../../units/index.ts";
import type { TideTurn } from "./highs-and-lows.ts";

/**
 * The greatest difference of the rule of twelfths, run straight between the sixths, from the cosine rule, as a share of the range: told
 * wherever twelfths are used. On the sixths themselves it is 0.0163.
 */
export const TWELFTHS_GREATEST_ERROR_SHARE = 0.0256;

/** What has risen or fallen after each sixth of the time: 1, 2, 3, 3, 2, 1 twelfths of the range. */
const TWELFTHS = [0, 1, 3, 6, 9, 11, 12];

/**
 * Height at an instant between two turns by the cosine rule: from one to the other as half a cosine (Canadian Tide and Current Tables,
 * tables 5 and 5A; Bowditch, American Practical Navigator, "Height of tide at any time"). Good where the rise and fall are even;
 * a double tide or a stand is not. Throws outside the two.
 */
export function heightByCosine(before: TideTurn, after: TideTurn, at: EpochSeconds): number {
  return before.heightMetres + (after.heightMetres - before.heightMetres) * cosineShare(shareOf(before, after, at));
}

/**
 * Height by the rule of twelfths: a fallback for working by hand, straight between the sixths. It differs from the cosine rule by up to
 * `TWELFTHS_GREATEST_ERROR_SHARE` of the range, and shares its faults. Throws outside the two turns.
 */
export function heightByTwelfths(
  before: TideTurn,
  after: TideTurn,
  at: EpochSeconds,
): { readonly heightMetres: number; readonly errorMetres: number } {
  const range = after.heightMetres - before.heightMetres;
  return {
    heightMetres: before.heightMetres + range * twelfthsShare(shareOf(before, after, at)),
    errorMetres: Math.abs(range) * TWELFTHS_GREATEST_ERROR_SHARE,
  };
}

/** When the water between two turns stands at a height, by the cosine rule; null where it doesn't come to it. */
export function timeByCosine(before: TideTurn, after: TideTurn, heightMetres: number): EpochSeconds | null {
  const share = (heightMetres - before.heightMetres) / (after.heightMetres - before.heightMetres);
  if (!(share >= 0 && share <= 1)) return null;
  return epochSeconds(before.at + ((after.at - before.at) * Math.acos(1 - 2 * share)) / Math.PI);
}

/** The share of the range gone after a share of the time, by the cosine rule. */
export const cosineShare = (timeShare: number): number => (1 - Math.cos(Math.PI * timeShare)) / 2;

/** The same by the rule of twelfths. */
export function twelfthsShare(timeShare: number): number {
  const sixth = Math.min(5, Math.floor(timeShare * 6));
  const [low, high] = [TWELFTHS[sixth] as number, TWELFTHS[sixth + 1] as number];
  return (low + (high - low) * (timeShare * 6 - sixth)) / 12;
}

function shareOf(before: TideTurn, after: TideTurn, at: EpochSeconds): number {
  const share = (at - before.at) / (after.at - before.at);
  if (!(share >= 0 && share <= 1)) throw new Error(`${at} is not between the turns at ${before.at} and ${after.at}`);
  return share;
}
