import { drawBox, drawLine } from "../svg/path.ts";
import { drawText } from "../svg/text.ts";
import { textWidthPx } from "../svg/text-width.ts";
import { type Ground, lineOf, type StripBox } from "./ground.ts";

/** Night, twilight and day along the order, and when the sun comes and goes, in words. */
export function drawLight(ground: Ground, strip: StripBox): string {
  const { section, map, measures, labels } = ground;
  const size = measures.sizes.value;
  const bottom = strip.bottom - size * 1.3;
  const box = { left: map.left, right: map.right, top: strip.top, bottom };
  let svg = "";
  let names = "";
  for (const { fromNm, untilNm, light } of section.light) {
    const [a, b] = [map.x(fromNm), map.x(untilNm)].map((x) => Math.min(map.right, Math.max(map.left, x))) as [number, number];
    const [left, right] = [Math.min(a, b), Math.max(a, b)];
    svg += drawBox({ left, right, top: box.top, bottom: box.bottom }, `section-${light}`);
    // The grey of twilight bears no words: its name stands below where the sun's hour does.
    if (light === "twilight" || right - left < textWidthPx(light, size) + 10) continue;
    const base = (box.top + box.bottom) / 2 + size * 0.33;
    names += drawText(
      lineOf(ground, "value", light, [left + size * 0.5, base], "start", light === "night" ? "section-on-night" : "section-plain"),
    );
  }
  svg += drawBox(box, "section-light-edge");
  labels.keepOff(box);
  const room = { bounds: { left: map.plan.left, right: map.plan.right, top: box.bottom, bottom: strip.bottom + 2 } };
  for (const { acrossNm, words } of section.lightWords) {
    const x = map.x(acrossNm);
    if (x < map.left || x > map.right) continue;
    svg += drawLine([x, box.top], [x, box.bottom + size * 0.3], "section-axis");
    const base = box.bottom + size * 1.15;
    labels.set(
      (["middle", "start", "end"] as const).map((anchor) => lineOf(ground, "value", words, [x, base], anchor)),
      room,
    );
  }
  for (const { fromNm, untilNm, light } of section.light) {
    if (light !== "twilight") continue;
    const x = Math.min(map.right, Math.max(map.left, map.x((fromNm + untilNm) / 2)));
    const base = box.bottom + size * 1.15;
    labels.set(
      (["middle", "start", "end"] as const).map((anchor) => lineOf(ground, "unit", "twilight", [x, base], anchor)),
      room,
    );
  }
  return svg + names;
}
