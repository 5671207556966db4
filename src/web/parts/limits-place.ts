import type { BoardTold } from "../../api/index.ts";
import type { ShownIssue } from "../ask/answered.ts";
import { button, byId, element, fill, fillFrom } from "../dom/element.ts";
import { type LimitsForm, limitsForm } from "./limits-form.ts";
import { setLimit } from "./set-limit.ts";
import { restsFold } from "./when.ts";

export interface LimitsPlace extends LimitsForm {
  readonly steps: (canUndo: boolean, canRedo: boolean) => void;
  /** Whether what stands is durable, in words. */
  readonly said: (words: string) => void;
}

export interface LimitsWork {
  /** `typed` null takes the limit out. */
  readonly apply: (path: string, typed: string | null) => void;
  readonly set: (key: string, happy: string, never: string) => Promise<readonly ShownIssue[] | null>;
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
    "Type a limit as you would write it, with its unit: 14 kn, 5 ft, 1.2 m. Enter applies it, Esc gives the old one back. Left empty, the limit is taken out.",
  );
  const another = setLimit(work.set);
  const unset = element("p", { class: "quiet" });
  const rests = element("div", {});
  undo.disabled = true;
  redo.disabled = true;
  return {
    ...form,
    take(board: BoardTold) {
      if (!place.contains(table)) {
        const bar = element("p", { class: "steps" }, undo, redo, saved);
        fill(
          place,
          element("div", { class: "limits-row" }, table, element("div", { class: "limits-side" }, bar, how, another.element, unset)),
          rests,
        );
      }
      form.take(board);
      another.take(board);
      if (unset.textContent !== board.unset) unset.textContent = board.unset;
      // An open fold stays open while what it says stays the same.
      fillFrom(rests, board.restsOn, () => [restsFold(board)]);
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
