import type { EpochSeconds } from "../../units/index.ts";
import type { CurveSpan, TideCurve } from "./tide-curve.ts";
import { type SlopedFunction, type Zero, zeroesBetween } from "./zeroes.ts";

/** The curve is sampled so often, seconds; between samples the zeroes are found by `zeroesBetween`. */
const STEP_SECONDS = 1800;

/** The height less a level with its rate, or the rate with its own slope. */
export type Order = "height" | "rate";

/**
 * Every instant in [from, until) at which the height crosses a level (`order` "height") or the rate crosses nought ("rate"), in order
 * of time, to a hundredth of a second.
 */
export function curveZeroes(curve: TideCurve, order: Order, levelMetres: number, from: EpochSeconds, until: EpochSeconds): readonly Zero[] {
  const zeroes: Zero[] = [];
  let before: number | null = null;
  for (let at: number = from; at < until; ) {
    const span = curve.spanOf(at);
    const end = Math.min(until, span.endAt);
    const offset = curve.meanLevelMetres - levelMetres;
    const of = order === "height" ? heightOf(span, offset) : rateOf(span);
    const steps = Math.max(1, Math.ceil((end - at) / STEP_SECONDS));
    const { values, slopes } = sampled(span, order, offset, at, (end - at) / steps, steps);
    const first = values[0] as number;
    // Two spans meet to within rounding in height, and to a millionth in rate: a sign may change just there.
    if (before !== null && before < 0 !== first < 0) zeroes.push({ at, rising: before < 0 });
    for (let k = 0; k < steps; k++) {
      const sample = (i: number) => ({ at: at + ((end - at) * i) / steps, value: values[i] as number, slope: slopes[i] as number });
      zeroesBetween(of, sample(k), sample(k + 1), (zero) => zeroes.push(zero));
    }
    before = values[steps] as number;
    at = end;
  }
  return zeroes;
}

/** Values and slopes at equal steps, each constituent turned on from one to the next by the same angle: no sine but the first. */
function sampled(span: CurveSpan, order: Order, offset: number, from: number, step: number, steps: number) {
  const values = new Float64Array(steps + 1).fill(order === "height" ? offset : 0);
  const slopes = new Float64Array(steps + 1);
  const t0 = from - span.startAt;
  for (let i = 0; i < span.phaseRad.length; i++) {
    const speed = span.speedRadPerSecond[i] as number;
    const growth = span.growthMetresPerSecond[i] as number;
    let amplitude = (span.amplitudeMetres[i] as number) + growth * t0;
    const grown = growth * step;
    const angle = (span.phaseRad[i] as number) + speed * t0;
    let [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const [turnCos, turnSin] = [Math.cos(speed * step), Math.sin(speed * step)];
    for (let k = 0; k <= steps; k++) {
      const along = amplitude * cos;
      const rate = growth * cos - amplitude * speed * sin;
      if (order === "height") {
        values[k] = (values[k] as number) + along;
        slopes[k] = (slopes[k] as number) + rate;
      } else {
        values[k] = (values[k] as number) + rate;
        slopes[k] = (slopes[k] as number) - speed * (speed * along + 2 * growth * sin);
      }
      const turned = cos * turnCos - sin * turnSin;
      sin = sin * turnCos + cos * turnSin;
      cos = turned;
      amplitude += grown;
    }
  }
  return { values, slopes };
}

/** Σ amplitude·speedⁿ over the span: the n-th derivative stays below it, the growth of amplitudes with room to spare. */
function derivativeBound(span: CurveSpan, n: number): number {
  let sum = 0;
  for (let i = 0; i < span.phaseRad.length; i++) {
    const growth = Math.abs(span.growthMetresPerSecond[i] as number) * (span.endAt - span.startAt);
    sum += 1.01 * (Math.abs(span.amplitudeMetres[i] as number) + growth) * Math.abs(span.speedRadPerSecond[i] as number) ** n;
  }
  return sum;
}

function heightOf(span: CurveSpan, offset: number): SlopedFunction {
  return {
    fourthDerivativeBound: derivativeBound(span, 4),
    into(out, at) {
      const t = at - span.startAt;
      let [value, slope] = [offset, 0];
      for (let i = 0; i < span.phaseRad.length; i++) {
        const growth = span.growthMetresPerSecond[i] as number;
        const speed = span.speedRadPerSecond[i] as number;
        const amplitude = (span.amplitudeMetres[i] as number) + growth * t;
        const angle = (span.phaseRad[i] as number) + speed * t;
        const cos = Math.cos(angle);
        value += amplitude * cos;
        slope += growth * cos - amplitude * speed * Math.sin(angle);
      }
      out[0] = value;
      out[1] = slope;
    },
  };
}

function rateOf(span: CurveSpan): SlopedFunction {
  return {
    fourthDerivativeBound: derivativeBound(span, 5),
    into(out, at) {
      const t = at - span.startAt;
      let [value, slope] = [0, 0];
      for (let i = 0; i < span.phaseRad.length; i++) {
        const growth = span.growthMetresPerSecond[i] as number;
        const speed = span.speedRadPerSecond[i] as number;
        const amplitude = (span.amplitudeMetres[i] as number) + growth * t;
        const angle = (span.phaseRad[i] as number) + speed * t;
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        value += growth * cos - amplitude * speed * sin;
        slope -= speed * (speed * amplitude * cos + 2 * growth * sin);
      }
      out[0] = value;
      out[1] = slope;
    },
  };
}
