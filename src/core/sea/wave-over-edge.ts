import { type Motion, radFromDeg, speedOf, towardOf, turnDeg, wrap360Deg } from "../units/index.ts";
import { type BreakingBy, breakingBy } from "./breaking.ts";
import { groupSpeedMps, relativeFrequency, waveNumber } from "./dispersion.ts";
import { LEAST_CURRENT_MPS, mustBeDepth, mustReach, type WaveSystem } from "./wave-system.ts";

/** Waves that have crossed into a stream over its edge, bent by it. */
export interface WaveCrossed {
  readonly kind: "runs";
  readonly heightMetres: number;
  readonly lengthMetres: number;
  readonly steepness: number;
  readonly breaking: boolean;
  readonly breakingBy: readonly BreakingBy[];
  /** Where they come from inside the stream. */
  readonly fromDegTrue: number;
  readonly heightRatio: number;
  readonly steepnessRatio: number;
}

/**
 * What an edge does to waves: lets them cross; blocks them (their energy can't run in against the stream: breaking); turns them back
 * before they are inside; or they run along it and never meet it.
 */
export type WaveOverEdge =
  | WaveCrossed
  | { readonly kind: "blocked"; readonly breaking: true }
  | { readonly kind: "turnedBack" }
  | { readonly kind: "runsAlong" };

/** Waves within this sine of the edge's own line run along it. */
const ALONG_EDGE = 1e-6;
const HALVINGS = 200;

/**
 * Waves that run from still water into a stream over an edge: a straight line beyond which the stream is the same all along it. The part
 * of the wave number along the edge is kept (Snell's law), as is the period at a fixed place, and the flux of wave action across. The
 * edge lies along the set unless `edgeAlongDegTrue` says otherwise; square to the set it is the mouth of an inlet. Depth is the same on
 * both sides (null: deep), and the height given holds there. Near the angle at which waves are turned back heights grow beyond what
 * such rays can tell. Throws on what is no wave.
 *
 * At an edge along the set nothing is blocked, and waves against the stream come out lower than `waveOnCurrent` has them; waves with it
 * may come out higher.
 *
 * Source: Longuet-Higgins & Stewart (1961), the case of a shear current: in deep water H/H0 = √(sin 2θ0 / sin 2θ), θ to the edge (from
 * memory; derived again from the conservation of action, Bretherton & Garrett 1968).
 *
 * @example
 * const wave = { heightMetres: 1, periodSeconds: 6, fromDegTrue: 45 };
 * const against = waveOverEdge(wave, motionToward(3 * MPS_PER_KNOT, 0), null);
 * against.kind === "runs" ? against.heightMetres : null // => 1.035
 * waveOverEdge({ ...wave, fromDegTrue: 190 }, motionToward(3 * MPS_PER_KNOT, 0), null).kind // => "turnedBack"
 */
export function waveOverEdge(wave: WaveSystem, current: Motion, depthMetres: number | null, edgeAlongDegTrue?: number): WaveOverEdge {
  mustReach("wave height", wave.heightMetres, 0);
  mustReach("wave period", wave.periodSeconds, 0, "above");
  mustBeDepth("depth", depthMetres);
  const toward = speedOf(current) < LEAST_CURRENT_MPS ? null : towardOf(current);
  const edgeDeg = edgeAlongDegTrue ?? toward ?? wave.fromDegTrue + 90;
  const frequency = (2 * Math.PI) / wave.periodSeconds;
  const still = waveNumber(frequency, depthMetres);
  const waveRad = radFromDeg(turnDeg(edgeDeg, wave.fromDegTrue + 180));
  const alongEdge = still * Math.cos(waveRad);
  const across = still * Math.abs(Math.sin(waveRad));
  if (across <= ALONG_EDGE * still) return { kind: "runsAlong" };
  const side = Math.sin(waveRad) > 0 ? 1 : -1;
  const setRad = toward === null ? 0 : radFromDeg(turnDeg(edgeDeg, toward));
  const rate = toward === null ? 0 : speedOf(current);
  const parallel = rate * Math.cos(setRad);
  // A stream that runs along the edge has, but for rounding, no part across it.
  const over = edgeAlongDegTrue === undefined ? 0 : rate * Math.sin(setRad) * side;
  const inside = numberAcross(across, alongEdge, frequency - alongEdge * parallel, over, depthMetres);
  if (typeof inside === "string") return inside === "blocked" ? { kind: "blocked", breaking: true } : { kind: "turnedBack" };

  const number = Math.hypot(inside, alongEdge);
  const before = (groupSpeedMps(still, depthMetres) * across) / still / frequency;
  const after = ((groupSpeedMps(number, depthMetres) * inside) / number + over) / relativeFrequency(number, depthMetres);
  if (!(after > 0)) return over < 0 ? { kind: "blocked", breaking: true } : { kind: "turnedBack" };
  const heightRatio = Math.sqrt(before / after);
  const heightMetres = wave.heightMetres * heightRatio;
  const lengthMetres = (2 * Math.PI) / number;
  const by = breakingBy(heightMetres, lengthMetres, depthMetres);
  return {
    kind: "runs",
    heightMetres,
    lengthMetres,
    steepness: heightMetres / lengthMetres,
    breaking: by.length > 0,
    breakingBy: by,
    fromDegTrue: wrap360Deg(edgeDeg + (Math.atan2(side * inside, alongEdge) * 180) / Math.PI + 180),
    heightRatio,
    steepnessRatio: (heightRatio * number) / still,
  };
}

/**
 * The wave number across the edge inside, with k along it kept: σ(k) + k_across U_across = `frequency`, on the branch whose energy runs
 * in. `frequency` has the part of the Doppler shift along the edge taken off.
 */
function numberAcross(
  outside: number,
  alongEdge: number,
  frequency: number,
  over: number,
  depthMetres: number | null,
): number | "blocked" | "turnedBack" {
  const excess = (across: number): number => relativeFrequency(Math.hypot(across, alongEdge), depthMetres) + across * over - frequency;
  const inward = (across: number): number => {
    const number = Math.hypot(across, alongEdge);
    return number === 0 ? Number.POSITIVE_INFINITY : (groupSpeedMps(number, depthMetres) * across) / number + over;
  };
  let low = 0;
  let high = outside;
  if (over < 0) {
    // Energy runs in only between two numbers: below the first the crests hardly face the edge, above the second the waves are too slow.
    const fastest = peakOf(inward, Math.max(outside, Math.abs(alongEdge)));
    if (!(inward(fastest) > 0)) return "blocked";
    low = halved((across) => inward(across) < 0, 0, fastest);
    let beyond = Math.max(fastest, outside) * 2;
    while (inward(beyond) > 0) beyond *= 2;
    high = halved((across) => inward(across) > 0, fastest, beyond);
    if (excess(high) < 0) return "blocked";
    // What was outside the inward-running band outside the stream can't be reached by a stream that grows steadily.
    if (excess(low) > 0) return "turnedBack";
  } else {
    if (excess(0) >= 0) return "turnedBack";
    while (excess(high) < 0) high *= 2;
  }
  return halved((across) => excess(across) < 0, low, high);
}

/** Where a condition that holds at `low` and not at `high` ends. */
function halved(holds: (x: number) => boolean, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < HALVINGS && b - a > Number.EPSILON * b; i++) {
    const middle = (a + b) / 2;
    if (holds(middle)) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/** The top of a function that rises to one top and falls, above 0; by golden section. */
function peakOf(f: (x: number) => number, scale: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [0, scale * 4];
  while (b - a > 1e-9 * scale) {
    const [left, right] = [b - golden * (b - a), a + golden * (b - a)];
    if (f(left) > f(right)) b = right;
    else a = left;
  }
  return (a + b) / 2;
}
