/**
 * Api: the answers as JSON, the only thing that the command line, the server and the page share. A unit stands in the name of every
 * key (`Kn`, `Nm`, `Metres`, `Seconds`, `Deg…`), instants are ISO 8601 in UTC, and each answer carries its schema's name and version.
 */
export * from "./chance-json.ts";
export * from "./cross-json.ts";
export * from "./inspect-json.ts";
export * from "./instant.ts";
export * from "./leave-json.ts";
export * from "./no-answer-json.ts";
export * from "./passage-json.ts";
export * from "./refuges-json.ts";
export * from "./row-json.ts";
export * from "./sky-json.ts";
export * from "./steer-json.ts";
export * from "./variation-json.ts";
