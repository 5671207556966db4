import type { Margin, WorstPlace } from "../judged.ts";
import { type LimitOnce, marginOf } from "../limit.ts";
import type { KnownOnce, OnceValue, WholePassage } from "./once-value.ts";
import { calmBefore } from "./wind-before.ts";

/** Judges a limit on one figure of a passage. `leaving` is when and where the berth is left. */
export function judgeOnce(whole: WholePassage, limit: LimitOnce, leaving: Omit<KnownOnce, "value">): Margin {
  const found = valueFor(whole, limit, leaving);
  if (found.kind === "unknown") {
    return { kind: "notJudged", limit, why: found.why, knownPart: found.knownPart === null ? null : placed(limit, found.knownPart) };
  }
  const place = placed(limit, found);
  // "At least so long" is good enough only where that is beyond happy already.
  if (found.kind === "atLeast" && place.margin < 1) return { kind: "notJudged", limit, why: found.why, knownPart: null };
  return { kind: "judged", limit, ...place };
}

function valueFor(whole: WholePassage, limit: LimitOnce, leaving: Omit<KnownOnce, "value">): OnceValue {
  if (limit.felt !== "calmBeforeSeconds") return whole.values[limit.felt];
  if (limit.calmMps === undefined) throw new Error("a limit on calm before leaving that does not say which wind is calm");
  return calmBefore(whole.windBefore, limit.calmMps, leaving);
}

function placed(limit: LimitOnce, { value, at, where, name }: KnownOnce): WorstPlace {
  const margin = marginOf(limit, value);
  // The clock strikes never before the boat is in; any other figure is passed when it stands.
  const past = limit.felt === "arrivalClockSeconds" ? at - (value - limit.never) : at;
  return {
    margin,
    value,
    peakValue: value,
    at,
    where,
    firstPastNeverAt: margin < 0 ? past : null,
    ...(name === undefined ? {} : { name }),
  };
}
