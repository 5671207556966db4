import { flatPlane, positionOf } from "../../../src/core/earth/index.ts";
import { COVERED, type Coverage, type GridData } from "../../../src/core/fields/index.ts";
import {
  WIND_ARC_DEG,
  WIND_END_STRIDE,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_GUST_ASSUMED,
  WIND_GUST_MPS,
  WIND_SLOTS,
  WIND_SOURCE,
  WIND_SPEED_HIGH_MPS,
  WIND_SPEED_LOW_MPS,
  type WindSampler,
  type WindSource,
} from "../../../src/core/weather/index.ts";
import { gridOf } from "../fields/grids.ts";

export const HOUR = 3600;
export const KN = 1852 / 3600;
export const plane = flatPlane(positionOf(0, 0.5), 50_000);

export interface WindRead {
  readonly ends: readonly { readonly low: number; readonly high: number; readonly fromDeg: number; readonly arcDeg: number }[];
  readonly gust: number;
  readonly assumed: boolean;
  readonly source: number;
}

/** A reading at the plane's centre as an object, or what stands in the way (and then nothing was written). */
export function readWind(sampler: WindSampler, at: number, xMetres = 0, yMetres = 0): WindRead | Coverage {
  const out = new Float64Array(WIND_SLOTS).fill(-7);
  const coverage = sampler.readInto(out, xMetres, yMetres, at);
  if (coverage !== COVERED) {
    if (out.some((slot) => slot !== -7)) throw new Error("written though not covered");
    return coverage;
  }
  const ends = Array.from({ length: out[WIND_ENDS]! }, (_, end) => ({
    low: out[end * WIND_END_STRIDE + WIND_SPEED_LOW_MPS]!,
    high: out[end * WIND_END_STRIDE + WIND_SPEED_HIGH_MPS]!,
    fromDeg: out[end * WIND_END_STRIDE + WIND_FROM_DEG]!,
    arcDeg: out[end * WIND_END_STRIDE + WIND_ARC_DEG]!,
  }));
  return { ends, gust: out[WIND_GUST_MPS]!, assumed: out[WIND_GUST_ASSUMED] === 1, source: out[WIND_SOURCE]! };
}

export function windAt(source: WindSource, at: number, member = 0): WindRead {
  const got = readWind(source.onPlane(plane, member), at);
  if (typeof got === "number") throw new Error(`not covered: ${got}`);
  return got;
}

/** The same wind all over a cell around the plane: knots and degrees from, one entry a step, null where missing. */
export function windGrid(
  times: readonly number[],
  winds: readonly (readonly [number, number] | null)[],
  more: { readonly source?: string; readonly issuedAt?: number } = {},
): GridData {
  return gridOf({
    quantities: ["windEastMps", "windNorthMps"],
    latitudesDeg: [-1, 1],
    longitudesDeg: [-1, 2],
    times,
    values: ({ t }) => {
      const wind = winds[t];
      if (wind === null || wind === undefined) return null;
      const [knots, fromDeg] = wind;
      return [-knots * KN * Math.sin((fromDeg * Math.PI) / 180), -knots * KN * Math.cos((fromDeg * Math.PI) / 180)];
    },
    ...more,
  });
}

/** Gusts in knots in the same cell. */
export function gustGrid(times: readonly number[], gusts: readonly (number | null)[], nature: GridData["nature"] = "instant"): GridData {
  return gridOf({
    quantities: ["gustMps"],
    latitudesDeg: [-1, 1],
    longitudesDeg: [-1, 2],
    times,
    nature,
    values: ({ t }) => {
      const gust = gusts[t];
      return gust === null || gust === undefined ? null : [gust * KN];
    },
  });
}
