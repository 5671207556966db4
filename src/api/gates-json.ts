import type { OpenSpan } from "../core/calendar/index.ts";
import type { GateFault, GatePassed } from "../core/places/index.ts";
import type { BoardRow, GateCure } from "../core/window/index.ts";
import { inletReasonJson } from "./inlet-json.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";

function passedJson({ gate, role, reachedAt, passedAt, noticeBy, fitsUnder }: GatePassed) {
  return {
    name: gate.name,
    on: gate.on,
    role,
    zone: gate.zone,
    reachedAt: iso(reachedAt),
    passedAt: iso(passedAt),
    waitedSeconds: Math.round(passedAt - reachedAt),
    noticeBy: isoOrNull(noticeBy),
    fitsUnder,
  };
}

function openingJson(one: { readonly opening: OpenSpan; readonly seconds: number } | null) {
  return one === null ? null : { from: iso(one.opening.from), until: iso(one.opening.until), seconds: Math.round(one.seconds) };
}

function faultJson(fault: GateFault) {
  const of = { kind: fault.kind, name: fault.gate.name, on: fault.gate.on, role: fault.role, zone: fault.gate.zone };
  if (fault.kind !== "missed")
    return { ...of, reachedAt: iso(fault.why.at), shutBy: [], late: null, early: null, why: noAnswerJson(fault.why) };
  return {
    ...of,
    reachedAt: iso(fault.reachedAt),
    shutBy: fault.shutBy.map(inletReasonJson),
    late: openingJson(fault.late),
    early: openingJson(fault.early),
    why: null,
  };
}

function cureJson(cure: GateCure) {
  return {
    kind: cure.kind,
    seconds: Math.round(cure.seconds),
    departAt: cure.kind === "leave" ? iso(cure.departAt) : null,
    speedShare: cure.kind === "speed" ? rounded(cure.speedShare, 3) : null,
  };
}

/** The gates of a departure as JSON: those passed in order of time, what stops it, and what cures that. */
export function gatesJson({ gates }: BoardRow) {
  return {
    passed: gates.passed.map(passedJson),
    fault: gates.fault === null ? null : faultJson(gates.fault),
    cures: gates.cures.map(cureJson),
  };
}
