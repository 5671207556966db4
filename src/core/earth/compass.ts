import { bad, good, type Issue, issue, type Parsed } from "../answers/index.ts";
import { wrap180Deg, wrap360Deg } from "../units/index.ts";

/** One line of a deviation card: the deviation, east positive, on a magnetic heading. */
export interface DeviationPoint {
  readonly headingDegMag: number;
  readonly deviationDeg: number;
}

/** Deviations by magnetic heading; straight between them, around the circle; empty: none known, compass = magnetic. */
export type DeviationCard = readonly DeviationPoint[];

/**
 * The compass must turn by at least this share of what the ship turns, or its reading can't be told back into a heading: a card beyond it
 * is a slip of the pen or a compass not to be steered by (common practice would adjust it long before).
 */
export const LEAST_COMPASS_TURN_SHARE = 0.01;

/** What lies between the true course and what the helm reads. */
export interface CompassCorrection {
  /** East positive. */
  readonly variationDeg: number;
  readonly deviationCard: DeviationCard;
}

/** One heading in its three senses. East positive: true = magnetic + variation, magnetic = compass + deviation. */
export interface Heading {
  readonly headingDegTrue: number;
  readonly headingDegMag: number;
  readonly headingDegCompass: number;
  readonly deviationDeg: number;
}

/** Sorted from 0 up, each heading once, and the first again a turn later. */
function circleOf(card: DeviationCard): DeviationPoint[] {
  const sorted = card
    .map((point) => ({ headingDegMag: wrap360Deg(point.headingDegMag), deviationDeg: point.deviationDeg }))
    .sort((a, b) => a.headingDegMag - b.headingDegMag)
    .filter((point, i, all) => i === 0 || !samePoint(point, all[i - 1]!));
  const first = sorted[0];
  return first === undefined ? [] : [...sorted, { headingDegMag: first.headingDegMag + 360, deviationDeg: first.deviationDeg }];
}

const samePoint = (a: DeviationPoint, b: DeviationPoint): boolean =>
  a.headingDegMag === b.headingDegMag && a.deviationDeg === b.deviationDeg;

/**
 * Holds a deviation card against what a helm can use, and tells everything wrong with it at once: headings outside 0 to 360, a heading
 * with two deviations (000 and 360 may both stand if they agree), and deviations that change so fast that one compass heading would
 * mean two magnetic ones. `path` is where the card stands in the passage file. Throws on a number that is none.
 */
export function checkDeviationCard(card: DeviationCard, path: string): Parsed<DeviationCard> {
  const issues: Issue[] = [];
  card.forEach(({ headingDegMag, deviationDeg }, i) => {
    if (!Number.isFinite(headingDegMag) || !Number.isFinite(deviationDeg)) {
      throw new Error(`not a deviation: ${deviationDeg} on ${headingDegMag}`);
    }
    if (headingDegMag < 0 || headingDegMag > 360) {
      issues.push(issue(`${path}[${i}]`, "deviation-heading-range", `a magnetic heading lies from 0 to 360: ${headingDegMag}`));
    }
  });
  if (issues.length > 0) return bad(...issues);
  const circle = circleOf(card);
  circle.slice(1).forEach((point, i) => {
    const before = circle[i]!;
    const step = point.headingDegMag - before.headingDegMag;
    const heading = wrap360Deg(point.headingDegMag);
    if (step === 0) {
      const message = `heading ${heading} stands twice, with deviations ${before.deviationDeg} and ${point.deviationDeg}`;
      issues.push(issue(path, "deviation-heading-repeated", message));
    } else if (point.deviationDeg - before.deviationDeg > step * (1 - LEAST_COMPASS_TURN_SHARE)) {
      const message = `from heading ${before.headingDegMag} to ${heading} the deviation grows from ${before.deviationDeg} to ${point.deviationDeg}, nearly as fast as the heading or faster`;
      issues.push(issue(path, "deviation-not-steerable", message));
    }
  });
  return issues.length > 0 ? bad(...issues) : good(card);
}

/** The checked card as a circle; an unchecked bad one is our bug. */
function soundCircle(card: DeviationCard): DeviationPoint[] {
  const checked = checkDeviationCard(card, "deviation");
  if (!checked.ok) throw new Error(`an unchecked deviation card: ${checked.issues.map((one) => one.message).join("; ")}`);
  return circleOf(card);
}

/** Deviation on a magnetic heading, degrees, east positive: straight between the card's lines, around the circle. */
export function deviationDegOn(headingDegMag: number, card: DeviationCard): number {
  if (!Number.isFinite(headingDegMag)) throw new Error(`not a heading: ${headingDegMag}`);
  const circle = soundCircle(card);
  const first = circle[0];
  if (first === undefined) return 0;
  const turned = first.headingDegMag + wrap360Deg(headingDegMag - first.headingDegMag);
  for (let i = 1; i < circle.length; i++) {
    const a = circle[i - 1]!;
    const b = circle[i]!;
    if (turned <= b.headingDegMag) {
      return a.deviationDeg + ((b.deviationDeg - a.deviationDeg) * (turned - a.headingDegMag)) / (b.headingDegMag - a.headingDegMag);
    }
  }
  return first.deviationDeg;
}

/**
 * What the helm reads on a true heading. The memory rule, "C = T + W": from true to compass westerly is added and easterly taken away,
 * first the variation, then the deviation on the magnetic heading (common practice).
 */
export function compassHeading(headingDegTrue: number, { variationDeg, deviationCard }: CompassCorrection): Heading {
  const headingDegMag = wrap360Deg(headingDegTrue - variationDeg);
  const deviationDeg = deviationDegOn(headingDegMag, deviationCard);
  return {
    headingDegTrue: wrap360Deg(headingDegTrue),
    headingDegMag,
    headingDegCompass: wrap360Deg(headingDegMag - deviationDeg),
    deviationDeg,
  };
}

/**
 * The true heading of what the helm reads. Deviation goes by the magnetic heading, which is not known yet: between two lines of the card
 * compass is straight in magnetic, so it is solved there exactly, not by trying.
 */
export function trueHeading(headingDegCompass: number, { variationDeg, deviationCard }: CompassCorrection): Heading {
  const circle = soundCircle(deviationCard);
  const first = circle[0];
  let headingDegMag = headingDegCompass;
  if (first !== undefined) {
    const compassOf = (point: DeviationPoint): number => point.headingDegMag - point.deviationDeg;
    const turned = compassOf(first) + wrap360Deg(headingDegCompass - compassOf(first));
    const found = circle.findIndex((point, k) => k > 0 && turned <= compassOf(point));
    const i = found > 0 ? found : circle.length - 1;
    const a = circle[i - 1]!;
    const b = circle[i]!;
    headingDegMag = a.headingDegMag + ((b.headingDegMag - a.headingDegMag) * (turned - compassOf(a))) / (compassOf(b) - compassOf(a));
  }
  return {
    headingDegTrue: wrap360Deg(headingDegMag + variationDeg),
    headingDegMag: wrap360Deg(headingDegMag),
    headingDegCompass: wrap360Deg(headingDegCompass),
    deviationDeg: wrap180Deg(headingDegMag - headingDegCompass),
  };
}
