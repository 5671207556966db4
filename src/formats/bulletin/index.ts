/**
 * Bulletin: a forecaster's letter, plain text as it comes by e-mail, to wind and sea in periods. Local times with the letter's zone in,
 * UTC seconds and SI out; winds come from. What is not understood is shown and stops the reading until the skipper strikes it out.
 */
export { type Letter, type LetterLine, type LetterOptions, readLetter } from "./letter.ts";
export type { Noted } from "./noted-spans.ts";
