import type { LaneCrossing, SquareDepartures, SquareLook } from "../core/passage/index.ts";
import { iso, rounded } from "./instant.ts";

const deg = (value: number | null): number | null => (value === null ? null : rounded(value, 2));

/** One way through one traffic lane. */
export function laneCrossingJson(crossing: LaneCrossing) {
  return {
    lane: crossing.laneName,
    flowDegTrue: crossing.flowDegTrue,
    enteredAt: iso(crossing.enteredAt),
    enteredLatitudeDeg: rounded(crossing.entered.latitudeDeg, 5),
    enteredLongitudeDeg: rounded(crossing.entered.longitudeDeg, 5),
    leftAt: iso(crossing.leftAt),
    leftLatitudeDeg: rounded(crossing.left.latitudeDeg, 5),
    leftLongitudeDeg: rounded(crossing.left.longitudeDeg, 5),
    offSquareWorstDeg: deg(crossing.offSquareWorstDeg),
    offSquareMeanDeg: deg(crossing.offSquareMeanDeg),
    headed: crossing.headed,
    notSquare: crossing.flagged,
  };
}

const look = (one: SquareLook) => ({
  departAt: iso(one.departAt),
  arrivalAt: iso(one.arrivalAt),
  headingDegTrue: rounded(one.headingDegTrue, 2),
  offSquareDeg: rounded(one.offSquareDeg, 2),
});

/** From which departures one heading is square in the lanes. */
export function squareDeparturesJson(square: SquareDepartures) {
  return {
    withinDeg: square.toleranceDeg,
    spells: square.spells.map((spell) => ({ from: iso(spell.from), until: iso(spell.until), squarest: look(spell.squarest) })),
    squarest: square.squarest === null ? null : look(square.squarest),
  };
}
