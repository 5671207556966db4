import { addDays, dateAt, firstInstantAtOrPast } from "../../core/calendar/index.ts";
import { CIVIL_ALTITUDE_DEG } from "../../core/earth/index.ts";
import { type GateStop, type InletClock, needSpans } from "../../core/places/index.ts";
import { inletAt, inletsOf, isEntrance, type Prepared } from "../../core/plan/index.ts";
import { epochSeconds, knotsFromMps } from "../../core/units/index.ts";
import type { BoardRow } from "../../core/window/index.ts";
import {
  clock,
  datumOfTide,
  entranceAssumptions,
  inletInWords,
  inletReasonInWords,
  inletRowInWords,
  longDate,
  streamDoubtsOf,
  zoneLabel,
} from "../../words/index.ts";
import { rounded } from "../instant.ts";
import type { InletTold } from "./inlet-told.ts";

const CLOCK_EVERY_SECONDS = 3 * 3600;

/** The clocks of the bars and cuts that a departure comes to, each over the day on which she is there. */
export function inletsToldOf(prepared: Prepared, { gates }: BoardRow): readonly InletTold[] {
  return inletsOf(prepared)
    .filter(isEntrance)
    .flatMap((stop) => {
      const passed = gates.passed.find(({ gate, role }) => gate.name === stop.gate.name && role === "gate");
      const fault = gates.fault?.gate.name === stop.gate.name ? gates.fault : null;
      const at = passed?.passedAt ?? (fault === null ? null : fault.kind === "missed" ? fault.reachedAt : fault.why.at);
      if (at === null) return [];
      const zone = stop.gate.zone;
      const there =
        passed === undefined
          ? `reached ${clock(at, zone)}, ${fault?.kind === "missed" ? "shut" : "not judged"}`
          : `passed ${clock(at, zone)}`;
      return [inletToldOf(prepared, stop, at, there)];
    });
}

/** The clock of one gate over the day of an instant. */
export function inletToldOf(prepared: Prepared, stop: GateStop, at: number, there: string): InletTold {
  const { gate } = stop;
  const day = dateAt(epochSeconds(at), gate.zone);
  const within = { from: firstInstantAtOrPast(day, 0, gate.zone), until: firstInstantAtOrPast(addDays(day, 1), 0, gate.zone) };
  const { clock: inlet, stream: runs } = inletAt(prepared, stop, within);
  const shareOf = (instant: number): number => rounded((instant - within.from) / (within.until - within.from), 5);
  const light = needSpans({ kind: "light", sunAboveDeg: CIVIL_ALTITUDE_DEG }, within, stop.where).open;
  return {
    name: gate.name,
    head: `${longDate(within.from, gate.zone)}, ${zoneLabel(within.from, gate.zone)}`,
    answer: inletInWords(inlet),
    thereAt: shareOf(at),
    there,
    hours: hoursOf(inlet, shareOf),
    nights: outside(light.map(({ from, until }) => ({ from: shareOf(from), until: shareOf(until) }))),
    points: inlet.rows.map((row) => ({
      at: shareOf(row.at),
      tideMetres: roundedOrNull(row.reading?.heightAboveChartDatumMetres ?? null),
      streamKn: row.reading?.streamMps == null ? null : rounded(knotsFromMps(row.reading.streamMps), 2),
    })),
    wantedTideMetres: wantedTide(stop),
    spells: inlet.spells.map((spell) => ({
      from: shareOf(spell.from),
      until: shareOf(spell.until),
      verdict: spell.verdict,
      // An opening is never told too early, a shutting never too late.
      opens: spell.from <= within.from ? null : clock(spell.verdict === "open" ? spell.from + 59 : spell.from, gate.zone),
      words: spell.reasons.map((reason) => inletReasonInWords(reason, gate.zone)).join("; "),
    })),
    rows: inlet.rows.map((row) => ({ ...inletRowInWords(row, gate.zone), verdict: row.verdict, night: !row.isLight })),
    notes: [
      ...(gate.notes == null ? [] : [`As noted: ${gate.notes}.`]),
      ...entranceAssumptions(gate, datumOfTide(prepared)),
      ...(runs === null ? [] : streamDoubtsOf(runs, within.from, within.until, gate.zone)),
    ],
  };
}

const roundedOrNull = (value: number | null): number | null => (value === null ? null : rounded(value, 2));

function hoursOf({ within, gate }: InletClock, shareOf: (at: number) => number): InletTold["hours"] {
  const hours: { at: number; clock: string }[] = [];
  for (let at = within.from; at <= within.until; at += CLOCK_EVERY_SECONDS) hours.push({ at: shareOf(at), clock: clock(at, gate.zone) });
  return hours;
}

function outside(light: readonly { readonly from: number; readonly until: number }[]): InletTold["nights"] {
  const nights: { from: number; until: number }[] = [];
  let from = 0;
  for (const day of light) {
    if (day.from > from) nights.push({ from, until: day.from });
    from = day.until;
  }
  return from < 1 ? [...nights, { from, until: 1 }] : nights;
}

function wantedTide({ gate }: GateStop): number | null {
  for (const need of gate.needs) {
    const depth = need.kind === "entrance" ? need.entrance.depth : null;
    if (depth !== null) return rounded(depth.underKeelMetres + depth.draughtMetres - depth.chartedDepthMetres, 2);
  }
  return null;
}
