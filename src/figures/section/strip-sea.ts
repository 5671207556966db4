import type { SectionTold } from "../../api/index.ts";
import { grown, overlap, type Point } from "../svg/box.ts";
import { clippedCurve, clippedShape } from "../svg/clip.ts";
import { drawCurve, drawLine, drawShape, thinned } from "../svg/path.ts";
import { boxOf, type Line } from "../svg/text.ts";
import { above, type Beside, below, curveOf, type Ground, lineOf, linesAbout, type StripBox, stripFrame, stripRoom } from "./ground.ts";
import { raisedPieces } from "./sea-raised.ts";
import { drawSteep, steepRowsPx } from "./sea-steep.ts";

/** A sea smaller than this all over is drawn against this, metres. */
const LEAST_SCALE_METRES = 1;
/** Two heights nearer than this are read as one, metres. */
const SAME_METRES = 0.05;
/** The least sea is worth its figure where it is so much under the greatest, metres. */
const DIFFERENT_METRES = 0.15;

/** Limits whose lines are nearer to each other than this can't each be named, in type sizes. */
const NAMED_APART_SIZES = 1.6;
/** Of the places over a point the first are close to it. */
const CLOSE_PLACES = 3;
/** Words over the dashed line cover at most so much of the curves, in points of them. */
const MOST_COVERED = 2;

type Height = NonNullable<SectionTold["sea"]>["height"][number];

/** So much of the strip is kept over the highest, in type sizes; where the stream raises the sea, room for its words too. */
const HEADROOM_SIZES = 0.4;
const WORDS_SIZES = 0.9;

/** The strip is as high as its sizes say, higher where the stream raises the sea, and by the rows that mark steep seas where there are any. */
export function seaHeightPx(ground: Ground): number {
  const { section, measures } = ground;
  const raised = section.sea?.onStream?.raised ?? null;
  return measures.strips.sea + (raised === null ? 0 : measures.sizes.value * WORDS_SIZES) + steepRowsPx(ground);
}

/**
 * The forecast's sea as a band from its least to its greatest, and over it, dashed, what the stream makes of it; against the skipper's
 * *nevers*, past them hatched. Under it, where seas are steep or breaking.
 */
export function drawSea(ground: Ground, whole: StripBox): string {
  const { section, map, measures, labels } = ground;
  const { sea } = section;
  if (sea === null || sea.height.length === 0) return "";
  const strip = { top: whole.top, bottom: whole.bottom - steepRowsPx(ground) };
  const size = measures.sizes.value;
  const raised = sea.onStream?.raised ?? null;
  const pieces = raisedPieces(sea);
  const nevers = neversOf(sea);
  const highs = sea.height.map(([, , high]) => high);
  const most = Math.max(LEAST_SCALE_METRES, ...nevers.map(({ metres }) => metres), ...highs, ...pieces.flat().map(([, metres]) => metres));
  const headroom = size * (HEADROOM_SIZES + (raised === null ? 0 : WORDS_SIZES));
  const perMetre = (strip.bottom - strip.top - headroom) / most;
  const y = (metres: number): number => strip.bottom - metres * perMetre;
  const [low, high] = ([1, 2] as const).map((end) =>
    curveOf(
      ground,
      sea.height.map((one): [number, number] => [one[0], one[end]]),
      y,
    ),
  ) as [Point[], Point[]];
  const lifted = pieces.map((piece) => curveOf(ground, piece, y));
  const frame = stripFrame(ground, strip);
  const band = [...thinned(high, 0.1), ...thinned(low, 0.1).reverse()];
  let svg = drawShape(clippedShape(band, frame), "section-water");
  for (const { metres, on } of nevers) {
    if (on !== "stream") svg += pastNever(ground, high, y(metres), frame);
    if (on !== "forecast") for (const piece of lifted) svg += pastNever(ground, piece, y(metres), frame);
  }
  for (const piece of clippedCurve(thinned(low), frame)) svg += drawCurve(piece, "section-sea-low");
  for (const piece of clippedCurve(thinned(high), frame)) svg += drawCurve(piece, "section-sea");
  for (const each of lifted) for (const piece of clippedCurve(thinned(each), frame)) svg += drawCurve(piece, "section-sea-raised");
  svg += drawLine([map.left, strip.bottom], [map.right, strip.bottom], "section-axis");
  for (const curve of [high, low, ...lifted]) labels.avoid(curve);
  labels.keepOff({ left: map.left, right: map.right, top: strip.bottom - 0.5, bottom: strip.bottom + 0.5 });

  const highest = sea.height[highs.indexOf(Math.max(...highs))]!;
  for (const { metres } of nevers) {
    const at = y(metres);
    const ends: [Point, Point] = [
      [map.left, at],
      [map.right, at],
    ];
    svg += drawLine(...ends, "section-never");
    labels.avoid(ends);
  }
  nameNevers(ground, strip, nevers, y, map.x((raised ?? highest)[0]));
  svg += drawSteep(ground, { top: strip.bottom, bottom: whole.bottom });
  nameHeights(ground, strip, highest, raised, y);
  const lowest = sea.height.reduce((least, each) => (each[2] < least[2] ? each : least));
  if (highest[2] - lowest[2] >= DIFFERENT_METRES && Math.abs(lowest[2] - highest[1]) >= SAME_METRES) {
    labels.set(
      linesAbout(ground, "value", [`${lowest[2].toFixed(1)} m`], [map.x(lowest[0]), y(lowest[2])], [...above(size, 3), ...below(size, 3)]),
      stripRoom(ground, strip),
    );
  }
  namePeriod(ground, strip);
  return svg;
}

type Never = { readonly metres: number; readonly on: "forecast" | "stream" | "both" };

/** The limits on height: on the forecast's sea, on the sea on the stream; one where they are the same. */
function neversOf({ neverMetres, onStream }: NonNullable<SectionTold["sea"]>): Never[] {
  const streamMetres = onStream?.neverMetres ?? null;
  if (neverMetres !== null && streamMetres !== null && Math.abs(neverMetres - streamMetres) < SAME_METRES)
    return [{ metres: neverMetres, on: "both" }];
  return [
    ...(neverMetres === null ? [] : [{ metres: neverMetres, on: "forecast" as const }]),
    ...(streamMetres === null ? [] : [{ metres: streamMetres, on: "stream" as const }]),
  ];
}

function heightWords([, low, high]: Height): string {
  return high - low < SAME_METRES ? `${high.toFixed(1)} m` : `${low.toFixed(1)} to ${high.toFixed(1)} m`;
}

/** The part of the sea that lies past never, hatched: it is not told by a colour. */
function pastNever(ground: Ground, high: readonly Point[], never: number, frame: ReturnType<typeof stripFrame>): string {
  const [first, last] = [high[0], high.at(-1)];
  if (first === undefined || last === undefined || never <= frame.top || high.every(([, y]) => y >= never)) return "";
  const area: Point[] = [[first[0], never], ...high, [last[0], never]];
  return drawShape(clippedShape(area, { ...frame, bottom: never }), "section-past-never", ` fill="url(#${ground.id}-past)"`);
}

/**
 * `1.2 m at most` at the forecast's highest, and over the dashed line's highest `on the stream 1.7 m at most`; where there is no room for
 * both, the two in one line of words, so that neither is read of the other.
 */
function nameHeights(ground: Ground, strip: StripBox, highest: Height, raised: Height | null, y: (metres: number) => number): void {
  const { map, measures, labels, section } = ground;
  const size = measures.sizes.value;
  const room = stripRoom(ground, strip);
  const heights = heightWords(highest);
  const [over, under] = [above(size, 3), below(size, 3)];
  const lines = (words: readonly string[], at: Height, end: 1 | 2, places: readonly Beside[]): Line[] =>
    linesAbout(ground, "value", words, [map.x(at[0]), y(at[end])], places);
  const words = [`${heights} at most`, heights];
  if (raised === null) {
    labels.set(lines(words, highest, 2, [...over, ...under]), room);
    return;
  }
  const lifted = heightWords(raised);
  const free = { ...room, mostCovered: MOST_COVERED };
  const closeOver = above(size, size * 0.38).slice(0, CLOSE_PLACES);
  const onStream = [`on the stream ${lifted} at most`, `on the stream ${lifted}`];
  const upper = labels.best(lines(onStream, raised, 2, closeOver), boxOf, free);
  if (upper !== null) {
    const foot = y(highest[1]) - y(highest[2]);
    const clear = under.map(([right, down, anchor]): Beside => [right, down + foot, anchor]);
    const apart = grown(boxOf(upper), size * 0.3);
    const lower = labels.best(
      lines(words, highest, 2, [...clear, ...over, ...above(size, size * 0.6)]).filter((line) => !overlap(boxOf(line), apart)),
      boxOf,
      free,
    );
    if (lower !== null) {
      for (const line of [upper, lower]) labels.force(line);
      return;
    }
  }
  const forecast = section.sea?.height.find(([acrossNm]) => acrossNm === raised[0]) ?? highest;
  const both = [`${heights}, on the stream ${lifted} at most`, `${heights}, on the stream ${lifted}`];
  if (labels.set(lines(both, forecast, 1, under), free) !== null || labels.set(lines(both, raised, 2, closeOver), free) !== null) return;
  labels.set(lines([...both, ...onStream], raised, 2, [...over, ...under]), room);
}

/** `never 2.1 m` on its line, away from the highest sea; two that lie too near to each other for that are named together on the upper. */
function nameNevers(ground: Ground, strip: StripBox, nevers: readonly Never[], y: (metres: number) => number, highestX: number): void {
  const [first, second] = nevers;
  const { sizes } = ground.measures;
  if (first !== undefined && second !== undefined && Math.abs(y(first.metres) - y(second.metres)) < sizes.value * NAMED_APART_SIZES) {
    const [one, other] = [first.metres.toFixed(1), second.metres.toFixed(1)];
    const words = [`never ${one} m, on the stream ${other} m`, `never ${one}, on stream ${other} m`];
    nameNever(ground, strip, y(Math.max(first.metres, second.metres)), words, highestX);
    return;
  }
  for (const { metres, on } of nevers)
    nameNever(ground, strip, y(metres), [`never ${metres.toFixed(1)} m${on === "stream" ? " on the stream" : ""}`], highestX);
}

function nameNever(ground: Ground, strip: StripBox, at: number, words: readonly string[], highestX: number): void {
  const { map, measures, labels } = ground;
  const size = measures.sizes.value;
  const shares = highestX > (map.left + map.right) / 2 ? [0.02, 0.3, 0.55, 0.98] : [0.98, 0.7, 0.45, 0.02];
  const lines = words.flatMap((text) =>
    shares.flatMap((share) => {
      const x = map.left + share * (map.right - map.left);
      const anchor = share < 0.1 ? "start" : share > 0.9 ? "end" : "middle";
      return [-0.28, 1].map((down) => lineOf(ground, "value", text, [x, at + down * size], anchor));
    }),
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
        ["start", 200],
        ["end", -200],
      ] as const
    ).map(([anchor, right]) => [right, -size * 0.24 - 2.4 - row * size * 0.8, anchor] as const),
  );
  labels.set(linesAbout(ground, "value", words, [x, strip.bottom], beside), stripRoom(ground, strip));
}
