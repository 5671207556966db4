import type { SectionTold } from "../../api/index.ts";
import { around, type Point } from "../svg/box.ts";
import { clippedCurve } from "../svg/clip.ts";
import { escapeText } from "../svg/escape.ts";
import { drawDot, pathData, thinned } from "../svg/path.ts";
import { px } from "../svg/px.ts";
import { drawText } from "../svg/text.ts";
import { lineOfWay } from "../ways/way-line.ts";
import { type Ground, lineOf } from "./ground.ts";

type Path = SectionTold["paths"][number];

/** A way that ends further than this from the arrival, as a share of the crossing, ends in open water and is marked so. */
const SHORT_OF_ARRIVAL = 0.02;
/** Places tried for a way's letter, along the way. */
const LETTER_PLACES = 28;
/** A letter stands well inside the drawing: the outer share of a way is left to the names of places. */
const FROM_ENDS = 0.07;

/** Each way's path over the ground, the order on top; the yardstick's dots are seen through it, so that it shows where the two are one. */
export function drawWays(ground: Ground): string {
  const rank = { other: 0, yardstick: 1, order: 2 };
  const data = new Map<Path, string>();
  for (const path of ground.section.paths) {
    const points = thinned(path.points.map(ground.map.at));
    ground.labels.avoid(points);
    data.set(path, clippedCurve(points, ground.map.plan).map(pathData).join(""));
  }
  const seen = ground.section.paths.filter((path) => data.get(path) !== "").sort((a, b) => rank[a.role] - rank[b.role]);
  const lines = seen.map((path) => {
    const line = `<path class="way-${path.role}" data-way="${escapeText(path.letter)}"${strokeOf(path, ground)} d="${data.get(path)}"/>`;
    return line + (endsShort(ground, path) ? cross(ground.map.at(path.points.at(-1)!), ground) : "");
  });
  const [order, yardstick] = (["order", "yardstick"] as const).map((role) => seen.find((path) => path.role === role));
  if (order === undefined || yardstick === undefined) return lines.join("");
  const mask = `${ground.id}-order`;
  return (
    `${lines.join("")}<mask id="${mask}" maskUnits="userSpaceOnUse"><path stroke="#fff"${strokeOf(order, ground)} d="${data.get(order)}"/></mask>` +
    `<path class="section-yardstick-on-order" mask="url(#${mask})"${strokeOf(yardstick, ground)} d="${data.get(yardstick)}"/>`
  );
}

/** On paper lines are finer by this. */
const PAPER_SHARE = 0.65;

/** The line of a way as in the table's sample. */
function strokeOf(path: Path, { measures }: Ground): string {
  const { widthPx, dash, roundCaps } = lineOfWay(path);
  const share = measures.kind === "paper" ? PAPER_SHARE : 1;
  const dashes =
    dash === null
      ? ""
      : ` stroke-dasharray="${dash
          .split(" ")
          .map((each) => px(Number(each) * share))
          .join(" ")}"`;
  return ` fill="none" stroke-linejoin="round" stroke-width="${px(widthPx * share)}"${dashes}${roundCaps ? ' stroke-linecap="round"' : ""}`;
}

function endsShort(ground: Ground, path: Path): boolean {
  const end = path.points.at(-1);
  const { lengthNm } = ground.section;
  return end !== undefined && Math.hypot(end[0] - lengthNm, end[1]) > SHORT_OF_ARRIVAL * lengthNm;
}

function cross([x, y]: Point, ground: Ground): string {
  const { plan } = ground.map;
  if (x < plan.left || x > plan.right || y < plan.top || y > plan.bottom) return "";
  const arm = ground.measures.badgePx * 0.55;
  return `<path class="section-ends" d="M${px(x - arm)} ${px(y - arm)}L${px(x + arm)} ${px(y + arm)}M${px(x - arm)} ${px(y + arm)}L${px(x + arm)} ${px(y - arm)}"/>`;
}

/** A letter in a circle beside each way, where that way is nearest and no other is touched. */
export function drawLetters(ground: Ground): string {
  const radius = ground.measures.badgePx;
  const set: Point[] = [];
  let svg = "";
  for (const path of ground.section.paths) {
    const centre = letterPlace(ground, path, radius, set);
    if (centre === null) continue;
    set.push(centre);
    ground.labels.keepOff(around(centre, radius));
    const [x, y] = centre;
    const letter = lineOf(ground, "badge", path.letter, [x, y + ground.measures.sizes.badge * 0.355], "middle");
    svg += drawDot(centre, radius, "section-badge") + drawText(letter);
  }
  return svg;
}

function letterPlace(ground: Ground, path: Path, radius: number, set: readonly Point[]): Point | null {
  const points = path.points.map(ground.map.at).filter(([x, y]) => {
    const { plan } = ground.map;
    return x > plan.left + radius && x < plan.right - radius && y > plan.top + radius && y < plan.bottom - radius;
  });
  const lengths = runningLengths(points);
  const whole = lengths.at(-1) ?? 0;
  if (whole === 0) return null;
  const places: Point[] = [];
  for (const away of [radius + 3.5, radius + 7, 0]) {
    for (let i = 0; i < LETTER_PLACES; i++) {
      // From a third of the way outward: there the ways have parted and the names of places are far.
      const share = FROM_ENDS + (1 - 2 * FROM_ENDS) * (((i * 11 + 9) % LETTER_PLACES) / (LETTER_PLACES - 1));
      const { at, along } = pointAt(points, lengths, share * whole);
      if (away === 0) places.push(at);
      else for (const side of [1, -1]) places.push([at[0] - along[1] * side * away, at[1] + along[0] * side * away]);
    }
  }
  return farthest(ground, path, places, radius, set);
}

/** The place free of labels whose other ways are farthest compared with its own. */
function farthest(ground: Ground, path: Path, places: readonly Point[], radius: number, set: readonly Point[]): Point | null {
  const others = ground.section.paths.filter((each) => each !== path).map(({ points }) => thinned(points.map(ground.map.at), 0.5));
  let best: Point | null = null;
  let most = Number.NEGATIVE_INFINITY;
  places.forEach((place, i) => {
    if (!ground.labels.isFree(around(place, radius), { bounds: ground.map.plan })) return;
    const own = i >= (places.length * 4) / 5;
    const near = Math.min(4 * radius, ...others.map((points) => distanceTo(points, place)));
    const covered = ground.labels.covers(around(place, radius));
    // Letters in a bunch can't be told to their lines.
    const bunched = Math.max(0, 6 * radius - Math.min(...set.map(([x, y]) => Math.hypot(x - place[0], y - place[1]))));
    const merit = Math.min(near, 3 * radius) - bunched * 0.5 - covered * 2 - (own ? 3 * radius : 0) - (i / places.length) * radius;
    if (merit > most) [best, most] = [place, merit];
  });
  return best;
}

/** How far a point lies from a stroke, pixels. */
function distanceTo(points: readonly Point[], [x, y]: Point): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < points.length; i++) {
    const [[ax, ay], [bx, by]] = [points[i - 1]!, points[i]!];
    const square = (bx - ax) ** 2 + (by - ay) ** 2;
    const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
    least = Math.min(least, Math.hypot(x - ax - share * (bx - ax), y - ay - share * (by - ay)));
  }
  return least;
}

/** How long a stroke is up to each of its points. */
export function runningLengths(points: readonly Point[]): number[] {
  let whole = 0;
  return points.map(([x, y], i) => {
    const [a, b] = points[i - 1] ?? [x, y];
    whole += Math.hypot(x - a, y - b);
    return whole;
  });
}

/** The point so far along a stroke, and the step of unit length along it there. */
export function pointAt(points: readonly Point[], lengths: readonly number[], length: number): { at: Point; along: Point } {
  let i = 1;
  while (i < points.length - 1 && lengths[i]! < length) i++;
  const [[ax, ay], [bx, by]] = [points[i - 1]!, points[i]!];
  const piece = lengths[i]! - lengths[i - 1]!;
  const share = piece === 0 ? 0 : Math.min(1, Math.max(0, (length - lengths[i - 1]!) / piece));
  const along: Point = piece === 0 ? [1, 0] : [(bx - ax) / piece, (by - ay) / piece];
  return { at: [ax + share * (bx - ax), ay + share * (by - ay)], along };
}
