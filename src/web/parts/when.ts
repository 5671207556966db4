import type { BoardTold } from "../../api/index.ts";
import { byId, element, fillFrom, paragraphs } from "../dom/element.ts";
import { fold, saidSentences } from "./said.ts";

/** What *When to leave* says around its board: the answer in sentences, what stands beside it, what it rests on. */
export function showWhen(board: BoardTold): void {
  fillFrom(byId("answer"), board.answer, () => saidSentences(board.answer));
  fillFrom(byId("asides"), board.asides, () => paragraphs(board.asides));
  const lines = board.days.reduce((sum, day) => sum + day.lines.length, 0);
  fillFrom(byId("when-note"), lines, () => [
    lines === 0
      ? ""
      : `${lines} departures, each run through the forecast. Keys on the board: ↑ ↓ a line, Page Up and Page Down a day, Home and End.`,
  ]);
}

/** What the board rests on, folded under the limits. */
export function restsFold(board: BoardTold): HTMLElement | null {
  if (board.restsOn.length === 0) return null;
  return fold(
    "What these figures rest on",
    "",
    element("ul", { class: "rests" }, ...board.restsOn.map((words) => element("li", {}, words))),
  );
}
