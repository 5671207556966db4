import { type Issue, issue } from "../answers/index.ts";
import { knotsFromMps, mpsFromKnots } from "../units/index.ts";
import type { BoatSpec, PowerSpec, SailSpec } from "./boat-spec.ts";
import { MOST_HEAD_SEA_LOSS_SHARE } from "./head-seas.ts";
import { sailTable } from "./sail-table.ts";

/** Beyond these a figure for a small cruising boat is a slip of the pen or of the unit. Common practice. */
export const LARGEST_LENGTH_METRES = 60;
export const LARGEST_DRAUGHT_METRES = 10;
export const LARGEST_AIR_DRAUGHT_METRES = 80;
export const FASTEST_POWER_SPEED_MPS: number = mpsFromKnots(50);
export const LARGEST_BURN_LITRES_PER_HOUR = 1000;
export const LARGEST_FUEL_LITRES = 50_000;
export const LARGEST_LEEWAY_CAP_DEG = 45;
/** The leeway rule's K for boats from a dinghy to a ship lies well inside these, degrees × knots² (464 for a boat of 12.2 m). */
export const SMALLEST_LEEWAY_COEFFICIENT = 100;
export const LARGEST_LEEWAY_COEFFICIENT = 2000;

const short = (value: number): string => String(Number(value.toPrecision(4)));

/** A figure above 0 and not above `most` (both in `unit`), or an issue; null is not given. */
function sizeIssue(path: string, what: string, value: number | null, most: number, unit: string): Issue[] {
  if (value === null || (value > 0 && value <= most)) return [];
  return [issue(path, "boat-out-of-range", `${what} is ${short(value)} ${unit}; it must be above 0 and not above ${short(most)} ${unit}.`)];
}

function speedIssue(path: string, what: string, mps: number | null): Issue[] {
  return sizeIssue(path, what, mps === null ? null : knotsFromMps(mps), knotsFromMps(FASTEST_POWER_SPEED_MPS), "kn");
}

function rangeIssue(path: string, what: string, value: number, least: number, most: number, unit: string): Issue[] {
  if (value >= least && value <= most) return [];
  return [issue(path, "boat-out-of-range", `${what} is ${short(value)}${unit}; it must be from ${least} to ${most}${unit}.`)];
}

function sizesIssues(boat: BoatSpec): Issue[] {
  const { lengthOverallMetres: overall, waterlineLengthMetres: waterline } = boat;
  const issues = [
    ...sizeIssue("boat.lengthOverall", "The length overall", overall, LARGEST_LENGTH_METRES, "m"),
    ...sizeIssue("boat.waterlineLength", "The waterline length", waterline, LARGEST_LENGTH_METRES, "m"),
    ...sizeIssue("boat.draught", "The draught", boat.draughtMetres, LARGEST_DRAUGHT_METRES, "m"),
    ...sizeIssue("boat.airDraught", "The air draught", boat.airDraughtMetres, LARGEST_AIR_DRAUGHT_METRES, "m"),
    ...rangeIssue(
      "boat.headSeaLoss",
      "The share of speed lost in head seas",
      (boat.headSeaLossShare ?? 0) * 100,
      0,
      100 * MOST_HEAD_SEA_LOSS_SHARE,
      " %",
    ),
  ];
  if (overall !== null && waterline !== null && waterline > overall && issues.length === 0) {
    const message = `The waterline (${short(waterline)} m) is longer than the boat overall (${short(overall)} m).`;
    issues.push(issue("boat.waterlineLength", "boat-contradiction", message));
  }
  return issues;
}

function powerIssues(power: PowerSpec, waterlineLengthMetres: number | null): Issue[] {
  const issues = [
    ...speedIssue("boat.power.speed", "The speed under power", power.speedMps),
    ...sizeIssue("boat.power.burn", "The burn", power.burnLitresPerHour, LARGEST_BURN_LITRES_PER_HOUR, "L/h"),
    ...speedIssue("boat.power.burnMeasuredAt", "The speed at which the burn was measured", power.burnMeasuredAtMps),
    ...sizeIssue("boat.power.usableFuel", "The usable fuel", power.usableFuelLitres, LARGEST_FUEL_LITRES, "L"),
    ...rangeIssue("boat.power.headwindLoss", "The share of speed lost into 20 kn", power.headwindLossShare * 100, 0, 100, " %"),
  ];
  if (power.speedMps === null && waterlineLengthMetres === null) {
    const message = "No speed under power is given, and no waterline length to estimate it from.";
    issues.push(issue("boat.power.speed", "boat-speed-unknown", message));
  }
  if (power.burnMeasuredAtMps !== null && power.burnLitresPerHour === null) {
    const message = "A speed is given at which the burn was measured, but no burn.";
    issues.push(issue("boat.power.burn", "boat-incomplete", message, "Give the burn, or take `burnMeasuredAt` out."));
  }
  return issues;
}

function sailIssues(sail: SailSpec): Issue[] {
  const table = sailTable(sail.points);
  const issues = table.ok ? [] : [...table.issues];
  const coefficient = sail.leewayCoefficient;
  if (coefficient !== null) {
    if (!(coefficient >= SMALLEST_LEEWAY_COEFFICIENT && coefficient <= LARGEST_LEEWAY_COEFFICIENT)) {
      const message = `The leeway coefficient is ${short(coefficient)}; for K·sin(heel)/V² it lies from ${SMALLEST_LEEWAY_COEFFICIENT} to ${LARGEST_LEEWAY_COEFFICIENT}.`;
      issues.push(issue("boat.sail.leeway.coefficient", "leeway-coefficient-doubtful", message));
    }
    issues.push(...sizeIssue("boat.sail.leeway.cap", "The most leeway", sail.leewayCapDeg, LARGEST_LEEWAY_CAP_DEG, "degrees"));
  }
  return issues;
}

function engineRuleIssues(rule: NonNullable<BoatSpec["engineRule"]>): Issue[] {
  const issues = [
    ...speedIssue("boat.engineRule.onBelow", "The speed under sail below which the engine goes on", rule.onBelowMps),
    ...speedIssue("boat.engineRule.offAbove", "The speed under sail above which the engine goes off", rule.offAboveMps),
  ];
  if (issues.length === 0 && rule.offAboveMps <= rule.onBelowMps) {
    const [on, off] = [short(knotsFromMps(rule.onBelowMps)), short(knotsFromMps(rule.offAboveMps))];
    const message = `The engine goes off above ${off} kn under sail, but on below ${on} kn; it must go off above more than it goes on below.`;
    issues.push(issue("boat.engineRule.offAbove", "boat-contradiction", message));
  }
  return issues;
}

function missing(boat: BoatSpec): Issue[] {
  const issues: Issue[] = [];
  if (boat.goes !== "power" && boat.sail === null) {
    issues.push(issue("boat.sail", "boat-incomplete", `The boat goes by ${boat.goes}, but no table of its speeds under sail is given.`));
  }
  if (boat.power === null && boat.goes !== "sail") {
    issues.push(issue("boat.power", "boat-incomplete", `The boat goes by ${boat.goes}, but nothing is said of its power.`));
  } else if (boat.power === null && boat.engineRule !== null) {
    issues.push(issue("boat.power", "boat-incomplete", "There is an engine rule, but nothing is said of the boat's power."));
  }
  return issues;
}

/**
 * Everything that is wrong with a boat as stated, at once: figures that can't be, what is missing for the way it goes, contradictions,
 * a sail table that is no full grid. Paths are the passage file's keys (`boat.power.speed`). Empty: the boat can be built. The compass
 * is not judged here.
 */
export function checkBoat(boat: BoatSpec): Issue[] {
  const { exponent, headsailOnlyBeyondDeg, hullSpeedMps } = boat.motorSail;
  return [
    ...sizesIssues(boat),
    ...missing(boat),
    ...(boat.power === null ? [] : powerIssues(boat.power, boat.waterlineLengthMetres)),
    ...(boat.sail === null ? [] : sailIssues(boat.sail)),
    ...(boat.engineRule === null ? [] : engineRuleIssues(boat.engineRule)),
    ...rangeIssue("boat.motorSail.exponent", "The exponent", exponent, 2, 3, ""),
    ...rangeIssue("boat.motorSail.headsailOnlyBeyond", "The headsail's angle", headsailOnlyBeyondDeg, 0, 180, "°"),
    ...speedIssue("boat.motorSail.hullSpeed", "The hull speed", hullSpeedMps),
  ];
}
