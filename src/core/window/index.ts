/**
 * Window: try departures, feel what each passage would meet, judge it by the skipper's limits, decide open, marginal or closed, and
 * reckon the time in hand. Four stages, run, feel, judge, decide; limits enter only at judge. SI and UTC seconds.
 */

export * from "./board.ts";
export * from "./departures.ts";
export * from "./exposure.ts";
export * from "./limit.ts";
export * from "./margin.ts";
export * from "./passage-nodes.ts";
export * from "./runs-settled.ts";
export * from "./since-against.ts";
export * from "./time-in-hand.ts";
export * from "./verdict.ts";
export * from "./weather-to-feel.ts";
export * from "./wind-felt.ts";
