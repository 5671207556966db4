import { WAY_NAMES, type Way, type WayArrives } from "./way.ts";

/** What an order may cost against the best computed before a less simple one is advised, seconds: five minutes (common practice). */
export const SIMPLER_MAY_COST_SECONDS = 300;

/** The order that is advised: the simplest whose arrival is within `SIMPLER_MAY_COST_SECONDS` of the earliest; null when no way arrives. */
export function recommended(ways: readonly Way[]): WayArrives | null {
  const arriving = ways.filter((way): way is WayArrives => way.kind === "arrives");
  const earliest = Math.min(...arriving.map((way) => way.arrivalAt));
  for (const name of WAY_NAMES) {
    const way = arriving.find((one) => one.name === name);
    if (way !== undefined && way.arrivalAt - earliest <= SIMPLER_MAY_COST_SECONDS) return way;
  }
  return null;
}
