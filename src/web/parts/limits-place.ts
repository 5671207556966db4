import type { BoardTold } from "../../api/index.ts";
import { button, byId, element, fill } from "../dom/element.ts";
import { type LimitsForm, limitsForm } from "./limits-form.ts";
import { restsFold } from "./when.ts";

export interface LimitsPlace extends LimitsForm {
  readonly steps: (canUndo: boolean, canRedo: boolean) => void;
  /** Whether what stands is durable, in words. */
  readonly said: (words: string) => void;
}

export interface LimitsWork {
  readonly apply: (path: string, typed: string) => void;
  readonly step: (way: "undo" | "redo") => void;
}

/** The skipper's own limits under the board: typed in place, taken back, said to be saved. */
export function limitsPlace(work: LimitsWork): LimitsPlace {
  const place = byId("limits");
  const table = element("div", { class: "limits-form" });
  const form = limitsForm(table, work.apply);
  const undo = button("Undo", () => work.step("undo"), { class: "act", id: "undo", title: "Ctrl Z" });
  const redo = button("Redo", () => work.step("redo"), { class: "act", id: "redo", title: "Ctrl Shift Z" });
  const saved = element("span", { class: "saved", id: "saved", role: "status" });
  const how = element(
    "p",
    { class: "quiet" },
    "Type a limit as you would write it, with its unit: 14 kn, 5 ft, 1.2 m. Enter applies it, Esc gives the old one back.",
  );
  const unset = element("p", { class: "quiet" });
  const rests = element("div", {});
  undo.disabled = true;
  redo.disabled = true;
  return {
    ...form,
    take(board: BoardTold) {
      if (!place.contains(table)) {
        const bar = element("p", { class: "steps" }, undo, redo, saved);
        fill(place, element("div", { class: "limits-row" }, table, element("div", { class: "limits-side" }, bar, how, unset)), rests);
      }
      form.take(board);
      unset.textContent = board.unset;
      const found = restsFold(board);
      fill(rests, found);
    },
    steps(canUndo, canRedo) {
      // A button that loses its use while it has the focus would drop it to the top of the page.
      if (!canUndo && document.activeElement === undo && canRedo) redo.focus();
      undo.disabled = !canUndo;
      redo.disabled = !canRedo;
    },
    said(words) {
      saved.textContent = words;
    },
  };
}
