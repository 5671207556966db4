import type { InletTold } from "../../api/index.ts";
import { hatchStrokes } from "../board/hatch.ts";
import type { Point } from "../svg/box.ts";
import { escapeText } from "../svg/escape.ts";
import { drawBox, drawCurve, drawLine, drawShape } from "../svg/path.ts";
import { px } from "../svg/px.ts";
import { drawText } from "../svg/text.ts";
import { textWidthPx } from "../svg/text-width.ts";

/** Room for the names at the left, px; under `NARROW_PX` they stand over their strips. */
const NAMES_PX = 58;
export const NARROW_PX = 480;
const END_PX = 14;
const NIGHT_PX = 6;
const BAND_PX = 14;
const CURVE_PX = 58;
const GAP_PX = 18;
const TYPE_PX = 12.5;
const HATCH_PITCH_PX = 4.6;

/** The day of an inlet as a drawing: night, open (ink) and shut (hatched) with the clock at each opening, tide and stream, the hours below. */
export function drawInletStrip(inlet: InletTold, widthPx: number): string {
  const narrow = widthPx < NARROW_PX;
  const left = narrow ? 2 : NAMES_PX;
  const right = widthPx - END_PX;
  const x = (share: number): number => left + share * (right - left);
  const hasTide = inlet.points.some(({ tideMetres }) => tideMetres !== null);
  const hasStream = inlet.points.some(({ streamKn }) => streamKn !== null);
  let y = NIGHT_PX + 2;
  let svg = inlet.nights
    .map(({ from, until }) => drawBox({ left: x(from), right: x(until), top: 0, bottom: NIGHT_PX }, "inlet-night"))
    .join("");
  svg += band(inlet, x, y, right);
  y += BAND_PX + TYPE_PX + GAP_PX / 2;
  const name = (words: string, top: number): string =>
    text(words, narrow ? [left, top - 3] : [left - 8, top + CURVE_PX / 2 + 4], narrow ? "start" : "end", "inlet-name");
  if (hasTide) {
    if (narrow) y += TYPE_PX;
    svg += name("tide, m", y) + tide(inlet, x, y, right);
    y += CURVE_PX + GAP_PX;
  }
  if (hasStream) {
    if (narrow) y += TYPE_PX;
    svg += name(narrow ? "stream, kn: flood up" : "stream, kn", y) + stream(inlet, x, y, right);
    y += CURVE_PX + GAP_PX;
  }
  svg += hours(inlet, x, y, narrow);
  if (inlet.thereAt !== null && inlet.thereAt >= 0 && inlet.thereAt <= 1) svg += there(x(inlet.thereAt), y - GAP_PX / 2);
  const height = y + TYPE_PX + 4;
  const said = `${inlet.name}. ${inlet.answer} ${inlet.there}.`;
  return `<svg class="inlet-strip" role="img" width="${px(widthPx)}" height="${px(height)}" viewBox="0 0 ${px(widthPx)} ${px(height)}"><title>${escapeText(said)}</title>${svg}</svg>`;
}

/** Where the boat is: over the band and down through the curves, the clocks between left free. */
function there(x: number, bottom: number): string {
  const [top, under] = [NIGHT_PX + 2, NIGHT_PX + 2 + BAND_PX];
  return `<path class="inlet-there" d="M${px(x)} ${px(top)}L${px(x)} ${px(under)}M${px(x)} ${px(under + TYPE_PX + 4)}L${px(x)} ${px(bottom)}"/>`;
}

function text(words: string, at: Point, anchor: "start" | "middle" | "end", className: string): string {
  return drawText({ text: words, at, anchor, sizePx: TYPE_PX, face: "sans", className });
}

/** Open solid, shut hatched, not judged dashed and empty; the clock where each begins, as far as there is room. */
function band({ spells }: InletTold, x: (share: number) => number, top: number, right: number): string {
  const bottom = top + BAND_PX;
  let svg = "";
  let free = Number.NEGATIVE_INFINITY;
  for (const { from, until, verdict, opens } of spells) {
    const box = { left: x(from), right: x(until), top, bottom };
    svg += drawBox(box, `inlet-${verdict}`);
    if (verdict === "shut") svg += `<path class="inlet-hatch" d="${hatchStrokes(box, HATCH_PITCH_PX)}"/>`;
    if (opens === null) continue;
    const half = textWidthPx(opens, TYPE_PX) / 2;
    const at = Math.min(right - half, Math.max(box.left, half));
    if (at - half < free) continue;
    svg += text(opens, [at, bottom + TYPE_PX], "middle", "inlet-value");
    free = at + half + 6;
  }
  return svg;
}

function tide({ points, wantedTideMetres }: InletTold, x: (share: number) => number, top: number, right: number): string {
  const known = points.flatMap(({ at, tideMetres }) => (tideMetres === null ? [] : [{ at, value: tideMetres }]));
  const values = known.map(({ value }) => value);
  const low = Math.min(...values, 0);
  const high = Math.max(...values, low + 0.5);
  const y = (value: number): number => top + CURVE_PX * (1 - (value - low) / (high - low));
  const curve = known.map(({ at, value }): Point => [x(at), y(value)]);
  const floor = top + CURVE_PX;
  const first = curve[0];
  const last = curve[curve.length - 1];
  const fill = first === undefined || last === undefined ? "" : drawShape([[first[0], floor], ...curve, [last[0], floor]], "inlet-water");
  const wanted =
    wantedTideMetres !== null && wantedTideMetres > low && wantedTideMetres < high
      ? drawLine([x(0), y(wantedTideMetres)], [right, y(wantedTideMetres)], "inlet-wanted")
      : "";
  return fill + drawCurve(curve, "inlet-curve") + wanted + extremes(known, x, y, right);
}

function stream({ points }: InletTold, x: (share: number) => number, top: number, right: number): string {
  const known = points.flatMap(({ at, streamKn }) => (streamKn === null ? [] : [{ at, value: streamKn }]));
  const most = Math.max(0.5, ...known.map(({ value }) => Math.abs(value)));
  const y = (value: number): number => top + (CURVE_PX / 2) * (1 - value / most);
  const curve = known.map(({ at, value }): Point => [x(at), y(value)]);
  const zero = y(0);
  const first = curve[0];
  const last = curve[curve.length - 1];
  const fill = first === undefined || last === undefined ? "" : drawShape([[first[0], zero], ...curve, [last[0], zero]], "inlet-water");
  return fill + drawCurve(curve, "inlet-curve") + drawLine([x(0), zero], [right, zero], "inlet-axis") + extremes(known, x, y, right, true);
}

/** The values at the turns, and at no other place; `signed`: ebb and flood by their side of the line, without a sign. */
function extremes(
  known: readonly { readonly at: number; readonly value: number }[],
  x: (share: number) => number,
  y: (value: number) => number,
  right: number,
  signed = false,
): string {
  let svg = "";
  for (let k = 1; k + 1 < known.length; k++) {
    const [before, here, after] = [known[k - 1], known[k], known[k + 1]] as [
      (typeof known)[number],
      (typeof known)[number],
      (typeof known)[number],
    ];
    const isHigh = here.value >= before.value && here.value > after.value;
    const isLow = here.value <= before.value && here.value < after.value;
    if (!isHigh && !isLow) continue;
    const words = (signed ? Math.abs(here.value) : here.value).toFixed(1).replace("-", "−");
    const half = textWidthPx(words, TYPE_PX) / 2;
    const at = Math.min(right - half, Math.max(x(0) + half, x(here.at)));
    svg += text(words, [at, y(here.value) + (isHigh ? -3 : TYPE_PX)], "middle", "inlet-value");
  }
  return svg;
}

function hours({ hours: marks }: InletTold, x: (share: number) => number, y: number, narrow: boolean): string {
  return marks
    .map(({ at, clock }, k) => {
      const tick = drawLine([x(at), y - GAP_PX / 2], [x(at), y - GAP_PX / 2 + 4], "inlet-axis");
      if (narrow && k % 2 === 1) return tick;
      const anchor = at <= 0 ? "start" : at >= 1 ? "end" : "middle";
      return tick + text(clock.slice(0, 2), [x(at), y + TYPE_PX - 2], anchor, "inlet-hour");
    })
    .join("");
}
