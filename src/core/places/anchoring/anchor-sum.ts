import { chainKgPerMetre, chainNewtonsPerMetre } from "./chain.ts";
import { GREATEST_LEAD_DEG, type RodePull, rodeForLevelPull, rodePull } from "./rode-pull.ts";
import { climbMetres, rodeForScope, SCOPE_OF_CHAIN, SCOPE_WITH_ROPE, scopeOf } from "./scope.ts";
import { swingRadiusMetres } from "./swinging-circle.ts";
import { type LoadRow, loadRow, TABLED_WINDS_MPS, type Windage, windLoadNewtons } from "./wind-load.ts";

/** What the small sum at anchor starts from. Metres, m/s. */
export interface AnchorGiven extends Windage {
  /** When she is anchored, and how far the water rises and falls after that. */
  readonly depthMetres: number;
  readonly riseMetres: number;
  readonly fallMetres: number;
  readonly bowHeightMetres: number;
  readonly rodeMetres: number;
  /** Of the rode, from the anchor; the rest is rope. */
  readonly chainMetres: number;
  /** Of the chain's wire; 0 without chain. */
  readonly chainDiameterMetres: number;
  readonly windMps: number | null;
  /** Null: 5 of chain, 7 with rope. */
  readonly scopeWanted: number | null;
  readonly draughtMetres: number | null;
}

/** How the rode leads in one wind, at high water. */
export interface PullInWind {
  readonly windMps: number;
  readonly loadNewtons: number;
  readonly pull: RodePull;
  /** Rode of the same chain, and more of it where the rode is all chain, that keeps the pull level; null without chain. */
  readonly levelMetres: number | null;
}

/** The small sum. */
export interface AnchorSum {
  readonly given: AnchorGiven;
  /** From the bottom to the bow at high and at low water. */
  readonly highMetres: number;
  readonly lowMetres: number;
  /** At high water. */
  readonly scope: number;
  readonly scopeWanted: number;
  readonly rodeForScopeMetres: number;
  /** Null: the rode is no longer than the height. */
  readonly swingHighMetres: number | null;
  readonly swingLowMetres: number | null;
  /** At low water, without any allowance for waves; null where the draught is not given. Negative where she touches. */
  readonly underKeelMetres: number | null;
  /** Null: the boat is longer or broader than the table of loads. */
  readonly row: LoadRow | null;
  /** At 15, 30 and 42 kn and in the wind given, in order of strength; empty without a row. */
  readonly winds: readonly PullInWind[];
  /** Up to these winds the pull stays level, and leads no steeper than `GREATEST_LEAD_DEG`; null: in none, or without a row. */
  readonly levelUpToMps: number | null;
  readonly holdsUpToMps: number | null;
}

/** The strongest wind that a bound is sought in, m/s: the table's own last. */
export const STRONGEST_SOUGHT_MPS: number = TABLED_WINDS_MPS[3] as number;

/** Less than this is a flat calm, in which any rode hangs down. */
const NO_WIND_MPS = 0.1;

/** Rode, circle, loads and lead of an anchored boat. */
export function anchorSum(given: AnchorGiven): AnchorSum {
  const { depthMetres, riseMetres, fallMetres, bowHeightMetres, rodeMetres, chainMetres, draughtMetres } = given;
  const climb = { depthMetres, riseMetres, bowHeightMetres };
  const highMetres = climbMetres(climb);
  const lowMetres = depthMetres - fallMetres + bowHeightMetres;
  const isAllChain = chainMetres >= rodeMetres;
  const scopeWanted = given.scopeWanted ?? (isAllChain ? SCOPE_OF_CHAIN : SCOPE_WITH_ROPE);
  const weight = chainNewtonsPerMetre(chainKgPerMetre(given.chainDiameterMetres));
  const row = loadRow(given);
  const rode = { chainMetres, chainNewtonsPerMetre: weight, ropeMetres: rodeMetres - chainMetres };
  const inWind = (loads: LoadRow, windMps: number): PullInWind => {
    const loadNewtons = windLoadNewtons(loads, windMps);
    const level = rodeForLevelPull(isAllChain ? Number.POSITIVE_INFINITY : chainMetres, weight, highMetres, loadNewtons);
    return {
      windMps,
      loadNewtons,
      pull: rodePull(rode, highMetres, loadNewtons),
      levelMetres: level === null ? null : level.chainMetres + level.ropeMetres,
    };
  };
  const winds = [...TABLED_WINDS_MPS.slice(0, 3), ...(given.windMps === null ? [] : [given.windMps])];
  const upTo = (leadDeg: number): number | null => {
    if (row === null) return null;
    return strongest((windMps) => {
      const { pull } = inWind(row, windMps);
      return pull.kind === "leads" && pull.leadDeg <= leadDeg;
    });
  };
  return {
    given,
    highMetres,
    lowMetres,
    scope: scopeOf(rodeMetres, climb),
    scopeWanted,
    rodeForScopeMetres: rodeForScope(scopeWanted, climb),
    swingHighMetres: swingRadiusMetres(rodeMetres, highMetres, given.lengthOverallMetres),
    swingLowMetres: swingRadiusMetres(rodeMetres, lowMetres, given.lengthOverallMetres),
    underKeelMetres: draughtMetres === null ? null : depthMetres - fallMetres - draughtMetres,
    row,
    winds: row === null ? [] : [...new Set(winds)].sort((a, b) => a - b).map((windMps) => inWind(row, windMps)),
    levelUpToMps: upTo(0),
    holdsUpToMps: upTo(GREATEST_LEAD_DEG),
  };
}

/** The strongest wind, to a hundredth of a knot, in which something holds that fails as it rises; null where it never does. */
function strongest(holds: (windMps: number) => boolean): number | null {
  if (holds(STRONGEST_SOUGHT_MPS)) return STRONGEST_SOUGHT_MPS;
  let [low, high] = [0, STRONGEST_SOUGHT_MPS];
  while (high - low > 0.005) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low > NO_WIND_MPS ? low : null;
}
