import { GRAVITY_MPS2 } from "../boat/index.ts";
import { type Motion, speedOf, towardOf, wrap360Deg } from "../units/index.ts";
import { type BreakingBy, breakingBy } from "./breaking.ts";
import { waveNumber } from "./dispersion.ts";
import { type GrowthLaw, SHORE_MANUAL_GROWTH } from "./growth-law.ts";
import { alongWaveMps, type WaveOnCurrent, waveOnCurrent } from "./wave-on-current.ts";
import type { WaveSystem } from "./wave-system.ts";
import { LEAST_WIND_MPS, type WindSea, windSea } from "./wind-sea.ts";

/** A wind over water that moves; motions over the ground. */
export interface WindOverStream {
  /** Wind at 10 m, a motion toward: use `motionToward(speed, from + 180)`. */
  readonly wind: Motion;
  readonly current: Motion;
  /** Distance to the shore up-wind over the ground, metres; null: open water. */
  readonly fetchMetres: number | null;
  /** Null: for longer than matters. */
  readonly durationSeconds: number | null;
  /** Null: deep. */
  readonly depthMetres: number | null;
}

/** A sea that has grown on the moving water itself. */
export interface SeaGrownOnStream {
  readonly heightMetres: number;
  /** As met drifting with the water; null where there is no sea. */
  readonly relativePeriodSeconds: number | null;
  readonly lengthMetres: number | null;
  readonly steepness: number | null;
  readonly breaking: boolean;
  readonly breakingBy: readonly BreakingBy[];
  readonly limitedBy: WindSea["limitedBy"];
  /** Wind relative to the water: wind − current. */
  readonly relativeWindMps: number;
  /** Null where the air goes with the water. */
  readonly relativeWindFromDegTrue: number | null;
  /** The fetch run through the water: longer than over the ground where the stream holds the waves up, shorter where it speeds them. */
  readonly fetchThroughWaterMetres: number | null;
}

/**
 * The wind sea on a stream by two physics. `meeting`: raised on still water by the wind over the ground, it runs into the stream (null where
 * there is no sea to run). `growing`: raised on the stream itself by the wind relative to the water. Neither is wrong: the first at the
 * stream's edge and at inlets, the second far along a stream. `governs` is the worse: blocked, then breaking, then the steeper.
 */
export interface GrowingSea {
  readonly still: WindSea;
  readonly meeting: WaveOnCurrent | null;
  readonly growing: SeaGrownOnStream;
  readonly governs: "meeting" | "growing";
}

/** Both physics of a wind sea on a stream. Throws as `windSea` does. */
export function growingSea(over: WindOverStream, law: GrowthLaw = SHORE_MANUAL_GROWTH): GrowingSea {
  const { wind, current, fetchMetres, durationSeconds, depthMetres } = over;
  const still = windSea({ windMps: speedOf(wind), fetchMetres, durationSeconds, depthMetres }, law);
  const system = windSeaSystem(still, wind);
  const meeting = system === null ? null : waveOnCurrent(system, current, depthMetres, { givenInDepthMetres: depthMetres });
  const growing = grownOnStream(over, law);
  return { still, meeting, growing, governs: meeting !== null && worse(meeting, growing) ? "meeting" : "growing" };
}

/** A wind sea as a system of waves running with its wind; null where there is no sea. */
export function windSeaSystem(sea: WindSea, wind: Motion): WaveSystem | null {
  const toward = towardOf(wind);
  if (sea.periodSeconds === null || toward === null) return null;
  return { heightMetres: sea.heightMetres, periodSeconds: sea.periodSeconds, fromDegTrue: wrap360Deg(toward + 180) };
}

/** The wind relative to moving water, a motion toward: wind − current. */
export function windOverWater(wind: Motion, current: Motion): Motion {
  return { eastMps: wind.eastMps - current.eastMps, northMps: wind.northMps - current.northMps };
}

function grownOnStream({ wind, current, fetchMetres, durationSeconds, depthMetres }: WindOverStream, law: GrowthLaw): SeaGrownOnStream {
  const relative = windOverWater(wind, current);
  const windMps = speedOf(relative);
  const toward = towardOf(relative);
  const from = toward === null ? null : wrap360Deg(toward + 180);
  const through =
    fetchMetres === null || from === null ? fetchMetres : fetchThroughWater(fetchMetres, alongWaveMps(from, current), windMps, law);
  const sea = windSea({ windMps, fetchMetres: through, durationSeconds, depthMetres }, law);
  const lengthMetres = sea.periodSeconds === null ? null : (2 * Math.PI) / waveNumber((2 * Math.PI) / sea.periodSeconds, depthMetres);
  const by = lengthMetres === null ? [] : breakingBy(sea.heightMetres, lengthMetres, depthMetres);
  return {
    heightMetres: sea.heightMetres,
    relativePeriodSeconds: sea.periodSeconds,
    lengthMetres,
    steepness: lengthMetres === null ? null : sea.heightMetres / lengthMetres,
    breaking: by.length > 0,
    breakingBy: by,
    limitedBy: sea.limitedBy,
    relativeWindMps: windMps,
    relativeWindFromDegTrue: from,
    fetchThroughWaterMetres: through,
  };
}

/**
 * The fetch that waves have run through the water when they have come `fetchMetres` over the ground, carried by a current of `along` m/s
 * (positive with them): X = ground fetch − current × the time that X takes by the growth law, t ∝ X^⅔. Our own, from that law alone.
 */
export function fetchThroughWater(fetchMetres: number, along: number, windMps: number, law: GrowthLaw): number {
  if (fetchMetres === 0 || along === 0 || windMps < LEAST_WIND_MPS) return fetchMetres;
  const u = law.windScaleMps(windMps);
  // With y = ∛X the time is b y², so y³ + along b y² = fetch: one root above 0, reached by Newton from above.
  const carried = ((along * (law.duration * u)) / GRAVITY_MPS2) * (GRAVITY_MPS2 / (u * u)) ** (2 / 3);
  let y = Math.cbrt(fetchMetres) + Math.max(0, -carried);
  for (let i = 0; i < 100; i++) {
    const step = (y * y * (y + carried) - fetchMetres) / (y * (3 * y + 2 * carried));
    y -= step;
    if (Math.abs(step) <= 1e-14 * y) break;
  }
  return y * y * y;
}

function worse(meeting: WaveOnCurrent, growing: SeaGrownOnStream): boolean {
  if (meeting.kind === "blocked") return true;
  if (meeting.breaking !== growing.breaking) return meeting.breaking;
  return meeting.steepness >= (growing.steepness ?? 0);
}
