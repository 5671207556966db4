import type { BoatSpec } from "./boat-spec.ts";
import { checkedTable, hullSpeedCapMps } from "./build-boat.ts";
import { headSeaRule } from "./head-seas.ts";
import { CRUISE_SHARE_OF_HULL_SPEED, hullSpeedMps } from "./hull-speed.ts";
import { HEEL_REACHED_AT_APPARENT_MPS, HEEL_WHERE_REEFED_DEG } from "./leeway.ts";
import { enginePower, HEADWIND_LOSS_AT_MPS } from "./power.ts";

/** Something the answer rests on that a skipper could dispute; the words for it are found elsewhere. */
export type BoatAssumption =
  | {
      readonly kind: "speedEstimatedFromWaterline";
      readonly waterlineLengthMetres: number;
      readonly hullSpeedMps: number;
      readonly cruiseShare: number;
      readonly speedMps: number;
    }
  | { readonly kind: "burnNotGiven" }
  | {
      readonly kind: "burnScaledByCubeLaw";
      readonly measuredLitresPerHour: number;
      readonly measuredAtMps: number;
      readonly speedMps: number;
      readonly burnLitresPerHour: number;
    }
  | { readonly kind: "headwindLossNotReckoned" }
  | { readonly kind: "headwindLossWithSquareOfWindAhead"; readonly lossShare: number; readonly atWindMps: number }
  | { readonly kind: "headSeaLossNotReckoned" }
  | { readonly kind: "headSeaLoss"; readonly lossShare: number; readonly ridesOverMetres: number; readonly waterlineKnown: boolean }
  | {
      readonly kind: "sailTableEdges";
      /** Closer to the wind: no speed. */
      readonly closestDeg: number;
      /** Wider: what gybing makes good. */
      readonly widestDeg: number;
      /** Less wind: in proportion. */
      readonly lowestWindMps: number;
      /** More wind: no faster. */
      readonly highestWindMps: number;
    }
  | { readonly kind: "leewayNotReckoned" }
  | {
      readonly kind: "leewayFromEstimatedHeel";
      readonly coefficient: number;
      readonly capDeg: number;
      readonly heelDeg: number;
      readonly heelReachedAtApparentMps: number;
    }
  | { readonly kind: "engineNeverUsed" }
  | { readonly kind: "engineByRule"; readonly onBelowMps: number; readonly offAboveMps: number }
  | {
      readonly kind: "motorSailing";
      readonly exponent: number;
      readonly headsailOnlyBeyondDeg: number;
      readonly hullSpeedMps: number | null;
      readonly hullSpeedFrom: "given" | "waterline" | "notKnown";
    };

/** What the boat's speeds, leeway and burn rest on, for a boat that has passed `checkBoat`. Throws for one that has not. */
export function boatAssumptions(boat: BoatSpec): readonly BoatAssumption[] {
  const usesEngine = boat.goes !== "sail" || boat.engineRule !== null;
  return [
    ...(usesEngine ? powerAssumptions(boat) : []),
    ...headSeaAssumptions(boat, usesEngine),
    ...(boat.goes === "power" ? [] : sailAssumptions(boat)),
  ];
}

function headSeaAssumptions({ headSeaLossShare = 0, waterlineLengthMetres }: BoatSpec, usesEngine: boolean): BoatAssumption[] {
  const rule = headSeaRule(headSeaLossShare, waterlineLengthMetres);
  // With an engine it is said with the loss into the wind.
  if (rule === null) return usesEngine ? [] : [{ kind: "headSeaLossNotReckoned" }];
  return [{ kind: "headSeaLoss", ...rule, waterlineKnown: waterlineLengthMetres !== null }];
}

function powerAssumptions(boat: BoatSpec): BoatAssumption[] {
  const { power, waterlineLengthMetres: waterline } = boat;
  const engine = power === null ? null : enginePower(power, waterline);
  if (power === null || engine === null) throw new Error(`boat "${boat.name}" has not passed its check: no speed under power`);
  const list: BoatAssumption[] = [];
  if (engine.estimatedFromWaterline && waterline !== null) {
    list.push({
      kind: "speedEstimatedFromWaterline",
      waterlineLengthMetres: waterline,
      hullSpeedMps: hullSpeedMps(waterline),
      cruiseShare: CRUISE_SHARE_OF_HULL_SPEED,
      speedMps: engine.calmSpeedMps,
    });
  }
  if (power.burnLitresPerHour === null || engine.burnLitresPerHour === null) list.push({ kind: "burnNotGiven" });
  else if (power.burnMeasuredAtMps !== null && power.burnMeasuredAtMps !== engine.calmSpeedMps) {
    list.push({
      kind: "burnScaledByCubeLaw",
      measuredLitresPerHour: power.burnLitresPerHour,
      measuredAtMps: power.burnMeasuredAtMps,
      speedMps: engine.calmSpeedMps,
      burnLitresPerHour: engine.burnLitresPerHour,
    });
  }
  const lossShare = power.headwindLossShare;
  if (lossShare === 0) list.push({ kind: "headwindLossNotReckoned" });
  else list.push({ kind: "headwindLossWithSquareOfWindAhead", lossShare, atWindMps: HEADWIND_LOSS_AT_MPS });
  return list;
}

function sailAssumptions(boat: BoatSpec): BoatAssumption[] {
  const { anglesDeg, windsMps } = checkedTable(boat);
  const { sail, engineRule, motorSail } = boat;
  const list: BoatAssumption[] = [
    {
      kind: "sailTableEdges",
      closestDeg: anglesDeg[0],
      widestDeg: anglesDeg[anglesDeg.length - 1],
      lowestWindMps: windsMps[0],
      highestWindMps: windsMps[windsMps.length - 1],
    },
  ];
  if (sail === null || sail.leewayCoefficient === null) list.push({ kind: "leewayNotReckoned" });
  else {
    list.push({
      kind: "leewayFromEstimatedHeel",
      coefficient: sail.leewayCoefficient,
      capDeg: sail.leewayCapDeg,
      heelDeg: HEEL_WHERE_REEFED_DEG,
      heelReachedAtApparentMps: HEEL_REACHED_AT_APPARENT_MPS,
    });
  }
  if (boat.goes === "sail") list.push(engineRule === null ? { kind: "engineNeverUsed" } : { kind: "engineByRule", ...engineRule });
  if (boat.goes === "motor-sail" || engineRule !== null) {
    const cap = hullSpeedCapMps(boat);
    list.push({
      kind: "motorSailing",
      exponent: motorSail.exponent,
      headsailOnlyBeyondDeg: motorSail.headsailOnlyBeyondDeg,
      hullSpeedMps: cap,
      hullSpeedFrom: cap === null ? "notKnown" : motorSail.hullSpeedMps === null ? "waterline" : "given",
    });
  }
  return list;
}
