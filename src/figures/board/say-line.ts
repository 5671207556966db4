import type { LineTold, VerdictTold } from "../../api/index.ts";

/** A verdict in a word, as the board says it. */
export function verdictWord(verdict: VerdictTold): string {
  return { open: "open", marginal: "marginal", closed: "shut", notJudged: "not judged" }[verdict];
}

/** The id of a departure's line in the page. */
export function lineId(departAt: string): string {
  return `leave-${departAt.replace(/[^0-9A-Za-z]/g, "")}`;
}

/** What shuts after the time in hand: `before dark at the entrance`; empty where nothing does or nothing is in hand. */
export function beforeDoor(line: LineTold): string {
  return line.door === null || line.hand === "" ? "" : `before ${line.door}`;
}
