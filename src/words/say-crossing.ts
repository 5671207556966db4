import { MEND_FROM_SHARE, turnsAcross } from "../core/passage/index.ts";
import type { ComparedWay, CrossAnswer } from "../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import { byInWords, decidedInWords, doorInWords, noAnswerInWords } from "./say-limit.ts";
import { miles } from "./say-quantity.ts";
import { dayAndClock, dayAndClockNear, duration, fullTime, signedDuration } from "./say-time.ts";

/** A verdict as it is said: what is closed is shut. */
export function stateInWords(kind: "open" | "marginal" | "closed"): string {
  return kind === "closed" ? "shut" : kind;
}

/** The verdict on a departure that arrives: `Leaving Thu 8 Apr 2027, 00:00 UTC-8: open, by gusts 20 kn, …. In hand 2 h 36 before gusts.` */
export function leavingInWords({ row, prepared, departAt }: CrossAnswer): string {
  const zone = prepared.passage.shipZone;
  const decided = decidedInWords(row, zone);
  const when = decided.at === null ? "" : `, ${dayAndClockNear(decided.at, departAt, zone)}`;
  const closed = row.verdict.kind === "closed";
  const noDoor = row.inHand !== null && row.inHand.seconds === null ? " No door met as far as was tried." : "";
  const hand = row.inHand?.seconds == null ? noDoor : ` In hand ${duration(row.inHand.seconds)} before ${doorInWords(row.inHand.door)}.`;
  return `Leaving ${fullTime(departAt, zone)}: ${stateInWords(row.verdict.kind)}${byInWords(decided.words)}${when}.${closed ? " Do not leave then." : hand}`;
}

/** Why a departure has no way across: a line for the departure, and what its sources cover. */
export function noWayInWords({ departAt, prepared }: CrossAnswer): readonly string[] {
  const zone = prepared.passage.shipZone;
  const water = prepared.current.covers;
  const covered = (name: string, span: { readonly from: number; readonly until: number }): string =>
    `The ${name} is covered from ${fullTime(span.from, zone)} to ${fullTime(span.until, zone)}.`;
  return [
    `No way across arrives when leaving ${fullTime(departAt, zone)}.`,
    [...(water === null ? [] : [covered("current", water)]), covered("wind", prepared.weather.wind.covers)].join(" "),
  ];
}

/** What an arrival costs against the earliest computed: `+4 min`, `best`. */
export function costInWords(costSeconds: number | null): string {
  return costSeconds !== null && costSeconds < 30 ? "best" : signedDuration(costSeconds ?? 0);
}

/** A way's verdict along its own path: `open, by sea 1.2 m Thu 06:00`; empty where it does not arrive. */
export function wayVerdictInWords({ way, judged }: ComparedWay, { row, prepared }: CrossAnswer): string {
  if (way.kind === "fails" || judged === null) return "";
  const zone = prepared.passage.shipZone;
  const { words, at } = decidedInWords({ ...row, verdict: judged.verdict, advised: way }, zone);
  return `${stateInWords(judged.verdict.kind)}${byInWords(words)}${at === null ? "" : ` ${dayAndClock(at, zone)}`}`;
}

/** What comes of the order for each other strength of the stream, a sentence each. */
export function offStrengthInWords(answer: CrossAnswer): readonly string[] {
  const advised = answer.ways.find((one) => one.way.name === answer.advised?.name);
  if (advised === undefined) return [];
  const side = answer.stream?.downStreamSide ?? 1;
  return advised.otherwise.map(({ streamFactor, carried, addedSeconds }) => {
    if (carried.run.kind === "fails")
      return `With the stream at ${streamFactor} of what is foretold the order fails: ${noAnswerInWords(carried.run.why, answer.prepared.passage.shipZone)}.`;
    const off = carried.offAtClearMetres === null ? null : carried.offAtClearMetres * side;
    // Where the stream never ends there is no coming clear: the course is mended so far across.
    const place = answer.advised?.clear == null ? `you are ${Math.round(MEND_FROM_SHARE * 100)} % across` : "you come clear";
    const where = off === null ? "" : ` ${place} ${miles(Math.abs(off))} miles ${off >= 0 ? "down" : "up"}-stream of the line and`;
    const added = Math.round((addedSeconds ?? 0) / 60) * 60;
    const arrive = added === 0 ? "arrive at the same time" : `arrive ${duration(Math.abs(added))} ${added > 0 ? "later" : "earlier"}`;
    return `With the stream at ${streamFactor} of what is foretold${where} ${where === "" ? "you " : ""}${arrive}.`;
  });
}

/** What carries the boat: for a stream that runs one way its total, which one heading depends on; a tide that turns has none to speak of. */
export function streamTotalInWords(answer: CrossAnswer): readonly string[] {
  const { stream, advised } = answer;
  if (stream === null || advised === null) return [];
  const many =
    advised.name === "oneHeading" && advised.headingsThatLead > 1
      ? [`${advised.headingsThatLead} single headings lead there; the earliest is taken.`]
      : [];
  if (turnsAcross(advised.track, answer.prepared.line))
    return ["The stream turns while you cross: when it does matters as much as how hard it runs.", ...many];
  const total = Math.abs(knotsFromMps(nmFromMetres(stream.totalMetres2ps)));
  return [
    `What carries you is the stream's total across the line, ${total.toFixed(0)} knot-miles; where in the strait it runs hardest matters little.`,
    ...many,
  ];
}

/** What to do about a doubt: up-stream is the good side only where the water goes on setting her down to the line. */
export function whenInDoubtInWords({ advised, prepared }: CrossAnswer): string {
  return advised !== null && turnsAcross(advised.track, prepared.line)
    ? "The stream turns: these headings hold only for the times beside them."
    : "Until clear of the stream, and with sea room, stay up-stream when in doubt: the stream sets you down to the line.";
}

/** How the re-aim table is read. */
export const RE_AIM_READ =
  "Rows: miles across, and the time that the headings are reckoned for; columns: miles off the expected path. Much earlier or later, reckon anew.";

/** What the fastest is and what is made of it; empty where none was sought. */
export function yardstickInWords({ fastest }: CrossAnswer): string {
  if (fastest === null) return "";
  if (fastest.kind === "arrives" && fastest.underSail !== null)
    return "The fastest under sail is a bound, nothing is faster; its plan is what can be sailed.";
  return "The fastest is a yardstick, its heading turning all the way; changing headings is what a helm can make of it, each held an hour.";
}

/** Whether the fastest was cross-checked, in all water or in what is known; else why not, in a word or two. */
export function crossCheckedInWords(fastest: Extract<NonNullable<CrossAnswer["fastest"]>, { readonly kind: "arrives" }>): string {
  if (fastest.whyNotCrossChecked === null) return "cross-checked";
  if (fastest.whyNotCrossChecked === "waterUnknown" && fastest.crossCheckedInKnownWater) return "cross-checked in known water";
  const why = {
    notAsked: "not asked",
    earlierFound: "found late",
    timingDiffers: "timings part",
    waterUnknown: "water unknown",
    edgeOfSearch: "at the edge",
  }[fastest.whyNotCrossChecked];
  return `not cross-checked: ${why}`;
}
