import type { SectionTold } from "../../api/index.ts";
import type { Box, Point } from "../svg/box.ts";
import type { Measures } from "./measures.ts";

/** A scale shrunk for height keeps at least this share of the width where the other ways would want less. */
const OTHERS_SHRINK_TO = 0.6;
/** Nor is it shrunk further than this for the order itself: what does not fit is cut at the frame. */
const ORDER_SHRINKS_TO = 0.3;
/** For ports of refuge the plan is stretched by so much at most; farther ones are named at its edge. */
const REFUGES_STRETCH = 1.3;
/** Above the highest and below the lowest thing shown there is so much room, in sizes of a place's name. */
const ROOM_SIZES = 2.4;

/**
 * Where miles across and miles off the line come to lie. The plan is a true map, turned so that up is up-stream and never mirrored: where
 * the stream comes from the right of the line, the crossing runs from right to left (`sense` −1), as it would on a chart so turned.
 */
export type Projection = {
  readonly x: (acrossNm: number) => number;
  readonly y: (offNm: number) => number;
  readonly at: (place: readonly [acrossNm: number, offNm: number]) => Point;
  readonly pxPerNm: number;
  readonly sense: 1 | -1;
  readonly plan: Box;
  /** The ends of the miles across, the left one first. */
  readonly left: number;
  readonly right: number;
  /** How far a true bearing is turned from the right of the drawing, clockwise, degrees. */
  readonly turned: (degTrue: number) => number;
  /** A step of unit length toward a true bearing. */
  readonly step: (degTrue: number) => Point;
};

type Range = { readonly least: number; readonly most: number };

const rangeOf = (values: readonly number[]): Range => {
  let [least, most] = [0, 0];
  for (const value of values) [least, most] = [Math.min(least, value), Math.max(most, value)];
  return { least, most };
};
const spread = ({ least, most }: Range): number => most - least;

/** Whether the crossing runs to the right of the drawing (1) or to the left (−1), so that the plan is no mirror image. */
export function senseOf(section: SectionTold): 1 | -1 {
  return Math.sin(((section.lineDegTrue - section.upDegTrue) * Math.PI) / 180) >= 0 ? 1 : -1;
}

/** The largest scale, the same along and across, at which the ways fit the width and a sensible height. */
export function project(section: SectionTold, measures: Measures): Projection {
  const must = section.paths.filter(({ role }) => role !== "other").flatMap(({ points }) => points);
  const others = section.paths.filter(({ role }) => role === "other").flatMap(({ points }) => points);
  const across = rangeOf([section.lengthNm, ...must.map(([acrossNm]) => acrossNm)]);
  const [frameLeft, frameRight] = [measures.columnPx, measures.widthPx - measures.rightPx];
  const inner = frameRight - frameLeft - 2 * measures.overhangPx;
  const full = inner / Math.max(spread(across), 0.01);
  const room = 2 * ROOM_SIZES * measures.sizes.place;
  const high = measures.planMostPx - room;

  const needed = rangeOf(must.map(([, offNm]) => offNm));
  const wished = rangeOf([...must, ...others].map(([, offNm]) => offNm));
  const scaleFor = (range: Range): number => (spread(range) > 0 ? Math.min(full, high / spread(range)) : full);
  const scale = Math.max(full * ORDER_SHRINKS_TO, Math.min(scaleFor(needed), Math.max(scaleFor(wished), full * OTHERS_SHRINK_TO)));
  const ways = spread(wished) * scale <= high ? wished : cutTo(needed, wished, high / scale);
  const roomNm =
    (Math.min(measures.planMostPx, REFUGES_STRETCH * Math.max(measures.planLeastPx, spread(ways) * scale + room)) - room) / scale;
  const off = withRefuges(section, ways, roomNm);

  const height = Math.min(measures.planMostPx, Math.max(measures.planLeastPx, spread(off) * scale + room));
  const plan: Box = { left: frameLeft, right: frameRight, top: measures.headPx, bottom: measures.headPx + height };
  const sense = senseOf(section);
  const middleX = (frameLeft + frameRight) / 2;
  const middleY = (plan.top + plan.bottom) / 2;
  const [middleAcross, middleOff] = [(across.least + across.most) / 2, (off.least + off.most) / 2];
  const x = (acrossNm: number): number => middleX + sense * (acrossNm - middleAcross) * scale;
  const y = (offNm: number): number => middleY - (offNm - middleOff) * scale;
  const rightDegTrue = section.lineDegTrue + (sense > 0 ? 0 : 180);
  const turned = (degTrue: number): number => (((degTrue - rightDegTrue) % 360) + 360) % 360;
  return {
    x,
    y,
    at: ([acrossNm, offNm]) => [x(acrossNm), y(offNm)],
    pxPerNm: scale,
    sense,
    plan,
    left: Math.min(x(0), x(section.lengthNm)),
    right: Math.max(x(0), x(section.lengthNm)),
    turned,
    step: (degTrue) => [Math.cos((turned(degTrue) * Math.PI) / 180), Math.sin((turned(degTrue) * Math.PI) / 180)],
  };
}

/** Of what is wished, as much around what is needed as has room. */
function cutTo(needed: Range, wished: Range, roomNm: number): Range {
  const spare = Math.max(0, roomNm - spread(needed));
  const [below, above] = [needed.least - wished.least, wished.most - needed.most];
  const share = below + above > 0 ? Math.min(1, spare / (below + above)) : 0;
  return { least: needed.least - below * share, most: needed.most + above * share };
}

/** The range widened for ports of refuge, the nearest to it first, as long as there is room. */
function withRefuges(section: SectionTold, range: Range, roomNm: number): Range {
  const away = (offNm: number): number => Math.max(range.least - offNm, offNm - range.most, 0);
  const refuges = section.places.map(({ offNm }) => offNm).sort((a, b) => away(a) - away(b));
  return refuges.reduce<Range>((wide, offNm) => {
    const wider = { least: Math.min(wide.least, offNm), most: Math.max(wide.most, offNm) };
    return spread(wider) <= roomNm ? wider : wide;
  }, range);
}
