import { readFileSync } from "node:fs";
import type { Issue } from "../../../src/core/answers/index.ts";
import { type PassageDocument, readPassage } from "../../../src/formats/passage/index.ts";

/** The kept file of version 1. It is never changed: it shows that files of that version are read for good. */
export const PASSAGE_1 = readFileSync(new URL("./fixtures/passage-1.yaml", import.meta.url), "utf8");

const REFERENCE = readFileSync(new URL("../../../docs/passage.md", import.meta.url), "utf8");

/** The examples of the reference, as a reader would copy them out. */
export const REFERENCE_YAML = block("yaml");
export const REFERENCE_JSON = block("json");
export const REFERENCE_TEXT = REFERENCE;

function block(language: string): string {
  const found = new RegExp(`\`\`\`${language}\n([\\s\\S]*?)\`\`\``).exec(REFERENCE);
  if (found?.[1] === undefined) throw new Error(`no ${language} example in the reference`);
  return found[1];
}

export function good(text: string): PassageDocument {
  const read = readPassage(text, { name: "passage.yaml" });
  if (!read.ok) throw new Error(read.issues.map((one) => `${one.path}: ${one.message}`).join("\n"));
  return read.value;
}

export function issuesOf(text: string): readonly Issue[] {
  const read = readPassage(text, { name: "passage.yaml" });
  return read.ok ? [] : read.issues;
}

/** The text with one piece changed; throws when the piece isn't there just once, so that a test can't pass on an unchanged text. */
export function changed(text: string, from: string, to: string): string {
  if (text.split(from).length !== 2) throw new Error(`${JSON.stringify(from)} stands ${text.split(from).length - 1} times`);
  return text.replace(from, () => to);
}

/** The line, from 1, on which a piece of a text stands. */
export function lineOf(text: string, piece: string): number {
  return text.slice(0, text.indexOf(piece)).split("\n").length;
}
