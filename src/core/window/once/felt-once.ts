import type { NoAnswer } from "../../answers/index.ts";
import { awakeOnArrivalSeconds, awakeOnLeavingSeconds, fuelForSeconds } from "../../boat/index.ts";
import { offsetMinutesAt } from "../../calendar/index.ts";
import { epochSeconds } from "../../units/index.ts";
import type { FeltColumn } from "../felt-column.ts";
import { ARRIVAL, OPEN_WATER, type PassageNodes } from "../passage-nodes.ts";
import type { LookedBack } from "../since-against.ts";
import type { OnceValue, WholePassage, WindBefore } from "./once-value.ts";
import type { PassageFacts } from "./passage-facts.ts";
import { firstOf, leastUnderKeel, placeOf } from "./under-keel-felt.ts";

/** Where one night ends and the next day begins for a bedtime: an arrival after this hour is early, one before it late, seconds of the day (common practice). */
export const DAY_BEGINS_SECOND = 5 * 3600;

/** What lies behind a passage when it begins: the look back from its hardest stream, and the wind before leaving. */
export interface Before {
  readonly sinceAgainst: LookedBack | null;
  readonly windBefore: WindBefore | null;
}

/** Feels what a passage has one figure of. `facts` or `before` null: nothing of it is known. */
export function feelWhole(
  nodes: PassageNodes,
  sea: FeltColumn,
  seaCovers: { readonly from: number; readonly until: number } | null,
  facts: PassageFacts | null,
  before: Before | null,
): WholePassage {
  return {
    values: {
      sinceAgainstSeconds: sinceAgainstValue(nodes, before?.sinceAgainst ?? null),
      underKeelMetres: leastUnderKeel(nodes, sea, facts, seaCovers),
      fuelLeftLitres: fuelLeft(nodes, facts),
      awakeSeconds: awakeOnArrival(nodes, facts),
      arrivalClockSeconds: arrivalClock(nodes, facts),
    },
    windBefore: before?.windBefore ?? null,
  };
}

/** The same passage with another forecast behind it: all that the wind before it does not touch stays. */
export function withBefore(nodes: PassageNodes, whole: WholePassage, before: Before | null): WholePassage {
  const values = { ...whole.values, sinceAgainstSeconds: sinceAgainstValue(nodes, before?.sinceAgainst ?? null) };
  return { values, windBefore: before?.windBefore ?? null };
}

function sinceAgainstValue(nodes: PassageNodes, looked: LookedBack | null): OnceValue {
  const at = looked?.at ?? (nodes.atSeconds[0] as number);
  const where = looked?.where ?? placeOf(nodes, 0);
  const { since = null, coveredFrom = null } = looked ?? {};
  const why = (unknownAt: number) =>
    ({
      kind: "noAnswer",
      code: "not-covered-time",
      quantity: "sinceAgainstSeconds",
      at: unknownAt,
      where,
      coveredFrom,
      coveredUntil: null,
    }) as const;
  if (since === null) return { kind: "unknown", why: why(at), knownPart: null };
  if (since.kind === "blew") return { kind: "known", value: since.seconds, at, where };
  return { kind: "atLeast", value: since.seconds, why: why(at - since.seconds - 1), at, where };
}

const notStated = (nodes: PassageNodes, wants: "burn" | "usableFuel" | "crew"): OnceValue & { readonly kind: "unknown" } => {
  const last = nodes.count - 1;
  const why: NoAnswer = {
    kind: "noAnswer",
    code: "not-stated",
    wants,
    name: null,
    at: nodes.atSeconds[last] as number,
    where: placeOf(nodes, last),
  };
  return { kind: "unknown", why, knownPart: null };
};

/** Seconds out of harbour, in open water and in. */
export function secondsOf({ atSeconds, count, ...nodes }: PassageNodes): { readonly openWater: number; readonly harbour: number } {
  const all = { atSeconds, count, ...nodes };
  const from = atSeconds[firstOf(all, OPEN_WATER)] as number;
  const until = atSeconds[firstOf(all, ARRIVAL)] as number;
  return { openWater: until - from, harbour: (atSeconds[count - 1] as number) - (atSeconds[0] as number) - (until - from) };
}

/** Usable fuel left at the berth: the engine by its rule in open water, and on in harbour. */
function fuelLeft(nodes: PassageNodes, facts: PassageFacts | null): OnceValue {
  const { usableFuelLitres = null, burnLitresPerHour = null } = facts ?? {};
  if (burnLitresPerHour === null) return notStated(nodes, "burn");
  if (usableFuelLitres === null) return notStated(nodes, "usableFuel");
  const last = nodes.count - 1;
  const burnt = nodes.openWaterFuelLitres + fuelForSeconds(burnLitresPerHour, secondsOf(nodes).harbour - lainSeconds(nodes));
  return { kind: "known", value: usableFuelLitres - burnt, at: nodes.atSeconds[last] as number, where: placeOf(nodes, last) };
}

/** How long she lies before gates in harbour, the engine off. */
function lainSeconds({ atSeconds, waiting, count }: PassageNodes): number {
  let seconds = 0;
  if (waiting !== undefined)
    for (let i = 1; i < count; i++) if (waiting[i] === 1) seconds += (atSeconds[i] as number) - (atSeconds[i - 1] as number);
  return seconds;
}

function awakeOnArrival(nodes: PassageNodes, facts: PassageFacts | null): OnceValue {
  if (facts === null || facts.crew === null) return notStated(nodes, "crew");
  const last = nodes.count - 1;
  const onLeaving = awakeOnLeavingSeconds(facts.crew, secondOfDay(nodes.atSeconds[0] as number, facts.shipZone));
  const { openWater, harbour } = secondsOf(nodes);
  return {
    kind: "known",
    value: awakeOnArrivalSeconds(facts.crew, onLeaving, openWater, harbour),
    at: nodes.atSeconds[last] as number,
    where: placeOf(nodes, last),
  };
}

/** The local clock at the berth on arrival, seconds past midnight, running on past 24 h until the day begins anew. */
function arrivalClock(nodes: PassageNodes, facts: PassageFacts | null): OnceValue {
  const last = nodes.count - 1;
  const at = nodes.atSeconds[last] as number;
  const clock = secondOfDay(at, facts?.arrivalZone ?? "UTC");
  return { kind: "known", value: clock < DAY_BEGINS_SECOND ? clock + 86400 : clock, at, where: placeOf(nodes, last) };
}

function secondOfDay(at: number, zone: string): number {
  const local = at + 60 * offsetMinutesAt(epochSeconds(at), zone);
  return ((local % 86400) + 86400) % 86400;
}
