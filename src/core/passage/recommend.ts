import { WAY_NAMES, type Way, type WayArrives } from "./way.ts";

/** What an order may cost against the best computed before a less simple one is advised, seconds: five minutes (common practice). */
export const SIMPLER_MAY_COST_SECONDS = 300;

/** Whether a way crosses a traffic lane off square by more than is allowed for (`SQUARE_WITHIN_DEG`). */
export function isNotSquare(way: WayArrives): boolean {
  return way.laneCrossings.some((crossing) => crossing.flagged);
}

/**
 * The order that is advised: the simplest whose arrival is within `SIMPLER_MAY_COST_SECONDS` of the earliest; null when no way arrives.
 * A way that is not square in a traffic lane is advised only where no other arrives, and counts for no earliest: rule 10(c) comes
 * before minutes. `bestArrivalAt`: when the fastest way arrives, where it was sought.
 */
export function recommended(ways: readonly Way[], bestArrivalAt: number = Number.POSITIVE_INFINITY): WayArrives | null {
  const all = ways.filter((way): way is WayArrives => way.kind === "arrives");
  const square = all.filter((way) => !isNotSquare(way));
  const arriving = square.length > 0 ? square : all;
  const earliest = Math.min(bestArrivalAt, ...arriving.map((way) => way.arrivalAt));
  for (const name of WAY_NAMES) {
    const way = arriving.find((one) => one.name === name);
    if (way !== undefined && way.arrivalAt - earliest <= SIMPLER_MAY_COST_SECONDS) return way;
  }
  // Where the yardstick can't be made into an order, the earliest order is the best that a helm can be given.
  return arriving.reduce<WayArrives | null>((least, way) => (least !== null && least.arrivalAt <= way.arrivalAt ? least : way), null);
}
