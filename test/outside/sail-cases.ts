import { readFileSync } from "node:fs";
import { type BoatModel, boatModel, type SailPoint } from "../../src/core/boat/index.ts";
import { COVERED } from "../../src/core/fields/index.ts";
import { type Crossing, crossingOf, lineBetween } from "../../src/core/passage/index.ts";
import { WIND_ARC_DEG, WIND_FROM_DEG, WIND_SPEED_HIGH_MPS, WIND_SPEED_LOW_MPS, type WindSampler } from "../../src/core/weather/index.ts";
import { boat } from "../core/boat/boats.ts";
import { type Flow, flowCurrent } from "./fastest-cases.ts";
import { FLAT, HOUR, KN, NM } from "./ways-cases.ts";

/** Wind at miles east and hours: knots and degrees from. */
export type Blow = (east: number, hour: number) => readonly [number, number];

export interface SailCase {
  readonly case: string;
  readonly blow: Blow;
  readonly flow: Flow;
  readonly toNm: readonly [number, number];
  readonly hours: number;
}

interface Reference {
  readonly anglesDeg: readonly number[];
  readonly windsKn: readonly number[];
  readonly speedsKn: readonly (readonly number[])[];
  readonly cases: readonly { readonly case: string; readonly toNm: readonly [number, number]; readonly hours: number }[];
}

const REFERENCE = JSON.parse(readFileSync(new URL("./references/sail.json", import.meta.url), "utf8")) as Reference;

export const sailPoints: readonly SailPoint[] = REFERENCE.anglesDeg.flatMap((trueWindAngleDeg, i) =>
  REFERENCE.windsKn.map((wind, j) => ({
    trueWindAngleDeg,
    trueWindMps: wind * KN,
    speedMps: (REFERENCE.speedsKn[i]?.[j] ?? Number.NaN) * KN,
  })),
);

const bell = (x: number, axis: number, width: number): number => Math.exp(-(((x - axis) / width) ** 2));
const jet: Flow = (x) => [0, 3 * bell(x, 20, 9)];
const still: Flow = () => [0, 0];
const veering: Blow = (_x, t) => [12, 300 + 10 * t];
const freshening: Blow = (x) => [9 + 6 * bell(x, 30, 12), 70 + 30 * bell(x, 30, 12)];

/** Wind and water of the cases by name, as in make_sail.py. */
const WATERS: Readonly<Record<string, readonly [Blow, Flow]>> = {
  "reach across a jet": [() => [12, 0], jet],
  "beat across a jet": [() => [12, 90], jet],
  "beat across a jet, wind with it": [() => [14, 120], jet],
  "run across a jet, gybing": [() => [12, 270], jet],
  "wind that turns from ahead to abeam": [(_x, t) => [12, 60 + 15 * t], still],
  "wind that turns, in a tide": [veering, (_x, _y, t) => [0, 2 * Math.sin((2 * Math.PI * t) / 12.42)]],
  "wind that freshens and veers half way across": [freshening, still],
  "the same over a jet": [freshening, jet],
  "wind that turns in time, over a jet": [veering, jet],
};

export const SAIL_CASES: readonly SailCase[] = REFERENCE.cases.map((one) => {
  const [blow, flow] = WATERS[one.case] ?? [];
  if (blow === undefined || flow === undefined) throw new Error(`no wind and water for the case "${one.case}"`);
  return { case: one.case, blow, flow, toNm: one.toNm, hours: one.hours };
});

/** The boat of the reference. */
export function sailingBoat(): BoatModel {
  const model = boatModel(boat({ goes: "sail", sail: { points: sailPoints, leewayCoefficient: null, leewayCapDeg: 0 } }));
  if (!model.ok) throw new Error(JSON.stringify(model.issues));
  return model.value;
}

export function blowing(blow: Blow): WindSampler {
  return {
    readInto(out, xMetres, _yMetres, at) {
      const [knots, fromDeg] = blow(xMetres / NM, at / HOUR);
      out.fill(Number.NaN);
      out[WIND_SPEED_LOW_MPS] = knots * KN;
      out[WIND_SPEED_HIGH_MPS] = knots * KN;
      out[WIND_FROM_DEG] = ((fromDeg % 360) + 360) % 360;
      out[WIND_ARC_DEG] = 0;
      return COVERED;
    },
    breaksWithin: () => [],
  };
}

export function underSail({ blow, flow, toNm }: Pick<SailCase, "blow" | "flow" | "toNm">, model: BoatModel = sailingBoat()): Crossing {
  const around = {
    plane: FLAT,
    current: flowCurrent(flow).onPlane(FLAT),
    currentCovers: null,
    wind: blowing(blow),
    windCovers: null,
  };
  return crossingOf(lineBetween(FLAT, 0, 0, toNm[0] * NM, toNm[1] * NM), around, model);
}
