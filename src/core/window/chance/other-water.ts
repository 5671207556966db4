import { COVERED, type Coverage } from "../../fields/index.ts";
import { CLEAR_RATE_MPS, type Crossing, nodeAt, turnsAcross, type WayArrives } from "../../passage/index.ts";
import { CURRENT_QUANTITIES, type CurrentSampler } from "../../water/index.ts";
import type { ErrorSeries } from "./error-series.ts";

/** The unit vector on the plane square to a stream's set, to its right. */
export interface AcrossStream {
  readonly x: number;
  readonly y: number;
}

/**
 * The stream that a way crosses, by the water at its axis: null where there is none to speak of, or where it turns while she crosses, so
 * that it has neither a total nor a place.
 */
export function streamCrossed({ line }: Crossing, way: WayArrives): AcrossStream | null {
  const { track, axis } = way;
  if (axis.rateMps < CLEAR_RATE_MPS || turnsAcross(track, line)) return null;
  const node = nodeAt(track, axis.at);
  const east = track.currentEastMps[node] as number;
  const north = track.currentNorthMps[node] as number;
  const rate = Math.hypot(east, north);
  return rate === 0 ? null : { x: north / rate, y: -east / rate };
}

/** A sampler of other water than was foretold: the rest is asked of the foretold. */
abstract class OtherWater implements CurrentSampler {
  readonly quantities = CURRENT_QUANTITIES;
  protected readonly foretold: CurrentSampler;

  constructor(foretold: CurrentSampler) {
    this.foretold = foretold;
  }

  abstract sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage;

  get answeredBy(): number {
    return this.foretold.answeredBy;
  }

  nearestInto(out: Float64Array, xMetres: number, yMetres: number, at: number, withinMetres: number): boolean {
    return this.foretold.nearestInto(out, xMetres, yMetres, at, withinMetres);
  }

  reachesPlace(xMetres: number, yMetres: number, at: number): boolean {
    return this.foretold.reachesPlace(xMetres, yMetres, at);
  }
}

/**
 * The stream at `factor` of its rate and moved by (`movedX`, `movedY`) metres. Where the place that the water came from is not covered, as
 * ashore, the water of the place itself is taken.
 */
export class OtherStream extends OtherWater {
  private readonly factor: number;
  private readonly movedX: number;
  private readonly movedY: number;

  constructor(foretold: CurrentSampler, factor: number, movedX: number, movedY: number) {
    super(foretold);
    this.factor = factor;
    this.movedX = movedX;
    this.movedY = movedY;
  }

  override sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    let coverage = this.foretold.sampleInto(out, xMetres - this.movedX, yMetres - this.movedY, at);
    if (coverage !== COVERED) coverage = this.foretold.sampleInto(out, xMetres, yMetres, at);
    if (coverage === COVERED) {
      out[0] = (out[0] as number) * this.factor;
      out[1] = (out[1] as number) * this.factor;
    }
    return coverage;
  }
}

/** The foretold current and an error that changes with time, east and north of the plane, each `spreadMps` times a standard normal series. */
export class WaterWithError extends OtherWater {
  private readonly east: ErrorSeries;
  private readonly north: ErrorSeries;
  private readonly spreadMps: number;

  constructor(foretold: CurrentSampler, east: ErrorSeries, north: ErrorSeries, spreadMps: number) {
    super(foretold);
    this.east = east;
    this.north = north;
    this.spreadMps = spreadMps;
  }

  override sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    const coverage = this.foretold.sampleInto(out, xMetres, yMetres, at);
    if (coverage === COVERED) {
      out[0] = (out[0] as number) + this.spreadMps * this.east.at(at);
      out[1] = (out[1] as number) + this.spreadMps * this.north.at(at);
    }
    return coverage;
  }
}
