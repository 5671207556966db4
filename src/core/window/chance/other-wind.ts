import { COVERED, type Coverage } from "../../fields/index.ts";
import { wrap360Deg } from "../../units/index.ts";
import {
  WIND_END_STRIDE,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_GUST_MPS,
  WIND_SPEED_HIGH_MPS,
  WIND_SPEED_LOW_MPS,
  type WindSampler,
} from "../../weather/index.ts";
import { type ChanceErrors, windSpreadAt } from "./chance-errors.ts";
import type { ErrorSeries } from "./error-series.ts";

/** A wind that blows harder or less hard than was foretold, and from elsewhere, the more so the longer ago it was foretold. */
export class OtherWind implements WindSampler {
  private readonly foretold: WindSampler;
  private readonly errors: ChanceErrors;
  private readonly issuedAt: number;
  private readonly speed: ErrorSeries;
  private readonly direction: ErrorSeries;

  constructor(foretold: WindSampler, errors: ChanceErrors, issuedAt: number, speed: ErrorSeries, direction: ErrorSeries) {
    this.foretold = foretold;
    this.errors = errors;
    this.issuedAt = issuedAt;
    this.speed = speed;
    this.direction = direction;
  }

  readInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    const coverage = this.foretold.readInto(out, xMetres, yMetres, at);
    if (coverage !== COVERED) return coverage;
    const { speedShare, directionDeg } = windSpreadAt(this.errors, at - this.issuedAt);
    const factor = Math.exp(speedShare * this.speed.at(at));
    const turn = directionDeg * this.direction.at(at);
    const ends = out[WIND_ENDS] as number;
    for (let end = 0; end < ends; end++) {
      const offset = end * WIND_END_STRIDE;
      out[offset + WIND_SPEED_LOW_MPS] = (out[offset + WIND_SPEED_LOW_MPS] as number) * factor;
      out[offset + WIND_SPEED_HIGH_MPS] = (out[offset + WIND_SPEED_HIGH_MPS] as number) * factor;
      out[offset + WIND_FROM_DEG] = wrap360Deg((out[offset + WIND_FROM_DEG] as number) + turn);
    }
    out[WIND_GUST_MPS] = (out[WIND_GUST_MPS] as number) * factor;
    return COVERED;
  }

  breaksWithin(from: number, until: number): readonly number[] {
    return this.foretold.breaksWithin(from, until);
  }
}
