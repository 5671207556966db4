import type { GroundTackle } from "../../boat/index.ts";
import { chainKgPerMetre, chainNewtonsPerMetre } from "./chain.ts";
import { GREATEST_LEAD_DEG, type RodePull, rodeForLevelPull, rodePull } from "./rode-pull.ts";
import { SCOPE_OF_CHAIN, SCOPE_WITH_ROPE } from "./scope.ts";
import type { BoatAtAnchor, StatedAnchorage } from "./stated-anchorage.ts";
import { swingRadiusMetres } from "./swinging-circle.ts";
import { type LoadRow, loadRow, windLoadNewtons } from "./wind-load.ts";

/** How nearly a length of rode is found, metres. */
const FOUND_TO_METRES = 0.05;

/** The pull of the strongest gust on the rode, at high water, when it leads steepest. */
export interface PullAtAnchor {
  readonly gustMps: number;
  readonly row: LoadRow;
  readonly loadNewtons: number;
  readonly pull: RodePull;
  /** Rode that would keep the pull level, metres; null where there is no chain. */
  readonly levelMetres: number | null;
}

/** The rode through a night. Metres. */
export interface RodeForNight {
  readonly outMetres: number;
  /** As the skipper notes it, by the scope wanted, by what the gusts want where that is more, or all there is where there is less than either. */
  readonly from: "stated" | "scope" | "gusts" | "allOfIt";
  /** At high water, and what was wanted. */
  readonly scope: number;
  readonly scopeWanted: number;
  /** From the anchor to the stern, at low water and at high; null where the length overall is not stated, or the rode too short. */
  readonly swingLowMetres: number | null;
  readonly swingHighMetres: number | null;
  /** Null where the ground tackle or the length is not stated, or no gust is known. */
  readonly pull: PullAtAnchor | null;
  /** What must be out for the lead to be no steeper than `GREATEST_LEAD_DEG` in the strongest gust; null: all of it does not serve, or not known. */
  readonly neededMetres: number | null;
  /** The circle with that out, at low water. */
  readonly neededSwingMetres: number | null;
}

/**
 * The rode between the least and the greatest depth of a night. Null where the bow's height is not stated, or neither a rode let out nor
 * the ground tackle is.
 */
export function rodeForNight(
  { rodeOutMetres, scope }: Pick<StatedAnchorage, "rodeOutMetres" | "scope">,
  boat: BoatAtAnchor,
  leastDepthMetres: number,
  greatestDepthMetres: number,
  gustMps: number | null,
): RodeForNight | null {
  const { groundTackle: tackle, bowHeightMetres, lengthOverallMetres } = boat;
  if (bowHeightMetres === null || (rodeOutMetres === null && tackle === null)) return null;
  const [low, high] = [leastDepthMetres + bowHeightMetres, greatestDepthMetres + bowHeightMetres];
  const swing = (rodeMetres: number, heightMetres: number): number | null =>
    lengthOverallMetres === null ? null : swingRadiusMetres(rodeMetres, heightMetres, lengthOverallMetres);
  const neededMetres = gustMps === null ? null : rodeForGusts(boat, high, gustMps);
  const scopeWanted = scope ?? scopeFor(tackle, high);
  const aboard = tackle === null ? Number.POSITIVE_INFINITY : tackle.chainMetres + tackle.ropeMetres;
  const byScope = Math.min(scopeWanted * high, aboard);
  const byGusts = Math.max(byScope, neededMetres ?? byScope);
  const outMetres = rodeOutMetres ?? byGusts;
  const short = scopeWanted * high > aboard;
  return {
    outMetres,
    from: rodeOutMetres !== null ? "stated" : short ? "allOfIt" : byGusts > byScope ? "gusts" : "scope",
    scope: outMetres / high,
    scopeWanted,
    swingLowMetres: swing(outMetres, low),
    swingHighMetres: swing(outMetres, high),
    pull: gustMps === null ? null : pullOf(boat, outMetres, high, gustMps),
    neededMetres,
    neededSwingMetres: neededMetres === null ? null : swing(neededMetres, low),
  };
}

/** The scope for what is let out: of chain as long as the chain is enough for it. */
function scopeFor(tackle: GroundTackle | null, heightMetres: number): number {
  return tackle !== null && tackle.chainMetres < SCOPE_OF_CHAIN * heightMetres && tackle.ropeMetres > 0 ? SCOPE_WITH_ROPE : SCOPE_OF_CHAIN;
}

/** The least rode that leads no steeper than it may, to a tenth of a metre above; null where all there is does not serve. */
function rodeForGusts(boat: BoatAtAnchor, heightMetres: number, gustMps: number): number | null {
  const { groundTackle: tackle } = boat;
  if (tackle === null) return null;
  const serves = (metres: number): boolean => {
    const pull = pullOf(boat, metres, heightMetres, gustMps)?.pull;
    return pull?.kind === "leads" && pull.leadDeg <= GREATEST_LEAD_DEG;
  };
  let [steep, serving] = [heightMetres, tackle.chainMetres + tackle.ropeMetres];
  if (!serves(serving)) return null;
  while (serving - steep > FOUND_TO_METRES) {
    const middle = (steep + serving) / 2;
    if (serves(middle)) serving = middle;
    else steep = middle;
  }
  return serving;
}

function pullOf(boat: BoatAtAnchor, outMetres: number, heightMetres: number, gustMps: number): PullAtAnchor | null {
  const { groundTackle: tackle, lengthOverallMetres, beamMetres, hull } = boat;
  if (tackle === null || lengthOverallMetres === null) return null;
  const row = loadRow({ lengthOverallMetres, beamMetres, hull });
  if (row === null) return null;
  const loadNewtons = windLoadNewtons(row, gustMps);
  const weight = chainNewtonsPerMetre(chainKgPerMetre(tackle.chainDiameterMetres));
  const chainMetres = Math.min(outMetres, tackle.chainMetres);
  const pull = rodePull({ chainMetres, chainNewtonsPerMetre: weight, ropeMetres: outMetres - chainMetres }, heightMetres, loadNewtons);
  const level = rodeForLevelPull(tackle.chainMetres, weight, heightMetres, loadNewtons);
  return { gustMps, row, loadNewtons, pull, levelMetres: level === null ? null : level.chainMetres + level.ropeMetres };
}
