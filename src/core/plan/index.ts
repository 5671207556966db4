/**
 * Plan: the crossing as a whole: the passage the skipper states, from berth to berth, put together with its sources, its departures
 * tried, one of them looked at closely. (Staging, watches, bail-outs, the float plan and reminders join here.) SI and UTC seconds;
 * zones are names.
 */
export * from "./cross.ts";
export * from "./departure-times.ts";
export * from "./leave.ts";
export * from "./passage.ts";
export * from "./prepare.ts";
export * from "./seams.ts";
export * from "./steering.ts";
