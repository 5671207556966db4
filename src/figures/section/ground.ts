import type { SectionTold } from "../../api/index.ts";
import type { Box, Point } from "../svg/box.ts";
import type { Labels, Room } from "../svg/labels.ts";
import type { Anchor, Line } from "../svg/text.ts";
import type { Measures } from "./measures.ts";
import type { Projection } from "./projection.ts";

/** All that a part of the drawing is drawn from, and where its labels are set. */
export type Ground = {
  readonly section: SectionTold;
  readonly measures: Measures;
  readonly map: Projection;
  readonly labels: Labels;
  /** Begins the ids of this figure's parts. */
  readonly id: string;
};

/** A strip: between these ends it is drawn, above and below is room for the labels of its own. */
export type StripBox = { readonly top: number; readonly bottom: number };

type Ink = keyof Measures["sizes"];

const classOf: Readonly<Record<Ink, string>> = {
  value: "section-value",
  name: "section-name",
  unit: "section-unit",
  hour: "section-hour",
  tiny: "section-unit",
  place: "section-place",
  land: "section-land-name",
  badge: "section-badge-letter",
};

/** A line of text in one of the section's sizes; `more` adds a class. */
export function lineOf(ground: Ground, ink: Ink, text: string, at: Point, anchor: Anchor = "start", more = ""): Line {
  const bold = ink === "name" || ink === "badge" || ink === "land" || more.includes("section-bold");
  const face = ink === "place" ? "serif" : bold ? "sansBold" : "sans";
  return { text, at, anchor, sizePx: ground.measures.sizes[ink], face, className: `${classOf[ink]}${more === "" ? "" : ` ${more}`}` };
}

/** Where words about a point may stand, as a step from it: pixels right and down to the base line, and the end that stands there. */
export type Beside = readonly [right: number, down: number, anchor: Anchor];

/** Lines of words about a point: each of the words, the longer first, at each of the places. */
export function linesAbout(
  ground: Ground,
  ink: Ink,
  words: readonly string[],
  [x, y]: Point,
  besides: readonly Beside[],
  more = "",
): Line[] {
  return words.flatMap((text) => besides.map(([right, down, anchor]) => lineOf(ground, ink, text, [x + right, y + down], anchor, more)));
}

/** Above a point: right over it, then to either side, then higher. */
export function above(size: number, gap = 4): Beside[] {
  return [
    [0, -gap, "middle"],
    [-3, -gap, "end"],
    [3, -gap, "start"],
    [0, -gap - size * 0.7, "middle"],
    [-size, -gap - size * 0.3, "end"],
    [size, -gap - size * 0.3, "start"],
  ];
}

/** Below a point: right under it, then to either side, then lower. */
export function below(size: number, gap = 4): Beside[] {
  return above(size, -gap - size * 0.78).map(([right, down, anchor], i) => [right, i < 3 ? down : 2 * (gap + size * 0.78) - down, anchor]);
}

/** The points of a curve along the miles across, on the drawing. */
export function curveOf(ground: Ground, points: readonly (readonly [number, number])[], y: (value: number) => number): Point[] {
  return points.map(([acrossNm, value]) => [ground.map.x(acrossNm), y(value)]);
}

/** Where a strip's curves may be drawn: from frame to frame, with a little over its ends. */
export function stripFrame(ground: Ground, strip: StripBox): Box {
  const { plan } = ground.map;
  return { left: plan.left, right: plan.right, top: strip.top - 2, bottom: strip.bottom + 2 };
}

/** Whether so many miles across lie between the frame's ends: what a way does beyond them is cut. */
export function inFrame({ map }: Ground, acrossNm: number): boolean {
  const x = map.x(acrossNm);
  return x >= map.plan.left && x <= map.plan.right;
}

/** Where the labels of a strip may stand: as wide as the plan, a little over and under the strip. */
export function stripRoom(ground: Ground, strip: StripBox): Room {
  const { plan } = ground.map;
  const more = ground.measures.gapPx * 0.8;
  return { bounds: { left: plan.left, right: plan.right, top: strip.top - more, bottom: strip.bottom + more } };
}
