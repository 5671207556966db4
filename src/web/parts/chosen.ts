import type { BoardTold, DepartureTold } from "../../api/index.ts";
import { drawInlet, drawLimits } from "../../figures/index.ts";
import { byId, element, fill, setMarkup } from "../dom/element.ts";
import { lineAt } from "../state/walk-board.ts";
import { leavingWords } from "./leaving-words.ts";
import { isNarrow } from "./narrow.ts";

export interface ChosenPart {
  /** The chosen line's own words, from the board alone: in the same frame as the line moves. */
  readonly line: (board: BoardTold, departAt: string) => void;
  readonly departure: (departure: DepartureTold, marginalBelow: number) => void;
  readonly empty: () => void;
}

/** The strip of an inlet's clock is drawn so wide, px: as much as the page has beside its margins, no wider than its table needs. */
const WIDEST_INLET_PX = 708;

/** The clock of a bar or cut, folded; it is drawn when it is opened first, since then it is known how much room there is. */
function inletFold(inlet: DepartureTold["inlets"][number]): HTMLElement {
  const body = element("div", { class: "inlet-drawn" });
  const fold = element("details", { class: "unfolds" }, element("summary", {}, `The clock of ${inlet.name}: ${inlet.there}`), body);
  fold.addEventListener("toggle", () => {
    if (!fold.open || body.childElementCount > 0) return;
    setMarkup(body, drawInlet(inlet, { widthPx: Math.min(WIDEST_INLET_PX, Math.max(280, Math.floor(body.clientWidth / 4) * 4)) }));
  });
  return fold;
}

/** The chosen departure under the board: its own words at once, and every limit of it, folded. */
export function chosenPart(): ChosenPart {
  const place = byId("chosen");
  // It stands at the foot of the window while the board is read, so that a key and what it brings are seen together.
  const leaving = byId("leaving");
  const hand = element("p", { class: "note" });
  const gates = element("ul", { class: "gates" });
  const inlets = element("div", { class: "inlets" });
  const table = element("div", { class: "limits-drawn" });
  const summary = element("summary", {}, "Every limit of this departure");
  const limits = element("details", { class: "unfolds" }, summary, hand, gates, inlets, table);
  return {
    line(board, departAt) {
      const found = lineAt(board, departAt);
      if (found === null) return;
      if (!place.contains(limits)) fill(place, limits);
      leaving.textContent = leavingWords(found.line, `${found.day.weekday} ${found.day.date}`);
    },
    departure(departure, marginalBelow) {
      if (!place.contains(limits)) fill(place, limits);
      leaving.textContent = departure.leaving;
      hand.textContent = departure.inHand;
      fill(gates, ...departure.gates.map((words) => element("li", {}, words)));
      fill(inlets, ...departure.inlets.map(inletFold));
      setMarkup(table, drawLimits(departure, { marginalBelow, kind: isNarrow() ? "compact" : "wide" }));
    },
    empty() {
      fill(place);
      fill(leaving);
    },
  };
}
