import type { Point } from "../svg/box.ts";
import { drawLine } from "../svg/path.ts";
import { px } from "../svg/px.ts";
import { drawText } from "../svg/text.ts";
import { textWidthPx } from "../svg/text-width.ts";
import { type Ground, lineOf } from "./ground.ts";
import { streamMark } from "./plan-ground.ts";
import { roundAtMost, said } from "./rounds.ts";

/** The scale is at most this share of the plan's width. */
const SCALE_SHARE = 0.24;

/** Over the plan: a bar of so many miles, and how long the mark of a stream of so many knots is. */
export function drawScale(ground: Ground, pxPerKn: number): string {
  const { map, measures, labels } = ground;
  const y = measures.headPx - measures.sizes.tiny * 0.62;
  const nm = roundAtMost(((map.plan.right - map.plan.left) * SCALE_SHARE) / map.pxPerNm);
  const [from, to] = [map.left, map.left + nm * map.pxPerNm];
  const tick = measures.sizes.tiny * 0.25;
  const bar =
    drawLine([from, y], [to, y], "section-axis") + [from, to].map((x) => drawLine([x, y - tick], [x, y + tick], "section-axis")).join("");
  const roomy = measures.kind !== "phone";
  const base = y + measures.sizes.tiny * 0.35;
  const words = lineOf(ground, "tiny", roomy ? `${said(nm)} nm, the same along and across` : `${said(nm)} nm`, [to + 6, base]);
  labels.force(words);

  const most = Math.max(0, ...ground.section.streamMarks.map(({ alongKn, upKn }) => Math.hypot(alongKn, upKn)));
  if (most < 0.05) return bar;
  const kn = roundAtMost(most);
  const key = lineOf(ground, "tiny", `${roomy ? "stream " : ""}${said(kn)} kn`, [map.plan.right, base], "end");
  const shaft = streamMark([map.plan.right - textWidthPx(key.text, key.sizePx) - 6 - (kn * pxPerKn) / 2, y], [kn, 0], pxPerKn);
  labels.force(key);
  return `${bar}<path class="section-stream" d="${shaft}"/>`;
}

/** The north arrow, where the plan is emptiest. */
export function drawNorth(ground: Ground): string {
  const { map, measures, labels } = ground;
  const [ux, uy] = map.step(0);
  const length = measures.barbPx * 1.15;
  const size = measures.sizes.tiny;
  const reach = length / 2 + size;
  const { plan } = map;
  const places: Point[] = [];
  for (const down of [0.84, 0.16, 0.66, 0.34, 0.5]) {
    for (const right of [0.87, 0.13, 0.75, 0.25, 0.62, 0.38, 0.5]) {
      places.push([plan.left + right * (plan.right - plan.left), plan.top + down * (plan.bottom - plan.top)]);
    }
  }
  const box = ([x, y]: Point) => ({ left: x - reach, right: x + reach, top: y - reach, bottom: y + reach });
  const centre = labels.best(places, box, { bounds: plan });
  if (centre === null) return "";
  labels.keepOff(box(centre));
  const [cx, cy] = [centre[0] - ux * size * 0.5, centre[1] - uy * size * 0.5];
  const [tx, ty] = [cx + (ux * length) / 2, cy + (uy * length) / 2];
  const head = length * 0.24;
  const wing = (side: number): string => `${px(tx - ux * head - uy * side * head * 0.5)} ${px(ty - uy * head + ux * side * head * 0.5)}`;
  const shaft = `M${px(cx - (ux * length) / 2)} ${px(cy - (uy * length) / 2)}L${px(tx)} ${px(ty)}M${wing(1)}L${px(tx)} ${px(ty)}L${wing(-1)}`;
  const letter = lineOf(ground, "tiny", "N", [tx + ux * size * 0.65, ty + uy * size * 0.65 + size * 0.35], "middle");
  return `<path class="section-north" d="${shaft}"/>${drawText(letter)}`;
}
