import type { Staging, StagingRow } from "../../core/plan/index.ts";
import { arrivalInWords, dayAndClock, duration, noAnswerInWords, signedDuration } from "../../words/index.ts";
import { cell, wrap } from "./wrap.ts";

const NAME_WIDTH = 30;

/** The whole passage from each place to leave from, side by side. Times are the berth's, ship's time; the arrival's in its own zone. */
export function stagingText(staging: Staging, shipZone: string, arrivalZone: string): string {
  const head = `  ${cell("leaving open water from", NAME_WIDTH)}${cell("leaves", 11)}${cell("arrives", 17)}${cell("whole", 10)}${cell("saved", 9, "right")}`;
  const rows = staging.rows.map((row) => rowText(staging, row, shipZone, arrivalZone));
  const note =
    "→ the soonest there. Whole: from the berth to the berth, waiting at the place included where that is quicker. Saved: against leaving from the first. Limits are not judged here.";
  return `${[head, ...rows].join("\n")}\n\n${wrap(note)}`;
}

function rowText(staging: Staging, row: StagingRow, shipZone: string, arrivalZone: string): string {
  const name = `${row === staging.soonest ? "→ " : "  "}${cell(row.name, NAME_WIDTH - 1)} `;
  if (row.kind === "fails") return `${name}${noAnswerInWords(row.why, shipZone)}`;
  const saved = row.savedSeconds === null ? "–" : row.point === null ? "" : signedDuration(row.savedSeconds);
  const arrives = arrivalInWords(row.arrivalAt, arrivalZone, staging.departAt, shipZone);
  return `${name}${cell(dayAndClock(row.leavesAt, shipZone), 11)}${cell(arrives, 17)}${cell(duration(row.wholeSeconds), 10)}${cell(saved, 9, "right")}`.trimEnd();
}
