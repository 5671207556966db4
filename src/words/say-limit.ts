import type { NoAnswer } from "../core/answers/index.ts";
import type { BoardRow, Door } from "../core/window/index.ts";
import { feltName, quantityName, worstInWords } from "./say-felt.ts";
import { gateFaultInWords } from "./say-gates.ts";
import { entranceLackInWords } from "./say-inlet.ts";
import { dayAndClock, dayAndClockNear } from "./say-time.ts";

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
    case "current-not-fit":
      return "not judged: the forecast's current is not fit there";
    case "swell-not-known":
      return "not judged: the swell is not known";
    case "unreachable":
      return "no heading leads to the destination";
    case "gate-no-opening":
      return `${why.gate} does not open in the time looked at`;
    case "gate-times-not-given":
      return `not judged: times of ${why.gate} not given`;
    case "entrance-not-judged":
      return `not judged: ${entranceLackInWords(why.lacks)} at ${why.gate}`;
    case "not-stated":
      return `not judged: ${notStatedInWords(why)}`;
  }
}

/** What the passage file does not say. */
function notStatedInWords({ wants, name }: Extract<NoAnswer, { readonly code: "not-stated" }>): string {
  return {
    burn: "the burn is not stated",
    usableFuel: "usable fuel is not stated",
    draught: "the draught is not stated",
    depths: "no depth is stated",
    datum: `datum of ${name ?? "the depth"} unknown`,
    crew: "the crew is not stated",
    approach: "the approach is not stated",
  }[wants];
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
    case "currentNotFit":
      return { words: noAnswerInWords(decidedBy.why, zone), at: null };
    case "gate":
      return { words: gateFaultInWords(decidedBy.fault), at: null };
    case "gateNotJudged":
      return { words: gateFaultInWords(decidedBy.fault), at: null };
    case "littleTime":
      return { words: `too little time before ${doorInWords(decidedBy.inHand.door)}`, at: null };
    case "noLimits":
      return { words: "no limit is set: nothing to judge by", at: null };
  }
}

/**
 * What decides after the verdict itself: `, by gusts 34 kn`; what is not judged says so alone: `: not judged: wind ends Tue 04:00`; what
 * there is none of decides nothing: `, with no wind against the stream`.
 */
export function byInWords(decided: string): string {
  if (decided.startsWith("not judged")) return `: ${decided}`;
  return /^(?:no|hardly any) /.test(decided) ? `, with ${decided}` : `, by ${decided}`;
}

/** What decides a row, in words without times: what rows have in common. */
export function reasonInWords(row: BoardRow): string {
  const { decidedBy } = row.verdict;
  if (decidedBy.kind === "margin") return feltName(decidedBy.margin.limit.felt);
  if (decidedBy.kind === "notJudged") return noAnswerReason(decidedBy.margin.why);
  if (decidedBy.kind === "noPassage" || decidedBy.kind === "currentNotFit") return noAnswerReason(decidedBy.why);
  if (decidedBy.kind === "gate")
    return decidedBy.fault.kind === "missed" ? `${decidedBy.fault.gate.name} missed` : noAnswerReason(decidedBy.fault.why);
  if (decidedBy.kind === "gateNotJudged") return noAnswerReason(decidedBy.fault.why);
  return decidedInWords(row, "UTC").words;
}

/** What shuts: `gusts`, `dark at the entrance`, `the forecast's end`. */
export function doorInWords(door: Door | null): string {
  if (door === null) return "nothing as far as was tried";
  if (door.kind === "limit") return feltName(door.felt);
  if (door.kind === "gate") return `${door.name} shuts`;
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
