import type { InletRow } from "../../core/places/index.ts";
import type { InletAnswer } from "../../core/plan/index.ts";
import {
  datumOfTide,
  entranceAssumptions,
  inletInWords,
  inletRowInWords,
  inletSpellsInWords,
  longDate,
  streamDoubtsOf,
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
  const mark = { open: "  ", shut: "– ", notJudged: "? " }[row.verdict];
  const words = inletRowInWords(row, zone);
  const before = [
    mark,
    cell(words.clock, WIDTHS.time),
    cell(words.tide, WIDTHS.tide),
    cell(words.keel, WIDTHS.keel),
    cell(words.stream, WIDTHS.stream),
    cell(words.sea, WIDTHS.sea),
    cell(words.wind, WIDTHS.wind),
    cell(row.isLight ? "" : "night", WIDTHS.light),
  ].join("");
  return wrap(row.verdict === "open" ? "open" : words.why, WIDTH, " ".repeat(BEFORE_WHY), before).trimEnd();
}
