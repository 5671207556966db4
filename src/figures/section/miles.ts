import { drawLine } from "../svg/path.ts";
import { type Ground, lineOf } from "./ground.ts";
import { roundAtLeast, said } from "./rounds.ts";

/** Between two figures of the scale there is at least this much, in type sizes. */
const APART_SIZES = 4;

/** The miles across, at the foot of all. */
export function drawMiles(ground: Ground, top: number): string {
  const { map, measures, section, labels } = ground;
  const size = measures.sizes.hour;
  const step = roundAtLeast((APART_SIZES * size) / map.pxPerNm);
  const base = top + size * 1.3;
  let svg = drawLine([map.left, top], [map.right, top], "section-axis");
  for (let i = 0; i * step <= section.lengthNm * (1 + 1e-9); i++) {
    const x = map.x(i * step);
    svg += drawLine([x, top], [x, top + size * 0.36], "section-axis");
    labels.set([lineOf(ground, "hour", said(i * step), [x, base], "middle")]);
    const half = (i + 0.5) * step;
    if (half <= section.lengthNm) svg += drawLine([map.x(half), top], [map.x(half), top + size * 0.2], "section-axis");
  }
  if (measures.kind === "phone") {
    const end = map.sense > 0 ? map.right : map.left;
    labels.set(["nm across", "nm"].flatMap((words) => [lineOf(ground, "unit", words, [end, base], map.sense > 0 ? "end" : "start")]));
  } else labels.force(lineOf(ground, "name", "Miles across", [measures.columnPx - measures.sizes.name, top + size * 0.4], "end"));
  return svg;
}
