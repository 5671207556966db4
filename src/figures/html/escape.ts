import { escapeText } from "../svg/escape.ts";

/** Text made safe to stand in HTML or SVG, between tags and in quoted attributes alike. */
export const escapeHtml = escapeText;

/** Words for who listens to the page, not seen on it. */
export function unseen(text: string): string {
  return `<span class="unseen">${escapeHtml(text)}</span>`;
}

/** Class names joined, those that don't hold left out. */
export function classes(...names: readonly (string | false | null)[]): string {
  return names.filter((name) => name !== false && name !== null && name !== "").join(" ");
}

/** A paragraph for each sentence group; nothing for none. */
export function paragraphs(texts: readonly string[], className: string): string {
  return texts.map((text) => `<p class="${className}">${escapeHtml(text)}</p>`).join("");
}
