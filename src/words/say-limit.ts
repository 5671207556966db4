import type { NoAnswer } from "../core/answers/index.ts";
import { CIVIL_ALTITUDE_DEG, SUNRISE_ALTITUDE_DEG } from "../core/earth/index.ts";
import { nodeAt, rateAtNode, type Track } from "../core/passage/index.ts";
import type { BoardRow, Door, Felt, Limit, WorstPlace } from "../core/window/index.ts";
import { knots, knotsTimesKnots, wholeKnots } from "./say-quantity.ts";
import { dayAndClock, dayAndClockNear, duration } from "./say-time.ts";

/** What a limit is set on, in a word or two. */
export function feltName(felt: Felt): string {
  return {
    windMps: "wind",
    gustMps: "gusts",
    windAgainstCurrentMps2: "wind against the stream",
    seaHeightMetres: "sea",
    seaPeriodSeconds: "short sea",
    sunAltitudeDeg: "dark at the entrance",
  }[felt];
}

/** Below this product of wind against the set and rate the words need no figures. */
const HARDLY_AGAINST_KN2 = 2;

/** Where a limit stands worst, in words: `gusts 34 kn`, `11 kn against 3.1 kn of stream`, `dark at the entrance`. */
export function worstInWords(limit: Limit, worst: WorstPlace, track: Track | null): string {
  const { value } = worst;
  switch (limit.felt) {
    case "windMps":
      return `wind ${wholeKnots(value)}`;
    case "gustMps":
      return `gusts ${wholeKnots(value)}`;
    case "windAgainstCurrentMps2": {
      if (value <= 0) return "no wind against the stream";
      const product = knotsTimesKnots(value);
      if (product < HARDLY_AGAINST_KN2) return "hardly any wind against it";
      const rate = track === null ? 0 : rateAtNode(track, nodeAt(track, worst.at));
      return rate > 0.05 ? `${wholeKnots(value / rate)} against ${knots(rate)} stream` : `against the stream, ${product.toFixed(0)} kn²`;
    }
    case "seaHeightMetres":
      return `sea ${value.toFixed(1)} m`;
    case "seaPeriodSeconds":
      return `sea period ${value.toFixed(0)} s`;
    case "sunAltitudeDeg":
      if (value < CIVIL_ALTITUDE_DEG) return "dark at the entrance";
      if (value < SUNRISE_ALTITUDE_DEG) return "twilight at the entrance";
      return `sun ${value.toFixed(0)}° high at the entrance`;
  }
}

/** A limit as the skipper set it: `wind 14 to 22 kn`. */
export function limitInWords(limit: Limit): string {
  const both = (of: (value: number) => string, unit: string): string => `${of(limit.happy)} to ${of(limit.never)} ${unit}`;
  const inKnots = (value: number): string => (value / (1852 / 3600)).toFixed(0);
  const lasting = limit.toleratedSeconds > 0 ? `, ${duration(limit.toleratedSeconds)} tolerated` : "";
  const words = {
    windMps: `wind ${both(inKnots, "kn")}`,
    gustMps: `gusts ${both(inKnots, "kn")}`,
    windAgainstCurrentMps2: `against the stream ${both((v) => knotsTimesKnots(v).toFixed(0), "kn²")}`,
    seaHeightMetres: `sea ${both((v) => v.toFixed(1), "m")}`,
    seaPeriodSeconds: `period ${both((v) => v.toFixed(0), "s")}`,
    sunAltitudeDeg: `sun on arrival ${both((v) => `${v.toFixed(0).replace("-", "−")}°`, "high")}`,
  }[limit.felt];
  return words + lasting;
}

/** Why there is no answer, in words with its time: `not judged: wind ends Tue 04:00`. */
export function noAnswerInWords(why: NoAnswer, zone: string): string {
  switch (why.code) {
    case "not-covered-time": {
      const name = quantityName(why.quantity);
      const outside = outsideOf(why);
      if (outside === "gap") return `not judged: no ${name} is given for ${dayAndClock(why.at, zone)}`;
      const edge = outside === "before" ? why.coveredFrom : why.coveredUntil;
      return `not judged: ${name} ${outside === "before" ? "begins" : "ends"} ${dayAndClockNear(edge ?? why.at, why.at, zone)}`;
    }
    case "not-covered-place":
    case "cannot-hold":
    case "across-land":
      return `${noAnswerReason(why)} ${dayAndClock(why.at, zone)}`;
    case "stalled":
    case "no-way":
      return `${noAnswerReason(why)} after ${dayAndClock(why.at, zone)}`;
    case "carried-away":
      return `${noAnswerReason(why)} by ${dayAndClock(why.at, zone)}`;
    default:
      return noAnswerReason(why);
  }
}

/** Why there is no answer, without its time, so that neighbouring departures with one reason have the same words. */
export function noAnswerReason(why: NoAnswer): string {
  switch (why.code) {
    case "not-covered-time": {
      const name = quantityName(why.quantity);
      return `not judged: ${{ before: `${name} begins later`, after: `${name} ends too soon`, gap: `a gap in the ${name}` }[outsideOf(why)]}`;
    }
    case "not-covered-place":
      return `not judged: ${quantityName(why.quantity)} not known there`;
    case "not-covered-variable":
      return `not judged: no source gives ${quantityName(why.quantity)}`;
    case "cannot-hold":
      return "the track can't be held";
    case "stalled":
      return "no way made";
    case "no-way":
      return "in irons or becalmed";
    case "carried-away":
      return "carried away";
    case "across-land":
      return `runs ${landInWords(why.area)}`;
    case "unreachable":
      return "no heading leads to the destination";
  }
}

/** What a way runs into: `across land`, `across Cape Orro`, `through the kept-out area Tern Shoals`. */
function landInWords(area: Extract<NoAnswer, { readonly code: "across-land" }>["area"]): string {
  if (area?.kind === "keptOut") return `through ${area.name === null ? "an area kept out of" : `the kept-out area ${area.name}`}`;
  return area?.name == null ? "across land" : `across ${area.name}`;
}

/** Whether an instant that is not covered lies before or after all that is, or in a gap. */
function outsideOf(
  why: Extract<NoAnswer, { readonly code: "not-covered-time" | "not-covered-place" | "not-covered-variable" }>,
): "before" | "after" | "gap" {
  if (why.coveredFrom !== null && why.at < why.coveredFrom) return "before";
  // A boat stops at the very end of what is covered: she stands on its last instant.
  return why.coveredUntil !== null && why.at >= why.coveredUntil ? "after" : "gap";
}

function quantityName(quantity: string): string {
  const names: Readonly<Record<string, string>> = {
    current: "current",
    wind: "wind",
    windMps: "wind",
    gustMps: "gusts",
    windAgainstCurrentMps2: "wind or current",
    seaHeightMetres: "sea height",
    seaPeriodSeconds: "sea period",
    sunAltitudeDeg: "light",
  };
  return names[quantity] ?? quantity;
}

/** What decides a row of the board, in words and with its time; null where there is none to tell or the words tell it. */
export function decidedInWords(row: BoardRow, zone: string): { readonly words: string; readonly at: number | null } {
  const { decidedBy } = row.verdict;
  const track = row.advised?.track ?? null;
  switch (decidedBy.kind) {
    case "margin":
      return { words: worstInWords(decidedBy.margin.limit, decidedBy.margin, track), at: decidedBy.margin.at };
    case "notJudged":
      return { words: noAnswerInWords(decidedBy.margin.why, zone), at: null };
    case "noPassage":
      return { words: noAnswerInWords(decidedBy.why, zone), at: null };
    case "littleTime":
      return { words: `too little time before ${doorInWords(decidedBy.inHand.door)}`, at: null };
    case "noLimits":
      return { words: "no limit is set: nothing to judge by", at: null };
  }
}

/** What decides a row, in words without times: what rows have in common. */
export function reasonInWords(row: BoardRow): string {
  const { decidedBy } = row.verdict;
  if (decidedBy.kind === "margin") return feltName(decidedBy.margin.limit.felt);
  if (decidedBy.kind === "notJudged") return noAnswerReason(decidedBy.margin.why);
  if (decidedBy.kind === "noPassage") return noAnswerReason(decidedBy.why);
  return decidedInWords(row, "UTC").words;
}

/** What shuts: `gusts`, `dark at the entrance`, `the forecast's end`. */
export function doorInWords(door: Door | null): string {
  if (door === null) return "nothing as far as was tried";
  if (door.kind === "limit") return feltName(door.felt);
  switch (door.why.code) {
    case "not-covered-time":
      return outsideOf(door.why) === "gap" ? "a gap in the forecast" : "the forecast's end";
    case "not-covered-place":
      return "the edge of what is known";
    case "not-covered-variable":
      return "what no source gives";
    default:
      return "there is no way across";
  }
}
