import type { Point } from "../svg/box.ts";
import { clippedCurve } from "../svg/clip.ts";
import { drawCurve, drawDot, drawLine, thinned } from "../svg/path.ts";
import { above, below, curveOf, type Ground, linesAbout, type StripBox, stripFrame, stripRoom } from "./ground.ts";
import { valueAt } from "./hull.ts";

/** The strip never shows less than this to either side together, miles. */
const LEAST_SPAN_NM = 0.5;
/** Where two lines part most is looked for at so many places. */
const LOOKED_AT = 90;
/** Over and under the curves there is so much room for their words, in type sizes. */
const ROOM_SIZES = 1.9;
/** Farther off than this, as a share of the whole span, is worth its figure. */
const NAMED_SHARE = 0.08;

type Off = Ground["section"]["off"][number];

/** Off the line: as foretold, dotted with less stream, dashed with more; up is up-stream. */
export function drawOff(ground: Ground, strip: StripBox): string {
  const { section, map, measures, labels } = ground;
  const values = section.off.flatMap(({ points }) => points.map(([, offNm]) => offNm));
  const [most, least] = [Math.max(0, ...values), Math.min(0, ...values)];
  const size = measures.sizes.value;
  const high = strip.bottom - strip.top - size * ROOM_SIZES;
  const span = Math.max(LEAST_SPAN_NM, most - least);
  const middle = (strip.top + strip.bottom) / 2;
  const y = (offNm: number): number => middle - ((offNm - (most + least) / 2) * high) / span;

  const frame = stripFrame(ground, strip);
  let svg = drawLine([map.left, y(0)], [map.right, y(0)], "section-axis");
  labels.avoid([
    [map.left, y(0)],
    [map.right, y(0)],
  ]);
  const ranked = [...section.off].sort((a, b) => Number(a.streamFactor === 1) - Number(b.streamFactor === 1));
  for (const { streamFactor, points } of ranked) {
    const curve = curveOf(ground, points, y);
    labels.avoid(curve);
    const style = streamFactor === 1 ? "section-helm" : streamFactor < 1 ? "section-course section-less" : "section-course section-more";
    for (const piece of clippedCurve(thinned(curve), frame)) svg += drawCurve(piece, style);
  }
  const expected = section.off.find(({ streamFactor }) => streamFactor === 1);
  if (expected !== undefined) svg += nameFarthest(ground, strip, expected, y, span);
  for (const each of ranked) if (each.streamFactor !== 1) nameOther(ground, strip, each, expected, y);
  return svg;
}

/** How far up and down of the line at most. */
function nameFarthest(ground: Ground, strip: StripBox, { points }: Off, y: (offNm: number) => number, span: number): string {
  const { map, measures, labels } = ground;
  const size = measures.sizes.value;
  let svg = "";
  for (const side of [-1, 1] as const) {
    const [acrossNm, offNm] = points.reduce((far, each) => (each[1] * side > far[1] * side ? each : far), points[0] ?? [0, 0]);
    if (offNm * side < span * NAMED_SHARE || acrossNm < 0 || acrossNm > ground.section.lengthNm) continue;
    const at: Point = [map.x(acrossNm), y(offNm)];
    svg += drawDot(at, measures.placePx * 0.85, "section-boat");
    const nm = Math.abs(offNm).toFixed(1);
    const words = side > 0 ? [`${nm} up-stream`, `${nm} up`] : [`${nm} down-stream`, `${nm} down`];
    const [near, far] = side > 0 ? [above(size, 5), below(size, 5)] : [below(size, 5), above(size, 5)];
    labels.set(linesAbout(ground, "value", words, at, [...near, ...far]), stripRoom(ground, strip));
  }
  return svg;
}

/** `× 1.25: 4.4 down-stream` where a line of more stream lies farthest from the one foretold. */
function nameOther(
  ground: Ground,
  strip: StripBox,
  { streamFactor, points }: Off,
  expected: Off | undefined,
  y: (offNm: number) => number,
): void {
  const { map, measures, labels, section } = ground;
  const size = measures.sizes.value;
  const inside = points.filter(([acrossNm]) => acrossNm >= 0 && acrossNm <= section.lengthNm);
  const every = Math.ceil(inside.length / LOOKED_AT);
  let farthest: readonly [number, number] | null = null;
  let [most, sense] = [-1, -1];
  inside.forEach((each, i) => {
    if (i % every !== 0 && i < inside.length - 1) return;
    const apart = each[1] - (valueAt(expected?.points ?? [], each[0]) ?? each[1]);
    if (Math.abs(apart) > most) [farthest, most, sense] = [each, Math.abs(apart), Math.sign(apart)];
  });
  if (farthest === null) return;
  const nm = `${Math.abs(farthest[1]).toFixed(1)} ${farthest[1] < 0 ? "down" : "up"}`;
  const words = [`× ${streamFactor}: ${nm}-stream`, `× ${streamFactor}: ${nm}`, `× ${streamFactor}`];
  const at: Point = [map.x(farthest[0]), y(farthest[1])];
  const outward = sense < 0 ? [...below(size, 3), ...above(size, 3)] : [...above(size, 3), ...below(size, 3)];
  labels.set(linesAbout(ground, "value", words, at, outward), stripRoom(ground, strip));
}
