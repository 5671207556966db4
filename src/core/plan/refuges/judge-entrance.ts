import type { NoAnswer } from "../../answers/index.ts";
import type { Position } from "../../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_TIME } from "../../fields/index.ts";
import { SEA_HEIGHT_HIGH_METRES, SEA_SLOTS, type SeaSampler, WIND_GUST_MPS, WIND_SLOTS, type WindSampler } from "../../weather/index.ts";
import { type CoveredSpan, type Range, speedRangeOf } from "../../window/index.ts";
import type { Entrance } from "../refuge.ts";
import { LightAtEntrance } from "./light-at-entrance.ts";

/** Why an entrance can't be gone through at a time. */
export type Barred =
  /** Dark at the entrance, or before the berth is reached; with the first light after it, null where none comes. */
  | { readonly kind: "dark"; readonly from: "entrance" | "berth"; readonly firstLightAt: number | null }
  | { readonly kind: "wind" | "gust"; readonly mps: number; readonly neverMps: number }
  | { readonly kind: "sea"; readonly metres: number; readonly neverMetres: number }
  /** At chart datum: no tide is known. */
  | { readonly kind: "depth"; readonly underKeelMetres: number; readonly leastMetres: number }
  /** A limit is set and the forecast says nothing there and then: never "can be entered". */
  | { readonly kind: "notJudged"; readonly why: NoAnswer };

/** The weather at entrances. */
export interface EntranceWeather {
  readonly wind: WindSampler;
  readonly windCovers: CoveredSpan;
  /** null: no source gives a sea. */
  readonly sea: SeaSampler | null;
  readonly seaCovers: CoveredSpan | null;
}

/** Judges one entrance at any time. Where the weather is a range or has two ends, the worse counts. */
export class EntranceJudge {
  readonly light: LightAtEntrance | null;
  private readonly windOut = new Float64Array(WIND_SLOTS);
  private readonly seaOut = new Float64Array(SEA_SLOTS);
  private readonly range: Range = { low: 0, high: 0 };
  private readonly entrance: Entrance;
  private readonly pilotageSeconds: number;
  private readonly position: Position;
  private readonly place: { readonly xMetres: number; readonly yMetres: number };
  private readonly weather: EntranceWeather;
  private readonly depth: readonly Barred[];

  constructor(
    refuge: { readonly position: Position; readonly entrance: Entrance; readonly pilotageSeconds: number | null },
    place: { readonly xMetres: number; readonly yMetres: number },
    draughtMetres: number | null,
    weather: EntranceWeather,
  ) {
    const { entrance } = refuge;
    this.entrance = entrance;
    this.pilotageSeconds = refuge.pilotageSeconds ?? 0;
    this.position = refuge.position;
    this.place = place;
    this.weather = weather;
    this.light = entrance.sunAboveDeg === null ? null : new LightAtEntrance(refuge.position, entrance.sunAboveDeg);
    this.depth = depthBar(entrance, draughtMetres);
  }

  /** What stands in the way of going in at an instant, all at once; empty: it can be entered. */
  at(arrivalAt: number): readonly Barred[] {
    return [...this.depth, ...this.dark(arrivalAt), ...this.windy(arrivalAt), ...this.rough(arrivalAt)];
  }

  private dark(arrivalAt: number): Barred[] {
    if (this.light === null) return [];
    const berthAt = arrivalAt + this.pilotageSeconds;
    if (!this.light.isLight(arrivalAt)) {
      return [{ kind: "dark", from: "entrance", firstLightAt: this.light.firstLightAfter(arrivalAt) }];
    }
    if (this.light.isLight(berthAt)) return [];
    return [{ kind: "dark", from: "berth", firstLightAt: this.light.firstLightAfter(berthAt) }];
  }

  private windy(at: number): Barred[] {
    const { neverWindMps, neverGustMps } = this.entrance;
    if (neverWindMps === null && neverGustMps === null) return [];
    const coverage = this.weather.wind.readInto(this.windOut, this.place.xMetres, this.place.yMetres, at);
    if (coverage !== COVERED) return [this.notJudged(coverage, neverWindMps === null ? "gustMps" : "windMps", at, this.weather.windCovers)];
    speedRangeOf(this.windOut, this.range);
    const barred: Barred[] = [];
    const gustMps = this.windOut[WIND_GUST_MPS] as number;
    if (neverWindMps !== null && this.range.high > neverWindMps) {
      barred.push({ kind: "wind", mps: this.range.high, neverMps: neverWindMps });
    }
    if (neverGustMps !== null && gustMps > neverGustMps) barred.push({ kind: "gust", mps: gustMps, neverMps: neverGustMps });
    return barred;
  }

  private rough(at: number): Barred[] {
    const { neverSeaMetres } = this.entrance;
    if (neverSeaMetres === null) return [];
    const { sea, seaCovers } = this.weather;
    const coverage = sea?.readInto(this.seaOut, this.place.xMetres, this.place.yMetres, at);
    if (coverage !== COVERED) return [this.notJudged(coverage, "seaHeightMetres", at, seaCovers)];
    const metres = this.seaOut[SEA_HEIGHT_HIGH_METRES] as number;
    return metres > neverSeaMetres ? [{ kind: "sea", metres, neverMetres: neverSeaMetres }] : [];
  }

  /** `coverage` undefined: no source at all. */
  private notJudged(coverage: Coverage | undefined, quantity: string, at: number, covers: CoveredSpan | null): Barred {
    const code = coverage === NO_PLACE ? "not-covered-place" : coverage === NO_TIME ? "not-covered-time" : "not-covered-variable";
    const [coveredFrom, coveredUntil] = [covers?.from ?? null, covers?.until ?? null];
    return { kind: "notJudged", why: { kind: "noAnswer", code, quantity, at, where: this.position, coveredFrom, coveredUntil } };
  }
}

/**
 * Under-keel clearance at chart datum: charted depth − draught; the tide and the waves are not in it (the tide is never below datum by
 * much, but a swell takes half its height off). Throws where a depth is to be judged and there is no draught.
 */
function depthBar({ chartedDepthMetres, underKeelMetres }: Entrance, draughtMetres: number | null): readonly Barred[] {
  if (chartedDepthMetres === null) return [];
  if (draughtMetres === null) throw new Error(`a depth of ${chartedDepthMetres} m can't be judged without a draught`);
  const left = chartedDepthMetres - draughtMetres;
  return left < underKeelMetres ? [{ kind: "depth", underKeelMetres: left, leastMetres: underKeelMetres }] : [];
}
