/**
 * Weather: wind, gusts, visibility, the chance of thunderstorms and the sea as sources give it: height, period and the systems it is made of
 * (the room `sea` raises one from the wind where none is given). Speeds m/s at 10 m, directions where the wind comes from, degrees true. A reading may be a range or have two ends; the worse end is taken where a limit is judged.
 */

export * from "./combined-wind.ts";
export * from "./grid-wind.ts";
export * from "./period-spans.ts";
export * from "./period-wind.ts";
export * from "./ranged.ts";
export * from "./sea.ts";
export * from "./sea-systems.ts";
export * from "./widest-wind.ts";
export * from "./wind.ts";
export * from "./wind-felt.ts";
export * from "./wind-period.ts";
