import type { LeaveAnswer } from "../core/plan/index.ts";
import { chanceErrorsJson, chanceJson } from "./chance-json.ts";
import { passageJson } from "./passage-json.ts";
import { rowJson } from "./row-json.ts";
import { seamJson } from "./seam-json.ts";

/** The departures of a passage as JSON, `athwart.leave/1`. */
export function leaveJson(answer: LeaveAnswer) {
  return {
    schema: "athwart.leave/1" as const,
    passage: passageJson(answer.prepared),
    chanceErrors: chanceErrorsJson(answer.prepared),
    departures: answer.rows.map((row, i) => ({
      ...rowJson(row, burnKnown(answer.prepared)),
      chance: chanceOrNull(answer.chances[i] ?? null),
      seams: (answer.seams[i] ?? []).map(seamJson),
    })),
  };
}

const chanceOrNull = (chance: LeaveAnswer["chances"][number]) => (chance === null ? null : chanceJson(chance));

/** Fuel is told only where the boat's burn is known. */
export function burnKnown(prepared: LeaveAnswer["prepared"]): boolean {
  const { boat } = prepared.passage;
  return boat.power !== null && boat.power.burnLitresPerHour !== null;
}
