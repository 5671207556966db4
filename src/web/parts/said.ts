import { element, paragraphs } from "../dom/element.ts";

/** A longer sentence than this is read, not taken in at a glance: it is set as text. */
const LONGEST_HEADING = 140;

/** The opening of a section: the first sentence to act on, strong; those after it in the same size, lighter. */
export function saidSentences(sentences: readonly string[]): Node[] {
  const [first, ...rest] = sentences.filter((sentence) => sentence !== "");
  if (first === undefined) return [];
  const [second, ...others] = rest;
  if (first.length > LONGEST_HEADING) return paragraphs([first, ...rest], "said-long");
  const head = element("h3", {}, element("b", {}, first), second === undefined ? null : ` ${second}`);
  return [head, ...paragraphs(others, "said-after")];
}

/** A fold: a line that opens what stands under it. */
export function fold(words: string, className: string, ...contents: readonly (Node | string)[]): HTMLDetailsElement {
  return element("details", { class: `unfolds ${className}` }, element("summary", {}, words), ...contents);
}
