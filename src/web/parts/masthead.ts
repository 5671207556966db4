import type { BoardTold } from "../../api/index.ts";
import { byId, element, fillFrom } from "../dom/element.ts";

/** The head of the sheet: the passage, the boat, its zones and sources; a source that is stale, short or wanting is loud. */
export function showMasthead(board: BoardTold): void {
  document.title = `${board.name}: crossing sheet`;
  fillFrom(byId("title"), board.name, () => [board.name]);
  fillFrom(byId("boat"), board.boat, () => [board.boat]);
  fillFrom(byId("stamp"), [board.zones, board.invented], () => [
    element("p", {}, board.zones),
    board.invented ? element("p", { class: "invented" }, "Invented, for demonstration") : null,
  ]);
  const sources = byId("sources");
  sources.hidden = board.sources.length === 0;
  fillFrom(sources, board.sources, () =>
    board.sources.map(({ words, loud }) =>
      element("li", { class: loud ? "loud" : false }, loud ? element("b", { class: "loud-word" }, "Look out") : null, words),
    ),
  );
  fillFrom(byId("safety"), board.safety, () => [board.safety]);
}
