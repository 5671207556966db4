import { type BoardRow, waitedSeconds } from "../../core/window/index.ts";
import { curesInWords, gateFaultInWords, gatePassedInWords, gatesInWords } from "../../words/index.ts";
import { wrap } from "./wrap.ts";

/** Waits of less than this are passed over on the board, seconds. */
const SHORT_WAIT_SECONDS = 30;
const UNDER_THE_LINE = " ".repeat(24);

/** Under a line of the board: the gates she waits for, and what cures the one she misses. */
export function gateLines(row: BoardRow): readonly string[] {
  const waits = row.gates.passed.filter((one) => one.role === "gate" && waitedSeconds(one) >= SHORT_WAIT_SECONDS).map(gatePassedInWords);
  const { decidedBy } = row.verdict;
  const fault = decidedBy.kind === "gate" || decidedBy.kind === "gateNotJudged" ? gateFaultInWords(decidedBy.fault) : null;
  const cure = decidedBy.kind === "gate" && decidedBy.fault.kind === "missed" ? `; ${curesInWords(decidedBy.cures)}` : "";
  const missed = fault === null ? [] : [`${fault}${cure}`];
  return [...waits, ...missed].map((line) => wrap(line, 80, `${UNDER_THE_LINE}  `, UNDER_THE_LINE));
}

/** All gates of one departure, what it misses, and every cure; empty where there is no gate. */
export function gatesText(row: BoardRow): string {
  const { fault, cures } = row.gates;
  const passed = gatesInWords(row);
  const sentences = passed === null ? [] : [`Gates: ${passed}.`];
  if (fault !== null) {
    const cure = fault.kind === "missed" ? `; ${curesInWords(cures, true)}` : "";
    const words = gateFaultInWords(fault);
    sentences.push(`${fault.kind === "missed" ? `Missed: ${words}` : `${words.charAt(0).toUpperCase()}${words.slice(1)}`}${cure}.`);
  }
  return sentences.length === 0 ? "" : wrap(sentences.join(" "));
}
