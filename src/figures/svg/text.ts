import type { Face } from "./advances.ts";
import type { Box, Point } from "./box.ts";
import { escapeText } from "./escape.ts";
import { px } from "./px.ts";
import { textWidthPx } from "./text-width.ts";

/** Which end of a line of text stands at its point. */
export type Anchor = "start" | "middle" | "end";

/** A line of text to be set: its base line's point, which end stands there, its size and face, and the class that gives its ink. */
export type Line = {
  readonly text: string;
  readonly at: Point;
  readonly anchor: Anchor;
  readonly sizePx: number;
  readonly face: Face;
  readonly className: string;
  /** Read from below upward, turned about its point. */
  readonly upright?: boolean;
};

/** Over the base line stand capitals and ascenders, under it descenders: shares of the size, of both families. */
const OVER = 0.78;
const UNDER = 0.24;

/** The box that the ink of a line stands in. */
export function boxOf(line: Line): Box {
  const width = textWidthPx(line.text, line.sizePx, line.face);
  const before = line.anchor === "start" ? 0 : line.anchor === "end" ? width : width / 2;
  const [x, y] = line.at;
  const [over, under] = [line.sizePx * OVER, line.sizePx * UNDER];
  if (line.upright === true) return { left: x - over, right: x + under, top: y + before - width, bottom: y + before };
  return { left: x - before, right: x - before + width, top: y - over, bottom: y + under };
}

/** The line as an SVG element. */
export function drawText(line: Line): string {
  const [x, y] = [px(line.at[0]), px(line.at[1])];
  const anchor = line.anchor === "start" ? "" : ` text-anchor="${line.anchor}"`;
  const turn = line.upright === true ? ` transform="rotate(-90 ${x} ${y})"` : "";
  return `<text class="${line.className}" x="${x}" y="${y}" font-size="${px(line.sizePx)}"${anchor}${turn}>${escapeText(line.text)}</text>`;
}
