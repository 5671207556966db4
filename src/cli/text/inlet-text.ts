import type { InletRow } from "../../core/places/index.ts";
import type { InletAnswer } from "../../core/plan/index.ts";
import {
  clock,
  datumOfTide,
  entranceAssumptions,
  inletInWords,
  inletReasonInShort,
  inletSpellsInWords,
  knotsTimesKnots,
  longDate,
  seaOnBarInWords,
  streamDoubtsOf,
  streamInlet,
  zoneLabel,
} from "../../words/index.ts";
import { cell, WIDTH, wrap } from "./wrap.ts";

/** Columns: the time, height of tide, under the keel, stream, sea on the bar, wind against the ebb, light; then open or why not. */
const WIDTHS = { mark: 2, time: 6, tide: 5, keel: 6, stream: 10, sea: 13, wind: 5, light: 6 } as const;
const BEFORE_WHY = Object.values(WIDTHS).reduce((sum, width) => sum + width, 0);

/** The clock as text: the sentence to act on, a line for each half hour with the shut ones marked, the spells between, what it rests on. */
export function inletText(answer: InletAnswer): string {
  const { prepared, clock: inlet, stream } = answer;
  const { gate, within, rows } = inlet;
  const { zone } = gate;
  const spells = inletSpellsInWords(inlet).map((line) => wrap(line, WIDTH, "      ", "  "));
  const stands = [
    ...entranceAssumptions(gate, datumOfTide(prepared)),
    ...(stream === null ? [] : streamDoubtsOf(stream, within.from, within.until, zone)),
    ...(gate.notes == null ? [] : [`As noted: ${gate.notes}.`]),
  ];
  const heads = `${cell("", WIDTHS.mark)}${cell("", WIDTHS.time)}${cell("tide", WIDTHS.tide)}${cell("keel", WIDTHS.keel)}${cell("stream", WIDTHS.stream)}${cell("sea on bar", WIDTHS.sea)}${cell("wind", WIDTHS.wind)}`;
  return [
    wrap(`${gate.name}, ${longDate(within.from, zone)}, times ${zoneLabel(within.from, zone)}.`),
    wrap(inletInWords(inlet)),
    [heads.trimEnd(), ...rows.map((row) => rowText(row, zone))].join("\n"),
    wrap(
      "tide: metres above chart datum; keel: metres under it; stream: knots; sea on bar: significant height and steepness; wind: against the ebb, kn²; – shut, ? not judged.",
    ),
    spells.join("\n"),
    stands.map((line) => wrap(line, WIDTH, "    ", "  ")).join("\n"),
  ]
    .filter((part) => part !== "")
    .join("\n\n");
}

function rowText(row: InletRow, zone: string): string {
  const { at, verdict, reasons, reading, isLight } = row;
  const mark = { open: "  ", shut: "– ", notJudged: "? " }[verdict];
  const metres = (value: number | null | undefined): string =>
    value == null
      ? ""
      : value
          .toFixed(1)
          .replace(/^-0\.0$/, "0.0")
          .replace("-", "−");
  const before = [
    mark,
    cell(clock(at, zone), WIDTHS.time),
    cell(metres(reading?.heightAboveChartDatumMetres), WIDTHS.tide),
    cell(metres(reading?.underKeelMetres), WIDTHS.keel),
    cell(streamInlet(reading?.streamMps ?? null), WIDTHS.stream),
    cell(reading?.sea == null ? "" : seaOnBarInWords(reading.sea), WIDTHS.sea),
    cell(reading?.windAgainstEbbMps2 == null ? "" : knotsTimesKnots(reading.windAgainstEbbMps2).toFixed(0), WIDTHS.wind),
    cell(isLight ? "" : "night", WIDTHS.light),
  ].join("");
  const why = verdict === "open" ? "open" : [...new Set(reasons.map(inletReasonInShort))].join(", ");
  return wrap(why, WIDTH, " ".repeat(BEFORE_WHY), before).trimEnd();
}
