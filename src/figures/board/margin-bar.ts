import type { VerdictTold } from "../../api/index.ts";
import { hatchStrokes, tenth } from "./hatch.ts";

/** Measures of a margin's bar, px: of the screen, of a narrow one, of paper. */
export interface BarSize {
  /** The length of a margin of 1. */
  readonly unitPx: number;
  /** Where the rule of *never* stands. */
  readonly neverPx: number;
  readonly widthPx: number;
  readonly thickPx: number;
  readonly hatchPitchPx: number;
  /** The line at which the bar stands by the top of a tall cell; null: in the middle. */
  readonly fromTopPx: number | null;
}

export type BarKind = "wide" | "compact" | "paper";

export const barSizes: Readonly<Record<BarKind, BarSize>> = {
  wide: { unitPx: 48, neverPx: 54, widthPx: 112, thickPx: 11, hatchPitchPx: 4.6, fromTopPx: null },
  compact: { unitPx: 30, neverPx: 36, widthPx: 74, thickPx: 11, hatchPitchPx: 4.6, fromTopPx: 12 },
  // Wider apart on paper: at the screen's pitch a printer makes the strokes a grey.
  paper: { unitPx: 21, neverPx: 24, widthPx: 50, thickPx: 6.6, hatchPitchPx: 3.6, fromTopPx: null },
};

/** What a bar shows. */
export interface BarTold {
  readonly verdict: VerdictTold;
  readonly margin: number | null;
  /** The margin below which a departure is marginal: the dotted rule. */
  readonly marginalBelow: number;
}

/** The longest bar on either side, in margins: what goes beyond is cut, and drawn as cut. */
const leastDrawn = -1;
const mostDrawn = 1.1;

/**
 * A margin as a bar from the rule of *never*: to the right room left, to the left past it. The rules go through the whole height of the cell
 * that holds the drawing, so that they run down a block of lines unbroken, however tall a line is. Open is solid, marginal half ink, closed
 * hatched, not judged a dashed outline. The figure stands beside it in words: the drawing itself is not read aloud.
 */
export function drawMarginBar(told: BarTold, kind: BarKind): string {
  const size = barSizes[kind];
  const at = (margin: number): number => size.neverPx + margin * size.unitPx;
  const y = size.fromTopPx === null ? "50%" : String(size.fromTopPx);
  return (
    `<svg class="bar" width="${size.widthPx}" height="100%" aria-hidden="true" focusable="false">` +
    rule("bar-happy", at(1)) +
    rule("bar-line", at(told.marginalBelow)) +
    `<svg y="${y}" overflow="visible">${barItself(told, size, at)}</svg>` +
    rule("bar-never", at(0)) +
    "</svg>"
  );
}

/** The rules alone, for a line without a bar. */
export function drawBarRules(marginalBelow: number, kind: BarKind, inside = ""): string {
  const { neverPx, unitPx, widthPx } = barSizes[kind];
  return (
    `<svg class="bar" width="${widthPx}" height="100%" aria-hidden="true" focusable="false">` +
    `${rule("bar-happy", neverPx + unitPx)}${rule("bar-line", neverPx + marginalBelow * unitPx)}${inside}${rule("bar-never", neverPx)}</svg>`
  );
}

/** A rule a little longer than its cell at both ends: cells whose height is a broken number of px leave no gap. */
function rule(className: string, x: number): string {
  return `<line class="${className}" x1="${tenth(x)}" x2="${tenth(x)}" y1="-1" y2="101%"/>`;
}

function barItself(told: BarTold, size: BarSize, at: (margin: number) => number): string {
  const half = size.thickPx / 2;
  const box = (from: number, to: number): string =>
    `x="${tenth(Math.min(from, to))}" y="${tenth(-half)}" width="${tenth(Math.max(1.5, Math.abs(to - from)))}" height="${tenth(size.thickPx)}"`;
  const { margin, verdict } = told;
  if (margin === null) {
    return verdict === "notJudged" ? `<rect class="bar-unjudged" ${box(at(0) + 1, at(0.72))}/>` : "";
  }
  const end = at(Math.min(mostDrawn, Math.max(leastDrawn, margin)));
  const cut = margin > mostDrawn || margin < leastDrawn ? cutMark(end + (margin > 0 ? -6 : 6), half) : "";
  if (verdict === "notJudged") return `<rect class="bar-unjudged" ${box(at(0) + 1, end)}/>${cut}`;
  if (verdict === "open") return `<rect class="bar-open" ${box(at(0), end)}/>${cut}`;
  if (verdict === "marginal") return `<rect class="bar-marginal" ${box(at(0), end)}/>${cut}`;
  const left = Math.min(end, at(0));
  const right = Math.max(end, at(0));
  const strokes = hatchStrokes({ left, right, top: -half, bottom: half }, size.hatchPitchPx);
  return `<path class="bar-hatch" d="${strokes}"/><rect class="bar-shut" ${box(left, right)}/>${cut}`;
}

/** Two slanting gaps, as a draughtsman cuts a bar that goes on. */
function cutMark(x: number, half: number): string {
  const stroke = (middle: number): string => `M${tenth(middle - 2)} ${tenth(half + 1.5)}L${tenth(middle + 2)} ${tenth(-half - 1.5)}`;
  return `<path class="bar-cut" d="${stroke(x)}"/>`;
}
