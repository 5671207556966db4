/**
 * Window: try departures through their gates, feel what each passage would meet, judge it by the skipper's limits, decide open, marginal or
 * closed, and reckon the time in hand and the chance. Four stages, run, feel, judge, decide; limits enter only at judge. SI and UTC seconds.
 */

export * from "./board.ts";
export * from "./chance/chance.ts";
export * from "./chance/chance-errors.ts";
export { ChanceMemo } from "./chance/chance-memo.ts";
export { type KeptChance, keepChance } from "./chance/kept-chance.ts";
export { type CrossingsTried, type OrderToTry, orderToTry, tryCrossings } from "./chance/try-crossings.ts";
export * from "./departures.ts";
export * from "./exposure.ts";
export * from "./felt-column.ts";
export * from "./gates/cure.ts";
export * from "./gates/gate-doors.ts";
export { type GatesRun, gateFaultOf, gatesPassed, intoHarbour, outOfHarbour, waitedSeconds } from "./gates/pass-gates.ts";
export * from "./judged.ts";
export * from "./limit.ts";
export * from "./margin.ts";
export { MarginMemo } from "./margin-memo.ts";
export * from "./once/felt-once.ts";
export * from "./once/once-value.ts";
export * from "./once/passage-facts.ts";
export * from "./passage-nodes.ts";
export * from "./runs-settled.ts";
export { EASIEST_SECONDS_PER_METRE } from "./sea-on-stream.ts";
export * from "./since-against.ts";
export * from "./time-in-hand.ts";
export * from "./trial.ts";
export * from "./verdict.ts";
export * from "./way-judged.ts";
export * from "./weather-to-feel.ts";
export * from "./wind-felt.ts";
