/**
 * Api: the answers as JSON, the only thing that the command line, the server and the page share. A unit stands in the name of every
 * key (`Kn`, `Nm`, `Metres`, `Seconds`, `Deg…`), instants are ISO 8601 in UTC, and each answer carries its schema's name and version.
 * In `told/`: what a page or a sheet of paper shows, words said and figures ready to be drawn, with schemas; clocks there are ship's time. In `http/`: what the server
 * is asked and answers.
 */
export * from "./anchor-json.ts";
export * from "./chance-json.ts";
export * from "./cross-json.ts";
export * from "./http/answers.ts";
export * from "./http/requests.ts";
export * from "./inlet-json.ts";
export * from "./inspect-json.ts";
export * from "./instant.ts";
export * from "./leave-json.ts";
export * from "./no-answer-json.ts";
export * from "./passage-json.ts";
export * from "./refuges-json.ts";
export * from "./row-json.ts";
export * from "./sky-json.ts";
export * from "./steer-json.ts";
export { BoardSky } from "./told/board-sky.ts";
export * from "./told/board-told.ts";
export * from "./told/board-told-of.ts";
export * from "./told/departure-told.ts";
export * from "./told/departure-told-of.ts";
export * from "./told/inlet-told.ts";
export * from "./told/inlet-told-of.ts";
export * from "./told/line-told-of.ts";
export * from "./told/refuges-told.ts";
export * from "./told/refuges-told-of.ts";
export * from "./told/section-told.ts";
export * from "./told/section-told-of.ts";
export * from "./told/sources-told-of.ts";
export * from "./told/ways-told-of.ts";
export * from "./variation-json.ts";
export * from "./wave-json.ts";
