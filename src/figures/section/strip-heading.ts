import type { Point } from "../svg/box.ts";
import { clippedCurve } from "../svg/clip.ts";
import { drawCurve, drawLine, thinned } from "../svg/path.ts";
import { above, below, type Ground, inFrame, lineOf, linesAbout, type StripBox, stripFrame, stripRoom } from "./ground.ts";
import { threeFigures, unwound } from "./words.ts";

/** The strip never shows less than this, so that a degree looks like a degree. */
const LEAST_SPAN_DEGREES = 24;
/** Headings this near to one another are one order. */
const SAME_DEGREES = 0.5;

/** A stretch of one heading, as indices into what is steered. */
type Stretch = { readonly from: number; readonly to: number; readonly degrees: number };

/**
 * What is steered, and the course over the ground that comes of it, thin. A turn toward up-stream leads up the strip, as it does in the
 * plan: so the course sags where the stream carries the boat down.
 */
export function drawHeading(ground: Ground, strip: StripBox): string {
  const { section, map, measures, labels } = ground;
  const { steered, overGround } = section.heading;
  const headings = unwound(steered.map(([, degrees]) => degrees));
  const courses = unwound(
    overGround.map(([, degrees]) => degrees),
    headings[0],
  );
  const all = [...headings, ...courses];
  if (all.length === 0) return "";
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const size = measures.sizes.value;
  const room = stripRoom(ground, strip);
  const high = strip.bottom - strip.top - size * 1.2;
  const perDegree = high / Math.max(LEAST_SPAN_DEGREES, most - least);
  const middle = (strip.top + strip.bottom) / 2;
  const y = (degrees: number): number => middle + map.sense * (degrees - (least + most) / 2) * perDegree;

  const helm: Point[] = steered.map(([acrossNm], i) => [map.x(acrossNm), y(headings[i]!)]);
  const course: Point[] = overGround.map(([acrossNm], i) => [map.x(acrossNm), y(courses[i]!)]);
  labels.avoid(course);
  labels.avoid(helm);
  const frame = stripFrame(ground, strip);
  let svg = "";
  for (const piece of clippedCurve(thinned(course), frame)) svg += drawCurve(piece, "section-course");
  for (const piece of clippedCurve(helm, frame)) svg += drawCurve(piece, "section-helm");

  const stretches = stretchesOf(headings);
  const oneHeading = headings.every((degrees) => Math.abs(degrees - headings[0]!) <= SAME_DEGREES);
  const helmLength = map.right - map.left;
  for (const { from, to, degrees } of [...stretches].sort((a, b) => lengthOf(b) - lengthOf(a))) {
    const [a, b] = [helm[from]!, helm[to]!];
    const words = threeFigures(degrees);
    const texts = oneHeading
      ? [`steer ${words} ${section.heading.by} the whole way`, `steer ${words} the whole way`, `steer ${words}`]
      : [`steer ${words}`, words];
    const wide = Math.abs(b[0] - a[0]);
    if (stretches.length > 1 && wide < helmLength * 0.04) continue;
    // Where the course sags below the heading there is room above it, and the other way round.
    const at = (share: number): Point => [a[0] + share * (b[0] - a[0]), y(degrees)];
    const lines = [0.5, 0.75, 0.25].flatMap((share) =>
      linesAbout(ground, "value", texts, at(share), [...above(size).slice(0, 3), ...below(size).slice(0, 3)], "section-order section-bold"),
    );
    labels.set(inOrderOfWords(lines, texts), room);
  }
  svg += nameCourse(ground, strip, courses, course, headings);
  return svg;

  function lengthOf({ from, to }: Stretch): number {
    return Math.abs(helm[to]![0] - helm[from]![0]);
  }
}

/** All places for the longest words before any for the shorter. */
function inOrderOfWords<T extends { readonly text: string }>(lines: readonly T[], texts: readonly string[]): T[] {
  return texts.flatMap((text) => lines.filter((line) => line.text === text));
}

function stretchesOf(headings: readonly number[]): Stretch[] {
  const stretches: Stretch[] = [];
  let from = 0;
  for (let i = 1; i <= headings.length; i++) {
    if (i < headings.length && Math.abs(headings[i]! - headings[from]!) <= SAME_DEGREES) continue;
    if (i - 1 > from) stretches.push({ from, to: i - 1, degrees: headings[from]! });
    from = i;
  }
  return stretches;
}

/** The course over the ground where it differs most from what is steered. */
function nameCourse(
  ground: Ground,
  strip: StripBox,
  courses: readonly number[],
  course: readonly Point[],
  headings: readonly number[],
): string {
  const { map, measures, labels, section } = ground;
  const steered = section.heading.steered;
  let [farthest, most] = [-1, 1.5];
  let sense = 1;
  courses.forEach((degrees, i) => {
    const acrossNm = section.heading.overGround[i]![0];
    const k = Math.max(
      0,
      steered.findIndex(([at]) => at >= acrossNm),
    );
    const away = degrees - headings[k]!;
    if (Math.abs(away) > most) [farthest, most, sense] = [i, Math.abs(away), Math.sign(away)];
  });
  const at = course[farthest];
  if (at === undefined || !inFrame(ground, section.heading.overGround[farthest]![0])) return "";
  const size = measures.sizes.value;
  // A course over the ground is held against a receiver, which shows it true.
  const trueDeg = section.heading.overGroundDegTrue?.[farthest];
  const said = trueDeg === undefined ? `${threeFigures(courses[farthest]!)} ${section.heading.by}` : `${threeFigures(trueDeg)} true`;
  const words = [`over the ground ${said}`, said];
  const [near, far] = sense * map.sense > 0 ? [below(size, 3), above(size)] : [above(size), below(size, 3)];
  const lines = words.flatMap((text) =>
    [...near, ...far].map(([right, down, anchor]) => lineOf(ground, "value", text, [at[0] + right, at[1] + down], anchor)),
  );
  const set = labels.set(lines, stripRoom(ground, strip));
  return set === null ? "" : drawLine([at[0], at[1] - 1.5], [at[0], at[1] + 1.5], "section-axis");
}
