/**
 * Words: from the core to the skipper's own units, ship's and port time, and sentences. Knots, nautical miles and three-figure headings
 * come out; SI and UTC seconds go in. Every printed time stands beside its zone; nothing is judged or reckoned here.
 */

export * from "./say-after-arrival.ts";
export * from "./say-anchor.ts";
export * from "./say-anchor-nights.ts";
export * from "./say-board.ts";
export * from "./say-boards.ts";
export * from "./say-chance.ts";
export * from "./say-crossing.ts";
export * from "./say-felt.ts";
export * from "./say-fuel.ts";
export * from "./say-gates.ts";
export * from "./say-head.ts";
export * from "./say-inlet.ts";
export * from "./say-lanes.ts";
export * from "./say-leave.ts";
export * from "./say-limit.ts";
export * from "./say-quantity.ts";
export * from "./say-refuges.ts";
export * from "./say-sea.ts";
export * from "./say-seam.ts";
export * from "./say-sky.ts";
export * from "./say-sources.ts";
export * from "./say-standing-off.ts";
export * from "./say-steering.ts";
export * from "./say-streams.ts";
export * from "./say-time.ts";
export * from "./say-unset-limits.ts";
