import { type BoatModel, type BoatSpec, boatModel } from "../../../../src/core/boat/index.ts";
import type { Land } from "../../../../src/core/coast/index.ts";
import {
  type Crossing,
  crossingOf,
  type FastestArrives,
  type FastestWay,
  lineBetween,
  type SailPlan,
} from "../../../../src/core/passage/index.ts";
import { epochSeconds } from "../../../../src/core/units/index.ts";
import type { CurrentSource } from "../../../../src/core/water/index.ts";
import { periodWind } from "../../../../src/core/weather/index.ts";
import { boat, kn, sail } from "../../boat/boats.ts";
import { FLAT, HOUR, NM } from "../waters.ts";

export function sailingModel(changes: Partial<BoatSpec> = {}): BoatModel {
  const model = boatModel(boat({ goes: "sail", sail, ...changes }));
  if (!model.ok) throw new Error(JSON.stringify(model.issues));
  return model.value;
}

/** A wind for three days: knots and degrees from, and from `shiftHours` on from another direction. */
export interface Blows {
  readonly knots: number;
  readonly fromDeg: number;
  readonly shiftHours?: number;
  readonly thenDeg?: number;
  readonly arcDeg?: number;
}

export function sailing(
  current: CurrentSource,
  toNm: readonly [number, number],
  { knots, fromDeg, shiftHours = 72, thenDeg = fromDeg, arcDeg = 0 }: Blows,
  model: BoatModel = sailingModel(),
  land: Land | null = null,
): Crossing {
  const wind = { arcDeg, speedLowMps: kn(knots), speedHighMps: kn(knots), gustMps: null };
  const source = periodWind(
    "letter",
    null,
    [
      { ...wind, from: epochSeconds(0), until: epochSeconds(shiftHours * HOUR), fromDegTrue: fromDeg },
      { ...wind, from: epochSeconds(shiftHours * HOUR), until: epochSeconds(96 * HOUR), fromDegTrue: thenDeg },
    ],
    1.4,
  );
  const around = {
    plane: FLAT,
    current: current.onPlane(FLAT),
    currentCovers: current.covers,
    wind: source.onPlane(FLAT, 0),
    windCovers: source.covers,
    land,
  };
  return crossingOf(lineBetween(FLAT, 0, 0, toNm[0] * NM, toNm[1] * NM), around, model);
}

export function arrives(way: FastestWay): FastestArrives {
  if (way.kind === "fails") throw new Error(`fails: ${JSON.stringify(way.why)}`);
  return way;
}

export function planOf(way: FastestArrives): SailPlan & { readonly kind: "arrives" } {
  const plan = way.underSail?.plan;
  if (plan?.kind !== "arrives") throw new Error(`no plan: ${JSON.stringify(plan)}`);
  return plan;
}
