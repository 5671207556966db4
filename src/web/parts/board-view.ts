import type { BoardTold, LineTold } from "../../api/index.ts";
import { type BoardLook, drawBoard, drawBoardDay, drawBoardKey, drawBoardLine, lineId } from "../../figures/index.ts";
import { becomeMarkup } from "../dom/change-markup.ts";
import { byId, fill, setMarkup } from "../dom/element.ts";
import { dayChange } from "../state/day-change.ts";
import { stepOf, walk } from "../state/walk-board.ts";

/** Narrower than this, px, the board is set in two rows of words a line. */
const COMPACT_BELOW_PX = 640;

export interface BoardView {
  /** Draws a board; the same board is not drawn again. */
  readonly show: (board: BoardTold, chosenAt: string | null) => void;
  /** Moves the choice: one button checked, nothing redrawn; with `focus` the window follows it. */
  readonly mark: (departAt: string, focus: boolean) => void;
  readonly empty: (markup: string) => void;
}

/** The margin board. `choose` hears of a departure that a key, a click or a touch asks for. */
export function boardView(choose: (departAt: string, byKey: boolean) => void): BoardView {
  const place = byId("board");
  let board: BoardTold | null = null;
  let chosen: string | null = null;
  let buttons = new Map<string, HTMLInputElement>();
  let compact: boolean | null = null;
  /** What stands in the place, and in which look. */
  let drawn: { readonly days: BoardTold["days"]; readonly compact: boolean; readonly marginalBelow: number } | null = null;

  const narrow = (): boolean => place.clientWidth < COMPACT_BELOW_PX;
  /** Sets what has changed, down to single lines; tells whether anything has. */
  const set = ({ days, marginalBelow }: BoardTold, look: BoardLook): boolean => {
    const before = drawn;
    drawn = { days, compact: look.compact, marginalBelow };
    const sections = [...place.querySelectorAll(":scope > .board > .day")];
    const fits = before !== null && before.compact === look.compact && before.marginalBelow === marginalBelow;
    if (!fits || sections.length !== days.length || before.days.length !== days.length) {
      fill(place);
      return setMarkup(place, drawBoard(days, look));
    }
    let changed = false;
    for (const [i, day] of days.entries()) {
      const [section, was] = [sections[i], before.days[i]];
      if (section === undefined || was === undefined) continue;
      const change = dayChange(was, day);
      if (change.kind !== "same") changed = true;
      if (change.kind === "whole") becomeMarkup(section, drawBoardDay(day, look));
      if (change.kind !== "lines") continue;
      const lineLook = { ...look, kind: look.compact ? ("compact" as const) : ("wide" as const), weekday: day.weekday };
      for (const line of change.lines) {
        const row = document.getElementById(lineId(line.departAt));
        if (row !== null) becomeMarkup(row, drawBoardLine(line, lineLook), "<table><tbody>");
      }
    }
    return changed;
  };
  const draw = (): void => {
    if (board === null) return;
    // Asked for once: the width of a page that has just been changed has to be laid out first.
    compact ??= narrow();
    const opened = openedFolds(place);
    const held = place.contains(document.activeElement);
    const look = { marginalBelow: board.marginalBelow, chosen, compact, fold: "shut" as const };
    if (!set(board, look)) return;
    buttons = new Map([...place.querySelectorAll<HTMLInputElement>("tr[data-at] input[type=radio]")].map((one) => [one.value, one]));
    for (const id of opened) setFold(place, id, true);
    // A line that was left standing keeps what a hand has chosen in it.
    const choice = chosen === null ? undefined : buttons.get(chosen);
    if (choice !== undefined) choice.checked = true;
    if (held && chosen !== null) buttons.get(chosen)?.focus({ preventScroll: true });
  };
  const seen = (line: LineTold): boolean => buttons.get(line.departAt)?.closest("tbody")?.hidden !== true;

  place.addEventListener("keydown", (event) => {
    const step = stepOf(event.key);
    if (step === null || board === null || chosen === null || event.altKey || event.ctrlKey || event.metaKey) return;
    if (!(event.target instanceof HTMLInputElement)) return;
    event.preventDefault();
    choose(walk(board, chosen, step, seen), true);
  });
  place.addEventListener("click", (event) => {
    if (!(event.target instanceof Element)) return;
    const folded = event.target.closest("button[aria-controls]");
    const id = folded?.getAttribute("aria-controls");
    if (id) return setFold(place, id, folded?.getAttribute("aria-expanded") !== "true");
    const departAt = event.target.closest<HTMLElement>("tr[data-at]")?.dataset["at"];
    if (departAt !== undefined && departAt !== chosen) choose(departAt, false);
  });
  new ResizeObserver(() => {
    if (narrow() === compact) return;
    compact = narrow();
    draw();
  }).observe(place);

  return {
    show(told, chosenAt) {
      board = told;
      // The markup is drawn with the choice in it: where only that has moved, it is the same board.
      chosen = chosenAt;
      draw();
      setMarkup(byId("board-key"), drawBoardKey(told.key, told.marginalBelow));
    },
    mark(departAt, focus) {
      chosen = departAt;
      const button = buttons.get(departAt);
      if (button === undefined) return;
      button.checked = true;
      if (!focus) return;
      // Only a key moves the window: a board judged anew by a limit typed further down leaves it where it is.
      button.focus({ preventScroll: true });
      button.closest("tr")?.scrollIntoView({ block: "nearest" });
    },
    empty(markup) {
      board = null;
      drawn = null;
      buttons.clear();
      setMarkup(place, markup);
      setMarkup(byId("board-key"), "");
    },
  };
}

function openedFolds(place: Element): string[] {
  const open = place.querySelectorAll('button[aria-expanded="true"][aria-controls]');
  return [...open].map((one) => one.getAttribute("aria-controls") ?? "");
}

function setFold(place: Element, id: string, open: boolean): void {
  const lines = place.querySelector<HTMLElement>(`#${CSS.escape(id)}`);
  const button = place.querySelector(`button[aria-controls="${CSS.escape(id)}"]`);
  if (lines === null || button === null) return;
  lines.hidden = !open;
  button.setAttribute("aria-expanded", String(open));
}
