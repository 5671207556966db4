/**
 * Sea: waves, waves on a current, and what the boat feels of them. Heights are significant wave heights in metres, periods seconds, lengths
 * metres. Waves come *from* (`waveFromDegTrue`, `fromDegTrue`), currents are motions *toward*; a current "along the wave" is positive where it
 * runs with the wave. A period alone is the peak's, as met at a fixed place; `relativePeriodSeconds` is the one met drifting with the water.
 * Depth null is deep water. Where no source gives a sea, the one that the wind raises stands behind the same door (`raisedSea`). Swell and wind sea are each judged apart; only their heights are combined, by squares.
 */

export * from "./beaufort.ts";
export * from "./blocking.ts";
export * from "./breaking.ts";
export * from "./combined-sea.ts";
export * from "./deep-factors.ts";
export * from "./dispersion.ts";
export * from "./encounter.ts";
export * from "./growing-sea.ts";
export * from "./growth-law.ts";
export * from "./judged-sea.ts";
export * from "./lying-down.ts";
export * from "./raised-places.ts";
export * from "./raised-sea.ts";
export * from "./sea-against.ts";
export * from "./sea-comfort.ts";
export * from "./sea-grown.ts";
export * from "./sea-state.ts";
export * from "./shoaling.ts";
export * from "./split-sea.ts";
export * from "./standing-sea.ts";
export * from "./wave-on-current.ts";
export * from "./wave-over-edge.ts";
export * from "./wave-source.ts";
export * from "./wave-system.ts";
export * from "./wind-sea.ts";
export * from "./written-for-ships.ts";
