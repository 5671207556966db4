import {
  type EntranceReading,
  type InletClock,
  type InletReason,
  type InletRow,
  type InletSpell,
  POPPLE_METRES,
} from "../core/places/index.ts";
import type { InletAnswer } from "../core/plan/index.ts";
import { knotsFromMps, MPS_PER_KNOT } from "../core/units/index.ts";
import { datumOfTide, entranceAssumptions, inletInWords } from "../words/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";

const orNull = (value: number | null, decimals: number): number | null => (value === null ? null : rounded(value, decimals));
const kn = (mps: number): number => rounded(knotsFromMps(mps), 2);
const kn2 = (mps2: number): number => rounded(mps2 / (MPS_PER_KNOT * MPS_PER_KNOT), 1);

/** Why an inlet is shut or not judged, as JSON: its kind, the figure and what it is held against in the reason's own unit. */
export function inletReasonJson(reason: InletReason) {
  const of = { kind: reason.kind, value: null, limit: null, unit: null, nearestAt: null, by: null };
  switch (reason.kind) {
    case "depth":
      return { ...of, value: rounded(reason.underKeelMetres, 2), limit: rounded(reason.leastMetres, 2), unit: "m" };
    case "ebb":
    case "flood":
      return { ...of, value: kn(reason.mps), limit: kn(reason.neverMps), unit: "kn" };
    case "notSlack":
      return { ...of, nearestAt: isoOrNull(reason.nearestAt), limit: Math.round(reason.withinSeconds), unit: "s" };
    case "blocked":
      return { ...of, by: reason.waves };
    case "breaking":
      return { ...of, value: rounded(reason.heightMetres, 2), unit: "m", by: reason.by };
    case "steep":
      return { ...of, value: rounded(reason.steepness, 4), limit: rounded(reason.never, 4), unit: "1" };
    case "seaHeight":
      return { ...of, value: rounded(reason.heightMetres, 2), limit: rounded(reason.neverMetres, 2), unit: "m" };
    case "windAgainstEbb":
      return { ...of, value: kn2(reason.mps2), limit: kn2(reason.neverMps2), unit: "kn2" };
    case "sunLow":
      return { ...of, value: rounded(reason.altitudeDeg, 1), limit: rounded(reason.leastDeg, 1), unit: "deg" };
    case "sunAhead":
      return { ...of, value: rounded(reason.offBowDeg, 1), limit: rounded(reason.leastDeg, 1), unit: "deg" };
    case "notJudged":
      return { ...of, by: reason.lacks };
    default:
      return of;
  }
}

function readingJson(reading: EntranceReading | null) {
  const { sea = null } = reading ?? {};
  const runs = sea?.kind === "runs" ? sea : null;
  return {
    heightAboveChartDatumMetres: orNull(reading?.heightAboveChartDatumMetres ?? null, 2),
    underKeelMetres: orNull(reading?.underKeelMetres ?? null, 2),
    /** Flood positive. */
    streamKn: reading?.streamMps == null ? null : kn(reading.streamMps),
    sea: sea === null ? null : sea.kind === "blocked" ? "blocked" : sea.breaking === "no" ? "runs" : "breaking",
    seaHeightMetres: orNull(runs?.heightMetres ?? null, 2),
    seaSteepness: orNull(runs?.steepness ?? null, 4),
    windAgainstEbbKn2: reading?.windAgainstEbbMps2 == null ? null : kn2(reading.windAgainstEbbMps2),
  };
}

const rowJson = (row: InletRow) => ({
  at: iso(row.at),
  verdict: row.verdict,
  ...readingJson(row.reading),
  sunAltitudeDeg: rounded(row.sunAltitudeDeg, 1),
  isLight: row.isLight,
  reasons: row.reasons.map(inletReasonJson),
});

const spellJson = ({ from, until, verdict, reasons }: InletSpell) => ({
  from: iso(from),
  until: iso(until),
  verdict,
  reasons: reasons.map(inletReasonJson),
});

const clockJson = ({ gate, within, everySeconds, rows, spells }: InletClock) => ({
  gate: gate.name,
  on: gate.on,
  zone: gate.zone,
  notes: gate.notes ?? null,
  from: iso(within.from),
  until: iso(within.until),
  everySeconds,
  spells: spells.map(spellJson),
  rows: rows.map(rowJson),
});

/** An inlet's clock as JSON, `athwart.inlet/1`. */
export function inletJson({ prepared, clock, stream }: InletAnswer) {
  return {
    schema: "athwart.inlet/1",
    passage: prepared.passage.name,
    invented: prepared.passage.invented,
    answer: inletInWords(clock),
    ...clockJson(clock),
    seasPassedOverUnderMetres: POPPLE_METRES,
    assumptions: entranceAssumptions(clock.gate, datumOfTide(prepared)),
    streamDoubts: [...new Set((stream?.doubts(clock.within.from, clock.within.until) ?? []).map(({ kind }) => kind))],
  };
}
