import { type OpenSpan, spanAt } from "../../calendar/index.ts";
import { CIVIL_ALTITUDE_DEG, sunAltitudeDeg } from "../../earth/index.ts";
import { epochSeconds } from "../../units/index.ts";
import type { Gate, GateNeed } from "../gate.ts";
import { type NeedSpans, needSpans } from "../gate-needs.ts";
import type { GateStop } from "../gate-stop.ts";
import type { EntranceReading, EntranceReason } from "./entrance.ts";
import { ENTRANCE_EVERY_SECONDS } from "./entrance-states.ts";
import { worstReasons } from "./worst-reasons.ts";

/** The clock's lines stand so far apart, seconds: half hours, as a skipper reckons an inlet. */
export const INLET_EVERY_SECONDS = 1800;

export type InletVerdict = "open" | "shut" | "notJudged";

/** Why an inlet is shut, or not judged: its entrance's reasons, and those of what is asked for besides. */
export type InletReason =
  | EntranceReason
  /** By the clock, by windows or heights that the skipper states, by night. */
  | { readonly kind: "hours" | "windows" | "statedHeights" | "dark" }
  /** The windows or heights that are stated don't reach. */
  | { readonly kind: "notGiven" };

/** One line of the clock. */
export interface InletRow {
  readonly at: number;
  readonly verdict: InletVerdict;
  readonly reasons: readonly InletReason[];
  /** Null for a gate without bar, cut or computed water. */
  readonly reading: EntranceReading | null;
  readonly sunAltitudeDeg: number;
  /** Within civil twilight or by day. */
  readonly isLight: boolean;
}

/** A stretch in which the inlet stays open, shut or not judged, with all that makes it so, each reason at its worst. */
export interface InletSpell {
  readonly from: number;
  readonly until: number;
  readonly verdict: InletVerdict;
  readonly reasons: readonly InletReason[];
}

/** A gate over a stretch of time, line by line and spell by spell; the spells' ends are found to half a second. */
export interface InletClock {
  readonly gate: Gate;
  readonly within: OpenSpan;
  readonly everySeconds: number;
  readonly rows: readonly InletRow[];
  readonly spells: readonly InletSpell[];
}

/** Edges closer than this are one, seconds: what lies between is the gap in which a change was found. */
const SAME_SECONDS = 1;

/** The clock of one gate from `within.from` to `within.until`, a line every `everySeconds` from its beginning on. */
export function inletClock(stop: GateStop, within: OpenSpan, everySeconds: number = INLET_EVERY_SECONDS): InletClock {
  if (!(everySeconds > 0) || !(within.until > within.from))
    throw new Error(`no clock every ${everySeconds} s from ${within.from} to ${within.until}`);
  const others = otherNeeds(stop, within);
  const rows: InletRow[] = [];
  for (let at = within.from; at <= within.until; at += everySeconds) rows.push(rowAt(stop, others, at));
  return { gate: stop.gate, within, everySeconds, rows, spells: spellsOf(stop, others, within) };
}

interface OtherNeed {
  readonly kind: Exclude<InletReason["kind"], EntranceReason["kind"]>;
  readonly spans: NeedSpans;
}

const KIND_OF: Readonly<Record<Exclude<GateNeed["kind"], "entrance">, OtherNeed["kind"]>> = {
  clock: "hours",
  notDuring: "hours",
  windows: "windows",
  depth: "statedHeights",
  light: "dark",
};

function otherNeeds(stop: GateStop, within: OpenSpan): readonly OtherNeed[] {
  return stop
    .needs()
    .flatMap((need) => (need.kind === "entrance" ? [] : [{ kind: KIND_OF[need.kind], spans: needSpans(need, within, stop.where) }]));
}

function rowAt(stop: GateStop, others: readonly OtherNeed[], at: number): InletRow {
  const reading = stop.entranceAt(at);
  const reasons = [...(reading?.reasons ?? []), ...otherReasons(others, at)];
  const altitude = sunAltitudeDeg(epochSeconds(at), stop.where);
  return { at, verdict: verdictOf(reasons), reasons, reading, sunAltitudeDeg: altitude, isLight: altitude >= CIVIL_ALTITUDE_DEG };
}

function otherReasons(others: readonly OtherNeed[], at: number): readonly InletReason[] {
  return others.flatMap(({ kind, spans }): InletReason[] => {
    if (spanAt(spans.open, at) !== null) return [];
    return spanAt(spans.maybe, at) !== null ? [{ kind: "notGiven" }] : [{ kind }];
  });
}

/** Shut by anything that is known; else not judged where anything isn't. */
function verdictOf(reasons: readonly InletReason[]): InletVerdict {
  if (reasons.length === 0) return "open";
  return reasons.every(({ kind }) => kind === "notJudged" || kind === "notGiven") ? "notJudged" : "shut";
}

function spellsOf(stop: GateStop, others: readonly OtherNeed[], within: OpenSpan): readonly InletSpell[] {
  const edges = [within.from, ...edgesOf(stop, others, within), within.until].sort((a, b) => a - b);
  const runs: { from: number; until: number; verdict: InletVerdict }[] = [];
  let from = within.from;
  for (const edge of edges) {
    if (edge - from < SAME_SECONDS) continue;
    const { verdict } = rowAt(stop, others, (from + edge) / 2);
    const last = runs[runs.length - 1];
    if (last !== undefined && last.verdict === verdict) last.until = edge;
    else runs.push({ from: last?.until ?? from, until: edge, verdict });
    from = edge;
  }
  return runs.map((run) => ({ ...run, reasons: reasonsIn(stop, others, run) }));
}

function edgesOf(stop: GateStop, others: readonly OtherNeed[], within: OpenSpan): readonly number[] {
  const spans = stop
    .needs()
    .flatMap((need): readonly OpenSpan[] => (need.kind === "entrance" ? stop.statesOf(need.entrance).within(within) : []));
  return [...spans, ...others.flatMap(({ spans: { open, maybe } }) => [...open, ...maybe])]
    .flatMap((span) => [span.from, span.until])
    .filter((at) => at > within.from && at < within.until);
}

/** All that stands against it in a spell, each kind at its worst, by looks every few minutes and one in the middle. */
function reasonsIn(
  stop: GateStop,
  others: readonly OtherNeed[],
  { from, until, verdict }: Omit<InletSpell, "reasons">,
): readonly InletReason[] {
  if (verdict === "open") return [];
  const looks = [(from + until) / 2];
  for (let at = from + SAME_SECONDS; at < until; at += ENTRANCE_EVERY_SECONDS) looks.push(at);
  looks.sort((a, b) => a - b);
  const entrance = worstReasons(looks.flatMap((at) => stop.entranceAt(at)?.reasons ?? []));
  const known = new Map<string, InletReason>();
  for (const reason of looks.flatMap((at) => otherReasons(others, at))) known.set(reason.kind, reason);
  return [...entrance, ...known.values()];
}
