/** One line of the text that holds something: its number in the file (from 1) and its cells. */
export interface TableLine {
  readonly lineNumber: number;
  readonly cells: readonly string[];
}

/**
 * Splits a text into lines of cells. Tabs and semicolons separate before commas, commas before spaces; the first line settles it for
 * all, so that `5,3` is a number in a table separated otherwise. Blank lines and lines that begin with `#` are left out.
 */
export function tableLines(text: string): TableLine[] {
  const lines: { readonly lineNumber: number; readonly line: string }[] = [];
  text
    .replace(/^\uFEFF/, "")
    .split(/\r\n|\r|\n/)
    .forEach((line, i) => {
      if (line.trim() !== "" && !line.trimStart().startsWith("#")) lines.push({ lineNumber: i + 1, line });
    });
  const first = lines[0]?.line ?? "";
  const separator = /[\t;]/.test(first) ? /[\t;]/ : first.includes(",") ? "," : null;
  return lines.map(({ lineNumber, line }, i) => {
    if (separator !== null) return { lineNumber, cells: withoutLastEmpty(line.split(separator).map((cell) => cell.trim())) };
    const cells = line.trim().split(/\s+/);
    return { lineNumber, cells: i === 0 ? withOneCorner(cells) : cells };
  });
}

/** Between spaces the words before the first number are one cell: `true wind 6 8 10` has one word in the corner. */
function withOneCorner(cells: string[]): string[] {
  const firstNumber = cells.findIndex((cell) => /^[+-]?\.?\d/.test(cell));
  const words = firstNumber === -1 ? cells.length : firstNumber;
  return words < 2 ? cells : [cells.slice(0, words).join(" "), ...cells.slice(words)];
}

/** A separator at the end of a line opens no cell of its own. */
function withoutLastEmpty(cells: string[]): string[] {
  let end = cells.length;
  while (end > 1 && cells[end - 1] === "") end -= 1;
  return cells.slice(0, end);
}

/** A number as a table writes it, with one of the units it may carry; null when it is none. A decimal comma serves as a point. */
export function cellNumber(cell: string, unit: RegExp): number | null {
  const bare = cell.replace(unit, "").trim().replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(bare) ? Number(bare) : null;
}

/** Marks by which a table says that it has nothing here. */
export function isHole(cell: string): boolean {
  return /^([-–—.*?x]*|n\/?a|nan|nil|none|null)$/i.test(cell);
}

/** A cell to be quoted in a message: short, and without what a terminal could take amiss. */
export function quoted(cell: string): string {
  const clean = cell.replace(/\p{C}/gu, "\uFFFD");
  return `"${clean.length > 24 ? `${clean.slice(0, 24)}…` : clean}"`;
}
