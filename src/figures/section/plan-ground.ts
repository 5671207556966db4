import { around, type Box, type Point } from "../svg/box.ts";
import { clippedCurve, clippedShape, inShape } from "../svg/clip.ts";
import { drawCurve, drawShape, thinned } from "../svg/path.ts";
import { px } from "../svg/px.ts";
import { boxOf, type Line } from "../svg/text.ts";
import { fitted, textWidthPx } from "../svg/text-width.ts";
import { type Beside, type Ground, lineOf, linesAbout } from "./ground.ts";

/** Outlines are thinned to this, pixels: less than a stroke's width. */
const OUTLINE_WITHIN_PX = 0.25;
/** Names of land, lanes and kept-out waters are tried at so many places along and down the shape. */
const NAME_PLACES = 9;
/** A name cut to fewer letters than this says nothing. */
const LEAST_LETTERS = 8;
/** Arrows of a lane's flow stand about so far apart, pixels. */
const FLOW_EVERY_PX = 58;

type Ring = readonly (readonly [number, number])[];

const placed = (ground: Ground, ring: Ring): Point[] => thinned(ring.map(ground.map.at), OUTLINE_WITHIN_PX);
const closed = (points: readonly Point[]): Point[] => (points.length === 0 ? [] : [...points, points[0]!]);

/** Land in its tint with the coast as a line; kept-out waters hatched. Cut to the plan. */
export function drawLand(ground: Ground): string {
  const { plan } = ground.map;
  return ground.section.land
    .map(({ kind, ring }) => {
      const points = placed(ground, ring);
      const shape = clippedShape(points, plan);
      const edge = clippedCurve(closed(points), plan);
      const [fill, line, more] =
        kind === "land"
          ? ["section-land", "section-coast", ""]
          : ["section-kept-out", "section-kept-out-edge", ` fill="url(#${ground.id}-hatch)"`];
      return drawShape(shape, fill, more) + edge.map((piece) => drawCurve(piece, line)).join("");
    })
    .join("");
}

/** Traffic lanes: their edges, and arrows the way the traffic goes. */
export function drawLanes(ground: Ground): string {
  const { plan, step } = ground.map;
  return ground.section.lanes
    .map(({ ring, flowTowardDegTrue }) => {
      const points = placed(ground, ring);
      const shape = clippedShape(points, plan);
      const edges = clippedCurve(closed(points), plan);
      const arrows =
        flowTowardDegTrue === null
          ? []
          : arrowPlaces(shape).map((at) => flowArrow(at, step(flowTowardDegTrue), ground.measures.kind === "paper" ? 9 : 16));
      return (
        drawShape(shape, "section-lane") +
        edges.map((piece) => drawCurve(piece, "section-lane-edge")).join("") +
        arrows.map((d) => `<path class="section-lane-flow" d="${d}"/>`).join("")
      );
    })
    .join("");
}

function arrowPlaces(shape: readonly Point[]): Point[] {
  if (shape.length < 3) return [];
  const { left, right, top, bottom } = extentOf(shape);
  const [columns, rows] = [right - left, bottom - top].map((each) => Math.max(1, Math.round(each / FLOW_EVERY_PX))) as [number, number];
  const places: Point[] = [];
  for (let c = 0; c < columns; c++) {
    for (let r = 0; r < rows; r++) {
      const at: Point = [left + ((c + 0.5) * (right - left)) / columns, top + ((r + 0.5) * (bottom - top)) / rows];
      if (inShape(shape, at)) places.push(at);
    }
  }
  return places;
}

/** An open arrow with a broad head: traffic, not water. */
function flowArrow([x, y]: Point, [ux, uy]: Point, length: number): string {
  const [hx, hy] = [x + (ux * length) / 2, y + (uy * length) / 2];
  const head = length * 0.36;
  const wing = (side: number): string => `${px(hx - ux * head - uy * side * head)} ${px(hy - uy * head + ux * side * head)}`;
  return `M${px(x - (ux * length) / 2)} ${px(y - (uy * length) / 2)}L${px(hx)} ${px(hy)}M${wing(1)}L${px(hx)} ${px(hy)}L${wing(-1)}`;
}

function extentOf(shape: readonly Point[]): { left: number; right: number; top: number; bottom: number } {
  const [xs, ys] = [shape.map(([x]) => x), shape.map(([, y]) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** The names of land, lanes and kept-out waters: each in its shape, kept-out waters else beside it; else left to the words. */
export function nameGround(ground: Ground): void {
  const { land, lanes } = ground.section;
  const once = new Set<string>();
  for (const each of [...land, ...lanes]) {
    const { name, ring } = each;
    if (name === null || name === "" || once.has(name)) continue;
    const shape = clippedShape(placed(ground, ring), ground.map.plan);
    if (shape.length < 3) continue;
    const keptOut = "kind" in each && each.kind === "keptOut";
    if (nameIn(ground, name, shape, keptOut) || (keptOut && nameBeside(ground, name, shape))) once.add(name);
  }
}

/** In the shape, whole: along the drawing or up it; else cut. On the hatching of kept-out waters no name would be read. */
function nameIn(ground: Ground, name: string, shape: readonly Point[], hatched: boolean): boolean {
  if (hatched) return false;
  const { left, right, top, bottom } = extentOf(shape);
  const size = ground.measures.sizes.land;
  const whole = textWidthPx(name, size, "sansBold");
  const cut = (along: number): string => {
    const text = fitted(name, along, size, "sansBold");
    return [...text].length < LEAST_LETTERS ? "" : text;
  };
  const ways: readonly (readonly [text: string, upright: boolean])[] = [
    [whole <= right - left ? name : "", false],
    [whole <= bottom - top ? name : "", true],
    [cut(right - left), false],
    [cut(bottom - top), true],
  ];
  return ways.some(([text, upright]) => {
    if (text === "") return false;
    const lines: Line[] = [];
    for (let i = 0; i < NAME_PLACES * NAME_PLACES; i++) {
      const [c, r] = [fromMiddle(i % NAME_PLACES), fromMiddle(Math.floor(i / NAME_PLACES))];
      const line = { ...lineOf(ground, "land", text, [left + c * (right - left), top + r * (bottom - top)], "middle"), upright };
      if (cornersOf(boxOf(line)).every((corner) => inShape(shape, corner))) lines.push(line);
    }
    return ground.labels.set(lines, { bounds: ground.map.plan }) !== null;
  });
}

const cornersOf = ({ left, right, top, bottom }: Box): Point[] => [
  [left, top],
  [right, top],
  [left, bottom],
  [right, bottom],
  [(left + right) / 2, (top + bottom) / 2],
];

function nameBeside(ground: Ground, name: string, shape: readonly Point[]): boolean {
  const { left, right, top, bottom } = extentOf(shape);
  const size = ground.measures.sizes.land;
  const { plan } = ground.map;
  const words = fitted(name, (plan.right - plan.left) * 0.3, size, "sansBold");
  const [x, y] = [(left + right) / 2, (top + bottom) / 2];
  const beside: Beside[] = [
    [0, bottom - y + size, "middle"],
    [0, top - y - size * 0.35, "middle"],
    [left - x - 4, size * 0.35, "end"],
    [right - x + 4, size * 0.35, "start"],
    [right - x, bottom - y + size, "end"],
    [left - x, bottom - y + size, "start"],
    [right - x, top - y - size * 0.35, "end"],
    [left - x, top - y - size * 0.35, "start"],
  ];
  return ground.labels.set(linesAbout(ground, "land", [words], [x, y], beside), { bounds: plan }) !== null;
}

/** The middle first, then by turns to either side, as a share of the whole. */
function fromMiddle(i: number): number {
  return 0.5 + ((i % 2 === 0 ? 1 : -1) * Math.ceil(i / 2)) / NAME_PLACES;
}

/** The stream as still marks, each as long as its rate: thinned to what the width can hold; a weak stream has a point. */
export function drawStream(ground: Ground): { svg: string; pxPerKn: number } {
  const { plan, at, sense } = ground.map;
  const { streamMarks } = ground.section;
  const most = Math.max(LEAST_FULL_KN, ...streamMarks.map(({ alongKn, upKn }) => Math.hypot(alongKn, upKn)));
  const pxPerKn = ground.measures.markPx / most;
  const apart = ground.measures.markPx * 1.2;
  const taken: Point[] = [];
  let svg = "";
  for (const { acrossNm, offNm, alongKn, upKn } of streamMarks) {
    const [x, y] = at([acrossNm, offNm]);
    const reach = (pxPerKn * Math.hypot(alongKn, upKn)) / 2 + 1;
    const box = around([x, y], reach);
    if (box.left < plan.left || box.right > plan.right || box.top < plan.top || box.bottom > plan.bottom) continue;
    if (taken.some(([a, b]) => Math.abs(a - x) < apart * 0.8 && Math.abs(b - y) < apart)) continue;
    taken.push([x, y]);
    svg += streamMark([x, y], [alongKn * sense, -upKn], pxPerKn);
  }
  return { svg: svg === "" ? "" : `<path class="section-stream" d="${svg}"/>`, pxPerKn };
}

/** A stream weaker than this all over is drawn to this scale, so that next to nothing is not drawn like a race. */
const LEAST_FULL_KN = 1;

/** The strokes of one mark, centred on its place. */
export function streamMark([x, y]: Point, [rightKn, downKn]: Point, pxPerKn: number): string {
  const kn = Math.hypot(rightKn, downKn);
  const length = kn * pxPerKn;
  if (length < 0.6) return "";
  const [ux, uy] = [rightKn / kn, downKn / kn];
  const [hx, hy] = [x + (ux * length) / 2, y + (uy * length) / 2];
  const shaft = `M${px(x - (ux * length) / 2)} ${px(y - (uy * length) / 2)}L${px(hx)} ${px(hy)}`;
  if (length < 5) return shaft;
  const head = Math.min(3.2, length * 0.3);
  const wing = (side: number): string => `${px(hx - ux * head - uy * side * head * 0.62)} ${px(hy - uy * head + ux * side * head * 0.62)}`;
  return `${shaft}M${wing(1)}L${px(hx)} ${px(hy)}L${wing(-1)}`;
}
