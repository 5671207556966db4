import { COVERED } from "../../fields/index.ts";
import {
  carriesByDepthMetres,
  combinedHeightMetres,
  type WaveOnCurrent,
  type WaveSystem,
  waveOnCurrent,
  windSea,
} from "../../sea/index.ts";
import { turnDeg, wrap360Deg } from "../../units/index.ts";
import {
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_PERIOD_LOW_SECONDS,
  SEA_SLOTS,
  SYSTEM_HEIGHT_METRES,
  SYSTEM_PERIOD_SECONDS,
  SYSTEM_STRIDE,
  SYSTEMS_SLOTS,
  WIND_ARC_DEG,
  WIND_END_STRIDE,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_SLOTS,
  WIND_SPEED_HIGH_MPS,
} from "../../weather/index.ts";
import type { EntranceLack, EntranceSea, SeaOnBar, WavesOfBar } from "./entrance.ts";
import type { EntrancePlace, EntranceSurroundings, StreamInCut } from "./entrance-water.ts";

/** Waves lower than this off an entrance shut none, however they break on the ebb, metres (common practice: a popple, not a sea). */
export const POPPLE_METRES = 0.2;
/** A wind from farther than this off the way out to sea raises no sea on the bar, degrees: it blows along the shore or off it. */
const SEAWARD_WITHIN_DEG = 90;

/** The sea on a bar is not known. */
export interface SeaUnknown {
  readonly lacks: readonly EntranceLack[];
}

/**
 * Reads the sea off an entrance and tells what becomes of it on the bar: the forecast's sea, and the wind's own where a fetch is stated, each
 * run onto the stream and the depth of the moment by itself (`waveOnCurrent`), then joined by squares for height. Systems that a source
 * tells apart are each run by themselves, else its sea as one; of a range of periods the worse end counts. Its height is that of deep water, the current not in it.
 */
export class ReadsBarSea {
  private readonly asked: EntranceSea;
  private readonly around: EntranceSurroundings;
  private readonly place: EntrancePlace;
  private readonly sea = new Float64Array(SEA_SLOTS);
  private readonly wind = new Float64Array(WIND_SLOTS);
  private readonly apart = new Float64Array(SYSTEMS_SLOTS);

  constructor(asked: EntranceSea, around: EntranceSurroundings, place: EntrancePlace) {
    this.asked = asked;
    this.around = around;
    this.place = place;
  }

  /** `waterMetres` null: deep. Null where there is no water for a sea to stand in. */
  at(at: number, stream: StreamInCut | null, waterMetres: number | null): SeaOnBar | SeaUnknown | null {
    if (waterMetres !== null && waterMetres <= 0) return null;
    const { fromDegTrue } = this.asked;
    const towardSea = stream?.ebbTowardDegTrue ?? fromDegTrue;
    const lacks: EntranceLack[] = [];
    const systems = [...this.forecast(at, fromDegTrue ?? towardSea ?? 0, lacks), ...this.raised(at, towardSea, lacks)];
    if (lacks.length > 0) return { lacks };
    const current = stream?.vectorAt(at) ?? { alongWaveMps: 0 };
    const onBar = systems.map(({ waves, ends }) => ({ waves, ends: ends.map((one) => waveOnCurrent(one, current, waterMetres)) }));
    for (const { waves, ends } of onBar) if (ends.some((one) => one.kind === "blocked")) return { kind: "blocked", waves };
    const runs = onBar.map(({ ends }) => worseOf(ends));
    const heightMetres = combinedHeightMetres(...runs.map((one) => one.heightMetres));
    const tooHigh = waterMetres !== null && heightMetres >= carriesByDepthMetres(waterMetres);
    return {
      kind: "runs",
      heightMetres,
      steepness: Math.max(0, ...runs.map((one) => one.steepness)),
      breaking: runs.some((one) => one.breaksBySteepness) ? "steepness" : tooHigh || runs.some((one) => one.breaks) ? "depth" : "no",
    };
  }

  /** The forecast's sea, once for each end of its periods; empty for a popple. */
  private forecast(at: number, fromDegTrue: number, lacks: EntranceLack[]): readonly BarWaves[] {
    const { offX, offY } = this.place;
    if (this.around.sea?.readInto(this.sea, offX, offY, at) !== COVERED) {
      lacks.push("sea");
      return [];
    }
    const heightMetres = this.sea[SEA_HEIGHT_HIGH_METRES] as number;
    if (heightMetres < POPPLE_METRES) return [];
    const apart = this.systems(at, heightMetres, fromDegTrue);
    if (apart.length > 0) return apart;
    const given = this.sea[SEA_HAS_PERIOD] === 1;
    const periods = given
      ? [this.sea[SEA_PERIOD_LOW_SECONDS] as number, this.sea[SEA_PERIOD_HIGH_SECONDS] as number]
      : [this.asked.periodSeconds];
    const ends: WaveSystem[] = [];
    for (const periodSeconds of new Set(periods)) {
      if (periodSeconds === null || periodSeconds <= 0) lacks.push("seaPeriod");
      else ends.push({ heightMetres, periodSeconds, fromDegTrue });
    }
    return ends.length === 0 ? [] : [{ waves: "sea", ends }];
  }

  /**
   * The systems that the source tells apart, each by itself, made up to the whole sea's height where they fall short of it. From where a
   * file says that one comes is not asked: shoals off an entrance turn it in.
   */
  private systems(at: number, wholeMetres: number, fromDegTrue: number): readonly BarWaves[] {
    const { offX, offY } = this.place;
    const count = this.around.sea?.systemsInto?.(this.apart, offX, offY, at) ?? 0;
    const waves: BarWaves[] = [];
    let together = 0;
    for (let k = 0; k < count; k++)
      together = combinedHeightMetres(together, this.apart[k * SYSTEM_STRIDE + SYSTEM_HEIGHT_METRES] as number);
    for (let k = 0; k < count; k++) {
      const slot = k * SYSTEM_STRIDE;
      const heightMetres = Math.max(1, wholeMetres / together) * (this.apart[slot + SYSTEM_HEIGHT_METRES] as number);
      if (heightMetres < POPPLE_METRES) continue;
      waves.push({
        waves: "sea",
        ends: [{ heightMetres, periodSeconds: this.apart[slot + SYSTEM_PERIOD_SECONDS] as number, fromDegTrue }],
      });
    }
    return waves;
  }

  /** The sea that the wind raises over the stated fetch, by the worst of where it may come from; empty where it blows off the shore. */
  private raised(at: number, towardSea: number | null, lacks: EntranceLack[]): readonly BarWaves[] {
    const { fetchMetres } = this.asked;
    if (fetchMetres === null || towardSea === null) return [];
    const { offX, offY } = this.place;
    if (this.around.wind?.readInto(this.wind, offX, offY, at) !== COVERED) {
      lacks.push("wind");
      return [];
    }
    const ends: WaveSystem[] = [];
    for (let end = 0; end < (this.wind[WIND_ENDS] as number); end++) {
      const offset = end * WIND_END_STRIDE;
      const windMps = this.wind[offset + WIND_SPEED_HIGH_MPS] as number;
      const fromDegTrue = nearestOnArc(this.wind[offset + WIND_FROM_DEG] as number, this.wind[offset + WIND_ARC_DEG] as number, towardSea);
      if (windMps === 0 || Math.abs(turnDeg(towardSea, fromDegTrue)) >= SEAWARD_WITHIN_DEG) continue;
      // Raised off the bar, in deep water, before it runs in.
      const { heightMetres, periodSeconds } = windSea({ windMps, fetchMetres, durationSeconds: null, depthMetres: null });
      if (heightMetres >= POPPLE_METRES && periodSeconds !== null) ends.push({ heightMetres, periodSeconds, fromDegTrue });
    }
    return ends.length === 0 ? [] : [{ waves: "windSea", ends }];
  }
}

/** Waves of one kind, by the ends between which they are foretold. */
interface BarWaves {
  readonly waves: WavesOfBar;
  readonly ends: readonly WaveSystem[];
}

interface WorstRun {
  readonly heightMetres: number;
  readonly steepness: number;
  readonly breaks: boolean;
  readonly breaksBySteepness: boolean;
}

/** The worst of each over the ends of one system. A breaking sea is told as high as it can stand. */
function worseOf(ends: readonly WaveOnCurrent[]): WorstRun {
  const runs = ends.filter((one) => one.kind === "runs");
  return {
    heightMetres: Math.max(...runs.map((one) => Math.min(one.heightMetres, one.carriesHeightMetres))),
    steepness: Math.max(...runs.map((one) => one.steepness)),
    breaks: runs.some((one) => one.breaking),
    breaksBySteepness: runs.some((one) => one.breakingBy.includes("steepness")),
  };
}

/** The bearing on an arc (from `startDeg` clockwise) nearest to another. */
function nearestOnArc(startDeg: number, arcDeg: number, wantedDeg: number): number {
  const into = wrap360Deg(wantedDeg - startDeg);
  if (into <= arcDeg) return wrap360Deg(wantedDeg);
  const end = startDeg + arcDeg;
  return wrap360Deg(Math.abs(turnDeg(wantedDeg, startDeg)) <= Math.abs(turnDeg(wantedDeg, end)) ? startDeg : end);
}
