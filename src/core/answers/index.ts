/**
 * What an answer may be. The lowest room: it holds no trade, only the three ways in which a question can fail to have a plain
 * answer: our own bug (an `Error` that quotes the bad value), the sea or the data having none (`NoAnswer`, returned), and bad input
 * (`Issue`s, all at once, each with its place, its code and what to do). The one registry of codes is here; every code that any
 * room raises stands in it with its meaning and its cure, and a test holds the registry against the code and the docs.
 */
export { type Code, type CodeEntry, codes, meaningOf } from "./codes.ts";
export { BadInput, bad, good, type Issue, issue, type Parsed } from "./issue.ts";
export type { NoAnswer } from "./no-answer.ts";
