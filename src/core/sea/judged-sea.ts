import { type Motion, speedOf, towardOf, turnDeg } from "../units/index.ts";
import { combinedHeightMetres } from "./combined-sea.ts";
import { type StillWaterWave, stillWaterWave } from "./dispersion.ts";
import { growingSea, type SeaGrownOnStream, type WindOverStream, windSeaSystem } from "./growing-sea.ts";
import { seaLeftMetres } from "./lying-down.ts";
import { type SeaComfort, type SeaFeel, seaComfortOf, seaFeelOf } from "./sea-comfort.ts";
import { type GivenHeight, type WaveOnCurrent, waveOnCurrent } from "./wave-on-current.ts";
import { type WaveOverEdge, waveOverEdge } from "./wave-over-edge.ts";
import { LEAST_CURRENT_MPS, type WaveSystem } from "./wave-system.ts";

/** Waves closer to the set's own line than this are told head on alone: an edge along the set they hardly cross. Ours. */
export const OBLIQUE_DEG = 5;

/** One system of waves, told on the current by every physics that applies, and what it comes to. */
export interface JudgedSystem {
  /** What it is: as given, or the parts of a total; `windSea` reckoned from a wind has `growing`. */
  readonly name: "asGiven" | "swell" | "windSea";
  readonly wave: WaveSystem;
  readonly still: StillWaterWave;
  readonly meeting: WaveOnCurrent;
  /** Over the stream's edge instead; null where the waves run along the set or there is none. For comparison: it does not govern. */
  readonly edge: WaveOverEdge | null;
  /** Raised on the stream itself; null where the sea was not reckoned from a wind, or the wind has dropped. */
  readonly growing: SeaGrownOnStream | null;
  readonly governs: "meeting" | "growing";
  /** The significant height that stands on the current, the greater of both physics, no more than it carries without breaking. */
  readonly standsMetres: number;
  readonly feel: SeaFeel;
  /** Null where it is blocked. */
  readonly comfort: SeaComfort | null;
}

/** Tells one given system of waves on a current. Depth null: deep. Throws on what is no wave. */
export function judgeSystem(
  name: JudgedSystem["name"],
  wave: WaveSystem,
  current: Motion,
  depthMetres: number | null,
  given: GivenHeight = {},
): JudgedSystem {
  const meeting = waveOnCurrent(wave, current, depthMetres, given);
  return {
    name,
    wave,
    still: stillWaterWave(wave.periodSeconds, depthMetres),
    meeting,
    edge: given.heightIncludesCurrent === true ? null : edgeOf(wave, current, depthMetres, given),
    growing: null,
    governs: "meeting",
    standsMetres: standsMetres(meeting),
    feel: seaFeelOf(meeting),
    comfort: meeting.kind === "blocked" ? null : seaComfortOf(meeting.heightMetres, meeting.relativePeriodSeconds),
  };
}

/**
 * The wind sea on a stream, by both physics, the worse telling how it feels. `droppedSeconds`: how long ago that wind dropped; the sea has
 * then lain down for so long (`seaLeftMetres`) and only runs on. Null where the wind raises no sea.
 */
export function judgeWindSea(over: WindOverStream, droppedSeconds: number | null): JudgedSystem | null {
  const grown = growingSea(over);
  const raised = windSeaSystem(grown.still, over.wind);
  if (raised === null) return null;
  const wave = droppedSeconds === null ? raised : { ...raised, heightMetres: seaLeftMetres(raised.heightMetres, droppedSeconds) };
  const given = { givenInDepthMetres: over.depthMetres };
  const ran = judgeSystem("windSea", wave, over.current, over.depthMetres, given);
  if (droppedSeconds !== null || speedOf(over.current) < LEAST_CURRENT_MPS) return ran;
  const { growing, governs } = grown;
  if (growing.steepness === null || growing.relativePeriodSeconds === null) return { ...ran, growing };
  const standing = Math.max(ran.standsMetres, growing.heightMetres);
  if (governs === "meeting") return { ...ran, growing, standsMetres: standing };
  const feel = seaFeelOf({ steepness: growing.steepness, breaking: growing.breaking });
  const comfort = seaComfortOf(growing.heightMetres, growing.relativePeriodSeconds);
  return { ...ran, growing, governs, standsMetres: standing, feel, comfort };
}

/** The height of all systems together on the current, metres, by squares: for height alone, never for steepness. */
export function togetherMetres(systems: readonly JudgedSystem[]): number {
  return combinedHeightMetres(...systems.map((one) => one.standsMetres));
}

function standsMetres(sea: WaveOnCurrent): number {
  if (sea.kind === "runs") return Math.min(sea.heightMetres, sea.carriesHeightMetres);
  return sea.carriesHeightMetres ?? 0;
}

function edgeOf(wave: WaveSystem, current: Motion, depthMetres: number | null, given: GivenHeight): WaveOverEdge | null {
  const toward = towardOf(current);
  if (toward === null || speedOf(current) < LEAST_CURRENT_MPS) return null;
  const offLine = Math.abs(turnDeg(toward, wave.fromDegTrue));
  if (offLine < OBLIQUE_DEG || offLine > 180 - OBLIQUE_DEG) return null;
  // What comes from deep water has first to shoal.
  const there = waveOnCurrent(wave, { alongWaveMps: 0 }, depthMetres, given);
  return waveOverEdge({ ...wave, heightMetres: there.kind === "runs" ? there.heightMetres : wave.heightMetres }, current, depthMetres);
}
