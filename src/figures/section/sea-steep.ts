import type { SectionTold } from "../../api/index.ts";
import { overlap } from "../svg/box.ts";
import { drawBox } from "../svg/path.ts";
import { px } from "../svg/px.ts";
import { boxOf, type Line } from "../svg/text.ts";
import { type Ground, lineOf, type StripBox } from "./ground.ts";

type OnStream = NonNullable<NonNullable<SectionTold["sea"]>["onStream"]>;
type Stretch = OnStream["steep"][number];
/** A stretch on the drawing, pixels, and the steepest in it where that is known. */
type Mark = { readonly left: number; readonly right: number; readonly greatest: number | null; readonly figure: string };

/** What a stretch may be called, the longest words first; the last names its kind. */
type Named = { readonly mark: Mark; readonly words: readonly string[] };

/** The row of crests is so high, in type sizes, and under it stands a row of words. */
const CRESTS_SIZES = 0.62;
const WORDS_SIZES = 1.3;
/** A stretch narrower than this, in type sizes, is drawn so wide, so that it is seen. */
const LEAST_SIZES = 0.7;
/** Stretches of a kind nearer than this, in type sizes, are drawn as one. */
const ONE_SIZES = 0.5;
/** Two names stand at least so far apart, in type sizes. */
const APART_SIZES = 0.6;
/** From crest to crest, in heights of the row. */
const PITCH = 1.25;

/** What the rows that mark steep seas take under the sea, pixels; nothing where none is steep or past never. */
export function steepRowsPx({ section, measures }: Ground): number {
  const onStream = section.sea?.onStream ?? null;
  if (onStream === null || onStream.steep.length + onStream.breaking.length + onStream.pastNever.length === 0) return 0;
  return measures.sizes.value * (CRESTS_SIZES + WORDS_SIZES) + 2;
}

/** Crests under the axis of the sea where it is steep, filled and leaning over where it breaks, on hatching past never; each kind named. */
export function drawSteep(ground: Ground, { top }: StripBox): string {
  const onStream = ground.section.sea?.onStream ?? null;
  if (onStream === null || steepRowsPx(ground) === 0) return "";
  const size = ground.measures.sizes.value;
  const rows = { top: top + 2, bottom: top + 2 + size * CRESTS_SIZES };
  const breaking = marksOf(ground, onStream.breaking);
  const steep = marksOf(ground, onStream.steep).flatMap((one) => without(one, breaking));
  const past = marksOf(ground, onStream.pastNever);
  let svg = "";
  for (const { left, right } of past)
    svg += drawBox({ left, right, top: top + 0.5, bottom: rows.bottom }, "section-past-never", ` fill="url(#${ground.id}-past)"`);
  svg += drawCrests(steep, rows, openCrest, "section-steep") + drawCrests(breaking, rows, curlingCrest, "section-breaking");

  const { plan } = ground.map;
  ground.labels.keepOff({ left: plan.left, right: plan.right, top, bottom: rows.bottom });
  const base = rows.bottom + size * 1.02;
  const never = onStream.neverSteepnessWords;
  const others = past.filter((one) => [...steep, ...breaking].every(({ left, right }) => left >= one.right || right <= one.left));
  const wordsFor = (kind: string, marks: readonly Mark[], over: readonly Mark[]): Named[] =>
    steepestFirst(marks).map((mark, i) => ({ mark, words: i === 0 ? wordsOf(kind, mark, isOver(mark, over) ? never : null) : [kind] }));
  nameMarks(ground, base, [
    ...wordsFor("breaking", breaking, past),
    // What is past never is said once, of the worst.
    ...wordsFor("steep", steep, breaking.some((mark) => isOver(mark, past)) ? [] : past),
    ...others.map((mark) => ({ mark, words: wordsOf("", mark, never) })),
  ]);
  return svg;
}

function isOver({ left, right }: Mark, others: readonly Mark[]): boolean {
  return others.some((one) => one.left < right && one.right > left);
}

/** The steepest first, then the others, the widest first. */
function steepestFirst(marks: readonly Mark[]): Mark[] {
  const wide = [...marks].sort((a, b) => b.right - b.left - (a.right - a.left));
  const first = wide.reduce<Mark | undefined>(
    (most, one) => (most === undefined || (one.greatest ?? 0) > (most.greatest ?? 0) ? one : most),
    undefined,
  );
  return first === undefined ? [] : [first, ...wide.filter((one) => one !== first)];
}

/** Stretches on the drawing, from left to right: none too narrow to be seen, those that all but touch as one. */
function marksOf({ map, measures }: Ground, stretches: readonly Stretch[]): Mark[] {
  const size = measures.sizes.value;
  const { left, right } = map.plan;
  const within = (x: number): number => Math.min(right, Math.max(left, x));
  const each = stretches
    .map(({ fromNm, untilNm, greatest, words }): Mark => {
      const [a, b] = [within(map.x(fromNm)), within(map.x(untilNm))];
      const more = Math.max(0, (LEAST_SIZES * size - Math.abs(b - a)) / 2);
      return { left: within(Math.min(a, b) - more), right: within(Math.max(a, b) + more), greatest, figure: words };
    })
    .sort((a, b) => a.left - b.left);
  const marks: Mark[] = [];
  for (const one of each) {
    const last = marks.at(-1);
    if (last === undefined || one.left - last.right > ONE_SIZES * size) marks.push(one);
    else
      marks[marks.length - 1] = {
        ...((one.greatest ?? 0) > (last.greatest ?? 0) ? one : last),
        left: last.left,
        right: Math.max(last.right, one.right),
      };
  }
  return marks;
}

/** What is left of a stretch beside others; how steep it is there is then not known. */
function without(one: Mark, others: readonly Mark[]): Mark[] {
  const inside = others.filter(({ left, right }) => left < one.right && right > one.left);
  if (inside.length === 0) return [one];
  const edges = [one.left, ...inside.flatMap(({ left, right }) => [left, right]), one.right];
  return edges.flatMap((left, i) => {
    const right = edges[i + 1];
    return i % 2 === 0 && right !== undefined && right > left ? [{ left, right, greatest: null, figure: "" }] : [];
  });
}

type Crest = (left: number, right: number, rows: StripBox) => string;

const openCrest: Crest = (left, right, { top, bottom }) =>
  `M${px(left)} ${px(bottom)}L${px((left + right) / 2)} ${px(top)}L${px(right)} ${px(bottom)}`;

/** A wave whose crest leans over its foot. */
const curlingCrest: Crest = (left, right, { top, bottom }) => {
  const [wide, high] = [right - left, bottom - top];
  const at = (x: number, y: number): string => `${px(left + x * wide)} ${px(bottom - y * high)}`;
  return `M${at(0, 0)}L${at(0.32, 0.42)}L${at(0.62, 0.86)}L${at(0.98, 1)}L${at(0.8, 0.66)}L${at(0.78, 0.36)}L${at(0.96, 0)}Z`;
};

/** Crests side by side from end to end of each stretch, as many as stand there whole. */
function drawCrests(marks: readonly Mark[], rows: StripBox, crest: Crest, className: string): string {
  let d = "";
  for (const { left, right } of marks) {
    const many = Math.max(1, Math.round((right - left) / ((rows.bottom - rows.top) * PITCH)));
    const pitch = (right - left) / many;
    for (let i = 0; i < many; i++) d += crest(left + i * pitch, left + (i + 1) * pitch, rows);
  }
  return d === "" ? "" : `<path class="${className}" d="${d}"/>`;
}

/** `breaking, up to 1/11, past never 1/13`, and shorter. */
function wordsOf(kind: string, { figure }: Mark, never: string | null): string[] {
  const past = never === null ? "" : `past never ${never}`;
  const upTo = figure === "" || figure.includes("or") ? figure : `up to ${figure}`;
  const say = (...parts: readonly string[]): string => parts.filter((part) => part !== "").join(", ");
  return [say(kind, upTo, past), say(kind, figure, past), say(kind, past), say(kind, figure), say(kind === "" ? past : kind)].filter(
    (words) => words !== "",
  );
}

/**
 * Words under stretches, in the middle of each where they have room. The first of a kind takes shorter words where longer ones would leave
 * the first of the next kind none.
 */
function nameMarks({ map, measures, labels, ...ground }: Ground, base: number, named: readonly Named[]): void {
  const { value } = measures.sizes;
  const bounds = { left: map.plan.left, right: map.plan.right, top: base - value, bottom: base + value * 0.3 };
  const linesOf = ({ left, right }: Mark, text: string): Line[] => {
    const middle = (left + right) / 2;
    const places = [
      [middle, "middle"],
      [left, "start"],
      [right, "end"],
      [middle, "start"],
      [middle, "end"],
    ] as const;
    return places.map(([x, anchor]) => lineOf({ map, measures, labels, ...ground }, "value", text, [x, base], anchor));
  };
  const kindOf = ({ words }: Named): string => words.at(-1) ?? "";
  const isFirst = (one: Named): boolean => one === named.find((each) => kindOf(each) === kindOf(one));
  const firsts = named.filter(isFirst);
  const set = (one: Named): boolean => {
    const after = firsts[firsts.indexOf(one) + 1];
    const next = isFirst(one) && after !== undefined ? named.filter((each) => kindOf(each) === kindOf(after)) : [];
    return one.words.some((text, k) => {
      const line = labels.best(linesOf(one.mark, text), boxOf, { bounds });
      if (line === null) return false;
      const box = boxOf(line);
      const apart = { ...box, left: box.left - value * APART_SIZES, right: box.right + value * APART_SIZES };
      const leavesRoom = next
        .flatMap((each) => linesOf(each.mark, kindOf(each)))
        .some((each) => labels.isFree(boxOf(each), { bounds }) && !overlap(boxOf(each), apart));
      if (k < one.words.length - 1 && next.length > 0 && !leavesRoom) return false;
      labels.force(line);
      labels.keepOff(apart);
      return true;
    });
  };
  // Each kind once, where its first has no room by another of it; then the rest.
  const done = firsts.map((first) => named.filter((each) => kindOf(each) === kindOf(first)).find(set));
  for (const one of named) if (!done.includes(one)) set(one);
}
