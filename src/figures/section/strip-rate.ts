import { clippedCurve, clippedShape } from "../svg/clip.ts";
import { drawCurve, drawLine, drawShape, thinned } from "../svg/path.ts";
import { above, curveOf, type Ground, inFrame, lineOf, linesAbout, type StripBox, stripFrame, stripRoom } from "./ground.ts";
import { valueAt } from "./hull.ts";
import { turningPoints } from "./turning-points.ts";
import { threeFigures } from "./words.ts";

/** A stream weaker than this all over is drawn against this, so that next to nothing looks like next to nothing. */
const LEAST_SCALE_KN = 1;
/** A second or third strongest place is named where the rate falls by this share of the greatest on either side. */
const SWING_SHARE = 0.25;
/** So much of the strip is kept over the highest for its words, in type sizes. */
const HEADROOM_SIZES = 1.35;

/** Rate and set along the order: the greatest in figures, mid-stream, and where the boat is clear of the stream. */
export function drawRate(ground: Ground, strip: StripBox): string {
  const { section, map, measures, labels } = ground;
  const { points } = section.rate;
  const size = measures.sizes.value;
  const rates = points.map(([, kn]) => kn);
  const most = Math.max(LEAST_SCALE_KN, ...rates);
  const perKn = (strip.bottom - strip.top - HEADROOM_SIZES * size) / most;
  const y = (kn: number): number => strip.bottom - kn * perKn;
  const curve = curveOf(
    ground,
    points.map(([acrossNm, kn]) => [acrossNm, kn]),
    y,
  );
  const frame = stripFrame(ground, strip);
  const [first, last] = [curve[0], curve.at(-1)];
  const area =
    first === undefined || last === undefined ? [] : [[first[0], strip.bottom] as const, ...curve, [last[0], strip.bottom] as const];
  labels.avoid(curve);
  labels.keepOff({ left: map.left, right: map.right, top: strip.bottom - 0.5, bottom: strip.bottom + 0.5 });
  const room = stripRoom(ground, strip);
  let svg = drawShape(clippedShape(thinned(area, 0.1), frame), "section-water");
  for (const piece of clippedCurve(thinned(curve, 0.1), frame)) svg += drawCurve(piece, "section-water-line");
  svg += drawLine([map.left, strip.bottom], [map.right, strip.bottom], "section-axis");

  const peaks = turningPoints(rates, Math.max(0.05, most * SWING_SHARE)).filter(({ kind }) => kind === "high");
  const highest = rates.indexOf(Math.max(...rates));
  const named = [highest, ...peaks.map(({ index }) => index).filter((index) => index !== highest)].filter((index) => index >= 0);
  for (const index of named) {
    const [acrossNm, kn, towardDegTrue] = points[index]!;
    const words = `${kn.toFixed(1)} kn toward ${threeFigures(towardDegTrue)} true`;
    const mid = index === highest && Math.abs(acrossNm - section.axis.acrossNm) < section.lengthNm * 0.04;
    const all = mid ? [`${words}, mid-stream ${section.axis.clock}`, words, `${kn.toFixed(1)} kn`] : [words, `${kn.toFixed(1)} kn`];
    labels.set(linesAbout(ground, "value", all, [map.x(acrossNm), y(kn)], above(size)), room);
  }
  return svg + drawClear(ground, strip, y);
}

/** A stroke where the boat is clear of the stream for good, with its time. */
function drawClear(ground: Ground, strip: StripBox, y: (kn: number) => number): string {
  const { clear, rate } = ground.section;
  if (clear === null || !inFrame(ground, clear.acrossNm)) return "";
  const { map, measures, labels } = ground;
  const kn =
    valueAt(
      rate.points.map(([acrossNm, value]) => [acrossNm, value]),
      clear.acrossNm,
    ) ?? 0;
  const x = map.x(clear.acrossNm);
  const size = measures.sizes.value;
  const top = Math.max(strip.top, y(kn) - size);
  const words = [`clear of the stream ${clear.clock}, ${kn.toFixed(1)} kn`, `clear of the stream ${clear.clock}`, `clear ${clear.clock}`];
  const ahead = map.sense > 0 ? "start" : "end";
  const behind = map.sense > 0 ? "end" : "start";
  const lines = words.flatMap((text) => [
    lineOf(ground, "value", text, [x + 4 * map.sense, top + size * 0.62], ahead),
    lineOf(ground, "value", text, [x + 4 * map.sense, top], ahead),
    lineOf(ground, "value", text, [x, top - 3], "middle"),
    lineOf(ground, "value", text, [x - 4 * map.sense, top], behind),
  ]);
  labels.set(lines, stripRoom(ground, strip));
  return drawLine([x, top], [x, strip.bottom], "section-axis");
}
