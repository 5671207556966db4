import { GRAVITY_MPS2 } from "../boat/index.ts";
import { type Motion, radFromDeg } from "../units/index.ts";
import { blockingBy } from "./blocking.ts";
import { type BreakingBy, breakingBy, carriesByDepthMetres, carriesHeightMetres } from "./breaking.ts";
import { groupSpeedMps, relativeFrequency, waveNumber } from "./dispersion.ts";
import { LEAST_CURRENT_MPS, mustBeDepth, mustReach, type WaveSystem } from "./wave-system.ts";

/** A current as a motion toward, or only its part along the waves, m/s, positive where it runs with them. */
export type CurrentForWaves = Motion | { readonly alongWaveMps: number };

/** What is known of the height that was given. */
export interface GivenHeight {
  /** The depth where it holds; null, or left out, is deep water. Where it is the depth asked about, nothing shoals. */
  readonly givenInDepthMetres?: number | null;
  /** The source already has the current in its height (a wave model run on currents): then only the length changes. Left out: it has not. */
  readonly heightIncludesCurrent?: boolean;
}

/** Waves that run on, on the current. */
export interface WaveRuns {
  readonly kind: "runs";
  /**
   * Significant height as wave action has it, metres. Where `breaking`, no sea stands this high: the rest goes into breaking, and what is
   * left is at most `carriesHeightMetres`.
   */
  readonly heightMetres: number;
  readonly lengthMetres: number;
  /** Height over length. */
  readonly steepness: number;
  readonly breaking: boolean;
  readonly breakingBy: readonly BreakingBy[];
  /** The greatest significant height that waves of this length carry here without breaking, metres. */
  readonly carriesHeightMetres: number;
  /** The period met drifting with the water. */
  readonly relativePeriodSeconds: number;
  /** The part of the current along the waves, m/s, positive with them. */
  readonly alongWaveMps: number;
  /** Height and steepness over the same waves' in still water of this depth. */
  readonly heightRatio: number;
  readonly steepnessRatio: number;
}

/** Waves that the current blocks: they stand up and break where it first reaches their group speed, and don't get further. */
export interface WaveBlocked {
  readonly kind: "blocked";
  readonly breaking: true;
  readonly alongWaveMps: number;
  /** Waves of a shorter period are blocked by this current, these among them; null where it blocks waves of every length. */
  readonly blocksUnderSeconds: number | null;
  /** The greatest significant height of sea about the place where they break, metres; null as above in deep water without bound. */
  readonly carriesHeightMetres: number | null;
}

export type WaveOnCurrent = WaveRuns | WaveBlocked;

/** Newton's steps at most; only a hair from blocking are more than ten needed. */
const MOST_STEPS = 80;
const SETTLED = 1e-15;

/**
 * What becomes of waves that run from still water into a current, growing along the waves' own way: the period at a fixed place is kept
 * (Doppler shift: σ + k U = ω, U the current along the waves), and so is the flux of wave action, E/σ (group speed + U). Against the
 * waves the current shortens and heightens them, at −¼ of their speed in deep water it blocks them; with them it eases them. Shoaling
 * is in it (`given`); refraction is not: see `waveOverEdge`. Holds for one system of waves: give swell and wind sea each by itself.
 *
 * Heights in metres, periods seconds, `depthMetres` null for deep water. Throws on what is no wave.
 *
 * Source: Bretherton & Garrett (1968), "Wavetrains in inhomogeneous moving media"; in deep water Longuet-Higgins & Stewart (1961), the
 * case of upwelling. The case of water drawn in from the sides is milder (`deepFactors`).
 *
 * @example
 * const wave = { heightMetres: 1, periodSeconds: 6, fromDegTrue: 45 };
 * const seas = waveOnCurrent(wave, motionToward(3 * MPS_PER_KNOT, 45), null);
 * seas.kind === "runs" ? seas.heightMetres : null // => 1.65279
 * waveOnCurrent({ ...wave, periodSeconds: 3.9 }, { alongWaveMps: -3 * MPS_PER_KNOT }, null).kind // => "blocked"
 */
export function waveOnCurrent(
  wave: WaveSystem,
  current: CurrentForWaves,
  depthMetres: number | null,
  given: GivenHeight = {},
): WaveOnCurrent {
  mustReach("wave height", wave.heightMetres, 0);
  mustReach("wave period", wave.periodSeconds, 0, "above");
  mustBeDepth("depth", depthMetres);
  const along = alongWaveMps(wave.fromDegTrue, current);
  if (!Number.isFinite(along)) throw new Error(`current along the waves ${along}: expected a number`);
  const frequency = (2 * Math.PI) / wave.periodSeconds;
  const still = waveNumber(frequency, depthMetres);
  const number = numberOnCurrent(frequency, still, along, depthMetres);
  if (number === null) return blocked(along, depthMetres);

  const givenDepth = given.givenInDepthMetres ?? null;
  const fluxBefore = groupSpeedMps(givenDepth === depthMetres ? still : waveNumber(frequency, givenDepth), givenDepth) / frequency;
  const relative = relativeFrequency(number, depthMetres);
  const fluxSpeed = groupsOnCurrentMps(number, along, frequency, depthMetres);
  // A hair from blocking, where the difference is lost in rounding.
  if (!(fluxSpeed > 0)) return blocked(along, depthMetres);
  const kept = given.heightIncludesCurrent === true ? 1 : Math.sqrt((fluxBefore * relative) / fluxSpeed);
  const heightMetres = wave.heightMetres * kept;
  const lengthMetres = (2 * Math.PI) / number;
  const stillHeightRatio =
    given.heightIncludesCurrent === true ? 1 : Math.sqrt((fluxBefore * frequency) / groupSpeedMps(still, depthMetres));
  const by = breakingBy(heightMetres, lengthMetres, depthMetres);
  return {
    kind: "runs",
    heightMetres,
    lengthMetres,
    steepness: heightMetres / lengthMetres,
    breaking: by.length > 0,
    breakingBy: by,
    carriesHeightMetres: carriesHeightMetres(lengthMetres, depthMetres),
    relativePeriodSeconds: (2 * Math.PI) / relative,
    alongWaveMps: along,
    heightRatio: kept / stillHeightRatio,
    steepnessRatio: ((kept / stillHeightRatio) * number) / still,
  };
}

/** The part of a current along waves, m/s, positive where it runs with them (the "from" is turned about here). */
export function alongWaveMps(fromDegTrue: number, current: CurrentForWaves): number {
  if ("alongWaveMps" in current) return current.alongWaveMps;
  const fromRad = radFromDeg(fromDegTrue);
  return -(current.eastMps * Math.sin(fromRad) + current.northMps * Math.cos(fromRad));
}

/** The wave number on the current, from that in still water; null where the waves are blocked. */
function numberOnCurrent(frequency: number, still: number, along: number, depthMetres: number | null): number | null {
  if (Math.abs(along) < LEAST_CURRENT_MPS) return still;
  if (depthMetres === null) {
    const squared = 1 + (4 * along * frequency) / GRAVITY_MPS2;
    if (!(squared > 0)) return null;
    const speedShare = (1 + Math.sqrt(squared)) / 2;
    return still / (speedShare * speedShare);
  }
  // σ(k) + k U is concave in k: Newton climbs to the root from the left and never passes it; where it turns down there is none.
  let k = along < 0 ? still : (still * groupSpeedMps(still, depthMetres)) / (groupSpeedMps(still, depthMetres) + along);
  for (let i = 0; i < MOST_STEPS; i++) {
    const slope = groupSpeedMps(k, depthMetres) + along;
    if (!(slope > 0)) return null;
    const step = (relativeFrequency(k, depthMetres) + k * along - frequency) / slope;
    k -= step;
    if (Math.abs(step) <= SETTLED * k) break;
  }
  return k;
}

/** Speed of the waves' energy over the ground, m/s; in deep water without the difference of near values close to blocking. */
function groupsOnCurrentMps(number: number, along: number, frequency: number, depthMetres: number | null): number {
  if (depthMetres !== null) return groupSpeedMps(number, depthMetres) + along;
  const speed = Math.sqrt(GRAVITY_MPS2 / number);
  return 0.5 * speed * Math.sqrt(1 + (4 * along * frequency) / GRAVITY_MPS2);
}

function blocked(along: number, depthMetres: number | null): WaveBlocked {
  const at = blockingBy(-along, depthMetres);
  const carries =
    at !== null ? carriesHeightMetres(at.lengthMetres, depthMetres) : depthMetres === null ? null : carriesByDepthMetres(depthMetres);
  return {
    kind: "blocked",
    breaking: true,
    alongWaveMps: along,
    blocksUnderSeconds: at?.periodSeconds ?? null,
    carriesHeightMetres: carries,
  };
}
