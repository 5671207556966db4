import type { EngineFailure, FuelPlan } from "../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import { iso, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";

/** The fuel of a departure as JSON. */
export function fuelJson(plan: FuelPlan) {
  const { burntLitres, usableLitres, reserveShare, worstTurnBack } = plan;
  const left = burntLitres === null || usableLitres === null ? null : usableLitres - burntLitres;
  return {
    engineSeconds: Math.round(plan.engineSeconds),
    burntLitres: burntLitres === null ? null : rounded(burntLitres, 1),
    usableLitres: usableLitres === null ? null : rounded(usableLitres, 1),
    leftLitres: left === null ? null : rounded(left, 1),
    reserveLitres: usableLitres === null ? null : rounded(reserveShare * usableLitres, 1),
    worstTurnBack:
      worstTurnBack === null
        ? null
        : {
            ...placeJson(worstTurnBack),
            backSeconds: Math.round(worstTurnBack.backSeconds),
            allLitres: rounded(worstTurnBack.allLitres, 1),
            leftLitres: usableLitres === null ? null : rounded(usableLitres - worstTurnBack.allLitres, 1),
          },
    engineFails: plan.engineFails.map((one) => ({ ...placeJson(one), ...outcomeJson(one.outcome) })),
  };
}

function placeJson({ at, where, acrossMetres }: Pick<EngineFailure, "at" | "where" | "acrossMetres">) {
  return {
    at: iso(at),
    latitudeDeg: rounded(where.latitudeDeg, 5),
    longitudeDeg: rounded(where.longitudeDeg, 5),
    acrossNm: rounded(nmFromMetres(acrossMetres), 3),
  };
}

function outcomeJson(outcome: EngineFailure["outcome"]) {
  return {
    outcome: outcome.kind,
    arrivalAt: outcome.kind === "sails" ? iso(outcome.arrivalAt) : null,
    lateSeconds: outcome.kind === "sails" ? Math.round(outcome.lateSeconds) : null,
    why: outcome.kind === "noWay" ? noAnswerJson(outcome.why) : null,
    driftTowardDegTrue: outcome.kind === "drifts" ? rounded(outcome.setDegTrue, 1) : null,
    driftKn: outcome.kind === "drifts" ? rounded(knotsFromMps(outcome.rateMps), 2) : null,
  };
}
