import type { Point } from "../svg/box.ts";
import { clippedCurve, clippedShape } from "../svg/clip.ts";
import { drawCurve, drawLine, drawShape, thinned } from "../svg/path.ts";
import { above, below, curveOf, type Ground, lineOf, linesAbout, type StripBox, stripFrame, stripRoom } from "./ground.ts";

/** A sea smaller than this all over is drawn against this, metres. */
const LEAST_SCALE_METRES = 1;
/** Two heights nearer than this are read as one, metres. */
const SAME_METRES = 0.05;
/** The least sea is worth its figure where it is so much under the greatest, metres. */
const DIFFERENT_METRES = 0.15;

/** The height of the sea as a band from its least to its greatest, against the skipper's *never*; past it, hatched. */
export function drawSea(ground: Ground, strip: StripBox): string {
  const { section, map, measures, labels } = ground;
  const { sea } = section;
  if (sea === null || sea.height.length === 0) return "";
  const size = measures.sizes.value;
  const highs = sea.height.map(([, , high]) => high);
  const most = Math.max(LEAST_SCALE_METRES, sea.neverMetres ?? 0, ...highs);
  const perMetre = (strip.bottom - strip.top - size * 0.4) / most;
  const y = (metres: number): number => strip.bottom - metres * perMetre;
  const low = curveOf(
    ground,
    sea.height.map(([acrossNm, metres]) => [acrossNm, metres]),
    y,
  );
  const high = curveOf(
    ground,
    sea.height.map(([acrossNm, , metres]) => [acrossNm, metres]),
    y,
  );
  const frame = stripFrame(ground, strip);
  const band = [...thinned(high, 0.1), ...thinned(low, 0.1).reverse()];
  let svg = drawShape(clippedShape(band, frame), "section-water");
  if (sea.neverMetres !== null) svg += pastNever(ground, high, y(sea.neverMetres), frame);
  for (const piece of clippedCurve(thinned(low), frame)) svg += drawCurve(piece, "section-sea-low");
  for (const piece of clippedCurve(thinned(high), frame)) svg += drawCurve(piece, "section-sea");
  svg += drawLine([map.left, strip.bottom], [map.right, strip.bottom], "section-axis");
  labels.avoid(high);
  labels.avoid(low);
  labels.keepOff({ left: map.left, right: map.right, top: strip.bottom - 0.5, bottom: strip.bottom + 0.5 });

  const room = stripRoom(ground, strip);
  const top = highs.indexOf(Math.max(...highs));
  const highest = sea.height[top]!;
  if (sea.neverMetres !== null) {
    const at = y(sea.neverMetres);
    svg += drawLine([map.left, at], [map.right, at], "section-never");
    labels.avoid([
      [map.left, at],
      [map.right, at],
    ]);
    nameNever(ground, strip, at, sea.neverMetres, map.x(highest[0]));
  }
  const heights =
    highest[2] - highest[1] < SAME_METRES ? `${highest[2].toFixed(1)} m` : `${highest[1].toFixed(1)} to ${highest[2].toFixed(1)} m`;
  labels.set(
    linesAbout(
      ground,
      "value",
      [`${heights} at most`, heights],
      [map.x(highest[0]), y(highest[2])],
      [...above(size, 3), ...below(size, 3)],
    ),
    room,
  );
  const lowest = sea.height.reduce((least, each) => (each[2] < least[2] ? each : least));
  if (highest[2] - lowest[2] >= DIFFERENT_METRES && Math.abs(lowest[2] - highest[1]) >= SAME_METRES) {
    labels.set(
      linesAbout(ground, "value", [`${lowest[2].toFixed(1)} m`], [map.x(lowest[0]), y(lowest[2])], [...above(size, 3), ...below(size, 3)]),
      room,
    );
  }
  namePeriod(ground, strip);
  return svg;
}

/** The part of the sea that lies past never, hatched: it is not told by a colour. */
function pastNever(ground: Ground, high: readonly Point[], never: number, frame: ReturnType<typeof stripFrame>): string {
  const [first, last] = [high[0], high.at(-1)];
  if (first === undefined || last === undefined || never <= frame.top || high.every(([, y]) => y >= never)) return "";
  const area: Point[] = [[first[0], never], ...high, [last[0], never]];
  return drawShape(clippedShape(area, { ...frame, bottom: never }), "section-past-never", ` fill="url(#${ground.id}-past)"`);
}

/** `never 2.1 m` on its line, away from the highest sea. */
function nameNever(ground: Ground, strip: StripBox, at: number, metres: number, highestX: number): void {
  const { map, measures, labels } = ground;
  const size = measures.sizes.value;
  const words = `never ${metres.toFixed(1)} m`;
  const shares = highestX > (map.left + map.right) / 2 ? [0.02, 0.3, 0.55, 0.98] : [0.98, 0.7, 0.45, 0.02];
  const lines = shares.flatMap((share) =>
    [-0.28, 1].map((down) =>
      lineOf(
        ground,
        "value",
        words,
        [map.left + share * (map.right - map.left), at + down * size],
        share < 0.1 ? "start" : share > 0.9 ? "end" : "middle",
      ),
    ),
  );
  labels.set(lines, stripRoom(ground, strip));
}

/** The shortest period there is: `periods from 5 s`. */
function namePeriod(ground: Ground, strip: StripBox): void {
  const { section, map, measures, labels } = ground;
  const periods = section.sea?.periodSeconds ?? [];
  if (periods.length === 0) return;
  const [acrossNm, seconds] = periods.reduce((least, each) => (each[1] < least[1] ? each : least));
  const longest = Math.max(...periods.map(([, each]) => each));
  const shortest = `${seconds.toFixed(0)} s`;
  const words = longest - seconds < 0.5 ? [`period ${shortest}`] : [`shortest period ${shortest}`, `from ${shortest}`];
  const size = measures.sizes.value;
  const x = Math.min(map.right, Math.max(map.left, map.x(acrossNm)));
  const beside = [0, 0.5, 1, 2].flatMap((row) =>
    (
      [
        ["middle", 0],
        ["start", 4],
        ["end", -4],
        ["start", 90],
        ["end", -90],
      ] as const
    ).map(([anchor, right]) => [right, -4 - row * size * 0.8, anchor] as const),
  );
  labels.set(linesAbout(ground, "value", words, [x, strip.bottom], beside), stripRoom(ground, strip));
}
