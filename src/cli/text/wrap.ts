/** The width that answers are set to, in characters. */
export const WIDTH = 80;

/** Breaks text at spaces so that no line is longer than `width`; following lines are indented. No-break spaces hold. */
export function wrap(text: string, width: number = WIDTH, indent = "", first = indent): string {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(" ")) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  lines.push(line);
  return lines.join("\n");
}

/** Pads or cuts to a width; a cut ends in an ellipsis. */
export function cell(text: string, width: number, side: "left" | "right" = "left"): string {
  if (text.length > width) return `${text.slice(0, width - 1)}…`;
  return side === "left" ? text.padEnd(width) : text.padStart(width);
}
