import type { GateFault, GatePassed } from "../core/places/index.ts";
import { type BoardRow, CURE_WITHIN_SECONDS, type GateCure, waitedSeconds } from "../core/window/index.ts";
import { entranceLackInWords, inletReasonInWords } from "./say-inlet.ts";
import { clock, dayAndClock, duration, zoneLabel } from "./say-time.ts";

/** An instant at a gate by the clock there, its zone named; with the weekday where it is not the day of `near`. */
function atGate(at: number, zone: string, near: number): string {
  const far = Math.abs(at - near) >= 12 * 3600;
  return `${far ? dayAndClock(at, zone) : clock(at, zone)} ${zoneLabel(at, zone)}`;
}

/** A gate gone through: `the swing bridge 17:30 UTC-4, waits 14 min`; for a notice the last moment to give it. */
export function gatePassedInWords(passed: GatePassed): string {
  const { gate, role, reachedAt, passedAt, noticeBy, fitsUnder } = passed;
  if (role === "notice") {
    // A deadline is never rounded up.
    const by = noticeBy === null ? null : Math.floor(noticeBy / 60) * 60;
    return `notice to ${gate.name}${by === null ? "" : ` by ${dayAndClock(by, gate.zone)} ${zoneLabel(by, gate.zone)}`}`;
  }
  const waits = waitedSeconds(passed) >= 30 ? `, waits ${duration(waitedSeconds(passed))}` : "";
  return `${fitsUnder ? "under " : ""}${gate.name} ${atGate(passedAt, gate.zone, reachedAt)}${waits}`;
}

/** All that a departure passes, in order of time; null where there is no gate. */
export function gatesInWords({ gates }: BoardRow): string | null {
  return gates.passed.length === 0 ? null : gates.passed.map(gatePassedInWords).join("; ");
}

/** Why a gate stops a departure: `12 min late for the swing bridge 17:30 UTC-4, open again 18:00 UTC-4`. */
export function gateFaultInWords(fault: GateFault): string {
  const { gate, role } = fault;
  const name = role === "notice" ? `notice to ${gate.name}` : gate.name;
  if (fault.kind === "noOpening") return `${name} does not open in the time looked at`;
  if (fault.kind === "notGiven") return `not judged: ${gateTimesInWords(fault.why, gate.zone)}`;
  const { late, early, reachedAt, shutBy } = fault;
  const by = shutBy.length === 0 ? "" : ` (${shutBy.map((reason) => inletReasonInWords(reason, gate.zone)).join("; ")})`;
  if (late !== null && (early === null || late.seconds <= early.seconds)) {
    const again = early === null ? "" : `, open again ${atGate(early.opening.from, gate.zone, reachedAt)}`;
    return `${duration(late.seconds)} late for ${name} ${atGate(late.opening.until, gate.zone, reachedAt)}${again}${by}`;
  }
  if (early === null) throw new Error(`a gate missed without an opening: ${gate.name}`);
  return `${duration(early.seconds)} too early for ${name} ${atGate(early.opening.from, gate.zone, reachedAt)}${by}`;
}

/** Until when the values given for a gate reach: `no times of the cut are given after Tue 04:00 UTC-8`. */
export function gateTimesInWords(why: Extract<GateFault, { readonly kind: "notGiven" }>["why"], zone = "UTC"): string {
  const { gate, at, coveredFrom, coveredUntil } = why;
  if (why.code === "entrance-not-judged")
    return `${entranceLackInWords(why.lacks)} at ${gate} for ${dayAndClock(at, zone)} ${zoneLabel(at, zone)}`;
  const said = (edge: number): string => `${dayAndClock(edge, zone)} ${zoneLabel(edge, zone)}`;
  if (coveredUntil !== null && at > coveredUntil) return `the times of ${gate} are given until ${said(coveredUntil)}`;
  if (coveredFrom !== null && at < coveredFrom) return `the times of ${gate} are given from ${said(coveredFrom)}`;
  return `no times of ${gate} are given for ${said(at)}`;
}

/** A change that cures a missed gate: `leave 13 min earlier`. */
export function cureInWords(cure: GateCure): string {
  switch (cure.kind) {
    case "leave":
      return `leave ${duration(Math.abs(cure.seconds))} ${cure.seconds < 0 ? "earlier" : "later"}`;
    case "speed":
      return `go at ${Math.round(cure.speedShare * 100)} % of the speed, there ${duration(Math.abs(cure.seconds))} ${cure.seconds < 0 ? "earlier" : "later"}`;
    case "wait":
      return `lie ${duration(cure.seconds)} off the entrance`;
  }
}

/** The smallest change that cures a missed gate, and `all`: the others after it. */
export function curesInWords(cures: readonly GateCure[], all = false): string {
  const [first, ...others] = cures;
  if (first === undefined) return `no cure found within ${duration(CURE_WITHIN_SECONDS)}`;
  const also = all && others.length > 0 ? `; or ${others.map(cureInWords).join("; or ")}` : "";
  return `cure: ${cureInWords(first)}${also}`;
}
