import type { NightAtAnchor } from "./night-at-anchor.ts";

/** Seas nearer to each other than this are alike at anchor, metres. Ours. */
export const SEAS_ALIKE_METRES = 0.1;
/** Ways to the inlet nearer to each other than this are alike, seconds. Ours. */
export const WAYS_ALIKE_SECONDS = 300;

/** What puts one anchorage before another. */
export type Before =
  /** The other is untenable, or not known to hold. */
  | { readonly by: "verdict" }
  | { readonly by: "sea"; readonly metres: number; readonly otherMetres: number }
  /** What stands outside and may come in as swell; 0: none can. */
  | { readonly by: "swell"; readonly metres: number; readonly otherMetres: number }
  | { readonly by: "way"; readonly seconds: number; readonly otherSeconds: number }
  | { readonly by: "nothing" };

/** A night's anchorages, the best first. */
export interface NightsCompared {
  readonly ranked: readonly NightAtAnchor[];
  /** Whether the first holds: else there is none to name. */
  readonly winner: NightAtAnchor | null;
  /** What puts the first before the second; null where there is but one, or no winner. */
  readonly why: Before | null;
}

const VERDICTS = ["holds", "notJudged", "untenable"];

/**
 * Puts anchorages in order: those that hold first, then the lower sea at its worst, then the one no swell can come into, then the
 * shorter way. What is alike stands as the skipper lists it. `secondsOf`: of the way to the inlet; null where it isn't known.
 */
export function compareNights(nights: readonly NightAtAnchor[], secondsOf: (night: NightAtAnchor) => number | null): NightsCompared {
  const ranked: NightAtAnchor[] = [];
  for (const night of nights) {
    // Put in before the first that it beats: being alike is not transitive, so that no sort serves.
    const place = ranked.findIndex((other) => stands(night, other, secondsOf) < 0);
    ranked.splice(place < 0 ? ranked.length : place, 0, night);
  }
  const [first, second] = ranked;
  const winner = first?.verdict === "holds" ? first : null;
  return { ranked, winner, why: winner === null || second === undefined ? null : beforeWhy(winner, second, secondsOf) };
}

/** Below 0: the first stands before the other. */
function stands(one: NightAtAnchor, other: NightAtAnchor, secondsOf: (night: NightAtAnchor) => number | null): number {
  const verdict = VERDICTS.indexOf(one.verdict) - VERDICTS.indexOf(other.verdict);
  if (verdict !== 0) return verdict;
  const sea = apart(seaOf(one), seaOf(other), SEAS_ALIKE_METRES);
  if (sea !== 0) return sea;
  const swell = apart(one.worst.outside?.metres ?? 0, other.worst.outside?.metres ?? 0, SEAS_ALIKE_METRES);
  return swell !== 0 ? swell : apart(secondsOf(one), secondsOf(other), WAYS_ALIKE_SECONDS);
}

function beforeWhy(first: NightAtAnchor, second: NightAtAnchor, secondsOf: (night: NightAtAnchor) => number | null): Before {
  if (second.verdict !== "holds") return { by: "verdict" };
  const [sea, otherSea] = [seaOf(first), seaOf(second)];
  if (sea !== null && otherSea !== null && apart(sea, otherSea, SEAS_ALIKE_METRES) < 0)
    return { by: "sea", metres: sea, otherMetres: otherSea };
  const [swell, otherSwell] = [first.worst.outside?.metres ?? 0, second.worst.outside?.metres ?? 0];
  if (apart(swell, otherSwell, SEAS_ALIKE_METRES) < 0) return { by: "swell", metres: swell, otherMetres: otherSwell };
  const [seconds, otherSeconds] = [secondsOf(first), secondsOf(second)];
  if (seconds !== null && otherSeconds !== null && apart(seconds, otherSeconds, WAYS_ALIKE_SECONDS) < 0)
    return { by: "way", seconds, otherSeconds };
  return { by: "nothing" };
}

function seaOf({ worst }: NightAtAnchor): number | null {
  const sea = worst.sea?.sea;
  return sea === undefined || sea.kind === "unknown" ? null : sea.heightMetres;
}

/** 0 where two figures are alike or one is not known. */
function apart(one: number | null, other: number | null, alike: number): number {
  if (one === null || other === null || Math.abs(one - other) <= alike) return 0;
  return one - other;
}
