import type { BoatModel } from "../boat/index.ts";
import { alongOf, type Line } from "./line.ts";
import type { Leg } from "./run-legs.ts";
import type { HelmOrder } from "./way.ts";

/** Legs that keep headings one after another, each until the next is due by the clock, and all no farther than `metres` along the line. */
export function legsOfHeadings(boat: BoatModel, line: Line, orders: readonly HelmOrder[], metres: number): readonly Leg[] {
  return orders.map((order, i): Leg => {
    const { steer } = order;
    if (steer.kind !== "heading") throw new Error(`no heading but ${steer.kind} among headings`);
    const next = orders[i + 1]?.fromAt;
    return {
      boat,
      plan: (from) => {
        const isDone = alongOf(line, from.xMetres, from.yMetres) >= metres || (next !== undefined && from.at >= next);
        if (isDone) return null;
        const until = { kind: "along", line, metres } as const;
        return {
          helm: { kind: "heading", headingDegTrue: steer.headingDegTrue },
          until: next === undefined ? until : { ...until, byAt: next },
        };
      },
    };
  });
}
