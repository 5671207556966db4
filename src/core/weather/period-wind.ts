import { COVERED, type Coverage, NO_TIME } from "../fields/index.ts";
import { breaksOf, type PeriodSpan, spanAt, spansOf } from "./period-spans.ts";
import { type WindEnd, widestWind } from "./widest-wind.ts";
import {
  WIND_ARC_DEG,
  WIND_END_STRIDE,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_GUST_ASSUMED,
  WIND_GUST_MPS,
  WIND_SOURCE,
  WIND_SPEED_HIGH_MPS,
  WIND_SPEED_LOW_MPS,
  type WindSampler,
  type WindSource,
} from "./wind.ts";
import type { WindPeriod } from "./wind-period.ts";

/** What holds in one span, made once. */
interface Reading {
  readonly ends: readonly WindEnd[];
  readonly gustMps: number;
  readonly gustAssumed: boolean;
}

/** Wind from periods: the same over the whole area, jumping at each period's end; a gap between periods is not covered. */
class PeriodWind implements WindSampler {
  private readonly spans: readonly PeriodSpan<WindPeriod>[];
  private readonly readings: ReadonlyMap<PeriodSpan<WindPeriod>, Reading>;

  constructor(spans: readonly PeriodSpan<WindPeriod>[], gustFactor: number) {
    this.spans = spans;
    this.readings = new Map(spans.map((span) => [span, readingOf(span.periods, gustFactor)]));
  }

  readInto(out: Float64Array, _xMetres: number, _yMetres: number, at: number): Coverage {
    const span = spanAt(this.spans, at);
    const reading = span === null ? undefined : this.readings.get(span);
    if (reading === undefined) return NO_TIME;
    out[WIND_ENDS] = reading.ends.length;
    reading.ends.forEach((end, i) => {
      const offset = i * WIND_END_STRIDE;
      const calm = end.speedHighMps === 0;
      out[offset + WIND_SPEED_LOW_MPS] = end.speedLowMps;
      out[offset + WIND_SPEED_HIGH_MPS] = end.speedHighMps;
      out[offset + WIND_FROM_DEG] = calm ? 0 : end.fromDegTrue;
      out[offset + WIND_ARC_DEG] = calm ? 360 : end.arcDeg;
    });
    out[WIND_GUST_MPS] = reading.gustMps;
    out[WIND_GUST_ASSUMED] = reading.gustAssumed ? 1 : 0;
    out[WIND_SOURCE] = 0;
    return COVERED;
  }

  breaksWithin(from: number, until: number): readonly number[] {
    return breaksOf(this.spans, from, until);
  }
}

/** Overlapping periods have two ends: the one that begins first, and the widest of all others. The strongest gust of any holds. */
function readingOf(periods: readonly WindPeriod[], gustFactor: number): Reading {
  const [first, ...others] = periods;
  if (first === undefined) throw new Error("a span without periods");
  const reading = { ends: others.length === 0 ? [first] : [first, widestWind(others)], gustMps: -1, gustAssumed: false };
  for (const { gustMps, speedHighMps } of periods) {
    // A gust is never less than the wind it is a gust of.
    const gust = gustMps === null ? speedHighMps * gustFactor : Math.max(gustMps, speedHighMps);
    if (gust > reading.gustMps) {
      reading.gustMps = gust;
      reading.gustAssumed = gustMps === null;
    }
  }
  return reading;
}

/**
 * Wind from periods, in any order. `gustFactor` serves where a period has no gust. Where periods overlap, the reading holds them all, so
 * that the worse is judged: two ends, the period that begins first and the widest of the others.
 *
 * Throws on an empty list and on a period that ends before it begins.
 */
export function periodWind(name: string, issuedAt: number | null, periods: readonly WindPeriod[], gustFactor: number): WindSource {
  const spans = spansOf(periods);
  const first = spans[0];
  const last = spans[spans.length - 1];
  if (first === undefined || last === undefined) throw new Error("a wind source needs at least one period");
  return {
    name,
    issuedAt,
    covers: { from: first.from, until: last.until },
    memberCount: 1,
    onPlane: () => new PeriodWind(spans, gustFactor),
  };
}
