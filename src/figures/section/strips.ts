import { textWidthPx, wrapped } from "../svg/text-width.ts";
import { type Ground, lineOf, type StripBox } from "./ground.ts";
import type { StripKey } from "./measures.ts";
import { drawHeading } from "./strip-heading.ts";
import { drawLight } from "./strip-light.ts";
import { drawOff } from "./strip-off.ts";
import { drawRate } from "./strip-rate.ts";
import { drawSea, seaHeightPx } from "./strip-sea.ts";
import { drawWind, windHeightPx } from "./strip-wind.ts";

type Strip = {
  readonly name: string;
  readonly unit: string;
  readonly heightPx: number;
  readonly draw: (ground: Ground, box: StripBox) => string;
};

/** A line of words takes so many sizes. */
const LINE_SIZES = 1.35;

/** The strips under the plan, top to bottom; what no source tells is said, not left out. */
function stripsOf(ground: Ground): Strip[] {
  const { section, measures } = ground;
  const drawn = (key: StripKey, name: string, unit: string, draw: Strip["draw"]): Strip => ({
    name,
    unit,
    heightPx: measures.strips[key],
    draw,
  });
  return [
    drawn("rate", "Rate and set", "knots, toward", drawRate),
    drawn("heading", "Heading", section.heading.by, drawHeading),
    drawn("off", "Off the line", "miles", drawOff),
    section.wind.length > 0
      ? { name: "Wind", unit: "from, knots", heightPx: windHeightPx(ground), draw: drawWind }
      : inWords(ground, "Wind", "No source gives a wind here: not judged."),
    section.sea !== null && section.sea.height.length > 0
      ? { ...seaNamed(section.sea.lacksSwell), heightPx: seaHeightPx(ground), draw: drawSea }
      : inWords(ground, "Sea", "No source gives a sea: not judged."),
    ...(section.depth === null ? [] : [inWords(ground, "Depth", section.depth.words)]),
    ...(section.light.length === 0 ? [] : [drawn("light", "Light", "", drawLight)]),
  ];
}

function seaNamed(lacksSwell: boolean): Pick<Strip, "name" | "unit"> {
  return lacksSwell ? { name: "Wind’s sea", unit: "swell unknown" } : { name: "Sea", unit: "metres" };
}

/** A strip of words alone, in as many lines as they take. */
function inWords({ map, measures }: Ground, name: string, words: string): Strip {
  const size = measures.sizes.value;
  const lines = wrapped(words, Math.max(map.right - map.left, (map.plan.right - map.plan.left) * 0.8), size);
  const draw: Strip["draw"] = (ground, { top }) => {
    const left = measures.nameRowPx > 0 ? map.plan.left : map.left;
    lines.forEach((line, i) => {
      ground.labels.force(lineOf(ground, "value", line, [left, top + size * (1 + i * LINE_SIZES)]));
    });
    return "";
  };
  return { name, unit: "", heightPx: Math.max(1, lines.length) * size * LINE_SIZES, draw };
}

/** How high all strips stand together, with their names and the gaps between them. */
export function stripsHeightPx(ground: Ground): number {
  const { gapPx, nameRowPx } = ground.measures;
  return stripsOf(ground).reduce((sum, { heightPx }) => sum + heightPx + gapPx + nameRowPx, 0);
}

/** Draws the strips from `top` down. */
export function drawStrips(ground: Ground, top: number): string {
  const { gapPx, nameRowPx } = ground.measures;
  let [svg, y] = ["", top];
  for (const strip of stripsOf(ground)) {
    const box = { top: y + nameRowPx, bottom: y + nameRowPx + strip.heightPx };
    nameStrip(ground, strip, box);
    svg += `<g class="section-strip">${strip.draw(ground, box)}</g>`;
    y = box.bottom + gapPx;
  }
  return svg;
}

/** The strip's name in the column at its left; on a phone above it. */
function nameStrip(ground: Ground, { name, unit, heightPx }: Strip, box: StripBox): void {
  const { measures, map, labels } = ground;
  const { sizes, columnPx, nameRowPx } = measures;
  if (nameRowPx > 0) {
    const base = box.top - nameRowPx + sizes.name;
    const title = lineOf(ground, "name", name, [map.plan.left, base]);
    labels.force(title);
    if (unit !== "")
      labels.force(lineOf(ground, "unit", unit, [map.plan.left + textWidthPx(name, sizes.name, "sansBold") + sizes.name * 0.45, base]));
    return;
  }
  const right = columnPx - sizes.name;
  const high = sizes.name + (unit === "" ? 0 : sizes.unit * 1.15);
  const first = Math.min(box.top + sizes.name * 0.95, box.top + Math.max(0, heightPx - high) / 2 + sizes.name * 0.85);
  labels.force(lineOf(ground, "name", name, [right, first], "end"));
  if (unit !== "") labels.force(lineOf(ground, "unit", unit, [right, first + sizes.unit * 1.2], "end"));
}
