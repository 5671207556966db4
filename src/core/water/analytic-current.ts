import type { Plane } from "../earth/index.ts";
import { COVERED, type Coverage } from "../fields/index.ts";
import { AnalyticCurrent, type CurrentSampler, type CurrentSource } from "./current.ts";

/**
 * A current given as a formula on the plane, for checks against closed forms: `flow(out, xMetres, yMetres, at)` writes east and north
 * components in m/s, toward, in the plane's frame. It covers everything at all times.
 */
export function analyticCurrent(
  name: string,
  flow: (out: Float64Array, xMetres: number, yMetres: number, at: number) => void,
): CurrentSource {
  class Formula extends AnalyticCurrent {
    override sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
      flow(out, xMetres, yMetres, at);
      return COVERED;
    }
  }
  return { name, covers: null, issuedAt: null, heldSteady: false, onPlane: (_plane: Plane): CurrentSampler => new Formula() };
}

/**
 * A jet toward the plane's north with the profile of a bell across x: `rate·exp(−((x − axis)/halfWidth)²)`, m/s; `halfWidthEast` serves
 * x at and beyond the axis when it differs.
 */
export function gaussianJet(jet: {
  readonly rateMps: number;
  readonly axisMetres: number;
  readonly halfWidthMetres: number;
  readonly halfWidthEastMetres?: number;
}): CurrentSource {
  const east = jet.halfWidthEastMetres ?? jet.halfWidthMetres;
  return analyticCurrent("Gaussian jet", (out, xMetres) => {
    const share = (xMetres - jet.axisMetres) / (xMetres < jet.axisMetres ? jet.halfWidthMetres : east);
    out[0] = 0;
    out[1] = jet.rateMps * Math.exp(-share * share);
  });
}

/**
 * A stream that turns with the tide: `rate·sin(2π(t − epoch)/period)` toward north, the same everywhere, or under a bell across x when
 * an axis is given. Seconds, m/s, metres.
 */
export function turningTide(tide: {
  readonly rateMps: number;
  readonly periodSeconds: number;
  readonly epochAt: number;
  readonly bell?: { readonly axisMetres: number; readonly halfWidthMetres: number };
}): CurrentSource {
  const { bell } = tide;
  return analyticCurrent("Turning tide", (out, xMetres, _yMetres, at) => {
    const share = bell === undefined ? 0 : (xMetres - bell.axisMetres) / bell.halfWidthMetres;
    out[0] = 0;
    out[1] = tide.rateMps * Math.sin((2 * Math.PI * (at - tide.epochAt)) / tide.periodSeconds) * Math.exp(-share * share);
  });
}
