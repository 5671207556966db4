/** A longer text than this is no quantity; it is refused before anything tries to read it. */
export const LONGEST_QUANTITY = 200;

/**
 * Text as people and their word processors write it, brought to plain characters: every kind of space to one space, primes and curly
 * quotes to ' and ", degree signs to °, dashes and minus signs to -, ½ ¼ ¾ to decimals; trimmed.
 */
export function tidy(text: string): string {
  return text
    .replace(/[\u200B-\u200F\u2060\uFEFF]/g, "")
    .replace(/[\u2032\u2018\u2019\u00B4\u02B9\u02BC]/g, "'")
    .replace(/[\u2033\u201C\u201D\u02BA]|''/g, '"')
    .replace(/[\u00BA\u02DA]/g, "°")
    .replace(/[\u2010-\u2015\u2212]/g, "-")
    .replace(/(\d?) ?([½¼¾])/g, (_, digit: string, part: string) => `${digit || "0"}.${part === "½" ? "5" : part === "¼" ? "25" : "75"}`)
    .replace(/\s+/g, " ")
    .trim();
}

/** What was typed, in quotation marks, cut when it is long. */
export function quoted(text: string): string {
  const shown = text.replace(/\s+/g, " ").trim();
  const letters = [...shown];
  return `“${letters.length > 80 ? `${letters.slice(0, 79).join("")}…` : shown}”`;
}

/** A number for a message: at most so many significant figures, no needless noughts, never an exponent where a person would write digits. */
export function plainNumber(value: number, figures = 5): string {
  return String(Number(value.toPrecision(figures)));
}
