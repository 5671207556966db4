import type { BoardTold } from "../../api/index.ts";
import type { ShownIssue } from "../ask/answered.ts";
import { element, fill } from "../dom/element.ts";
import { issueWords } from "./issues.ts";

export interface LimitsForm {
  /** Takes over what a board says is typed; a field that is being typed in, or waits to be saved, is left alone. */
  readonly take: (board: BoardTold) => void;
  /** Another passage: nothing typed or refused here belongs to it. */
  readonly forget: () => void;
  readonly waiting: (path: string, typed: string) => void;
  readonly saved: (path: string, typed: string) => void;
  readonly refused: (path: string, issues: readonly ShownIssue[]) => void;
}

interface Field {
  readonly input: HTMLInputElement;
  readonly note: HTMLElement;
  /** As the document has it. */
  kept: string;
  /** What was last sent, or refused. */
  tried: string;
  state: "kept" | "waiting" | "refused";
}

/** The skipper's own limits and speed, changed where they stand. `apply` hears of a text that is to be saved; null takes a limit out. */
export function limitsForm(place: HTMLElement, apply: (path: string, typed: string | null) => void): LimitsForm {
  const fields = new Map<string, Field>();
  let shape = "";

  const fieldOf = (path: string, label: string, typed: string): HTMLElement => {
    const id = `field-${path.replaceAll(".", "-")}`;
    const note = element("p", { class: "field-note", id: `${id}-note` });
    const input = element("input", {
      id,
      class: "field",
      type: "text",
      "aria-label": label,
      "aria-describedby": `${id}-note`,
      autocomplete: "off",
      autocapitalize: "off",
      spellcheck: "false",
      value: typed,
    });
    const field: Field = { input, note, kept: typed, tried: typed, state: "kept" };
    fields.set(path, field);
    const commit = (): void => {
      const text = input.value.trim();
      if (field.state === "kept" ? text === field.kept : text === field.tried) return;
      if (field.state !== "waiting" && text === field.kept) settle(field);
      else if (text === "" && path.startsWith("limits.")) apply(limitOf(path), null);
      else apply(path, text);
    };
    input.addEventListener("keydown", (event) => {
      if (event.key === "Enter") {
        event.preventDefault();
        commit();
      } else if (event.key === "Escape") {
        event.preventDefault();
        input.value = field.kept;
        settle(field);
      }
    });
    input.addEventListener("change", commit);
    return element("div", { class: "field-cell" }, input, note);
  };
  const build = (board: BoardTold): void => {
    fields.clear();
    const rows = board.limits.map(({ key, name, happy, never }) =>
      element(
        "tr",
        {},
        element("th", { scope: "row" }, capital(name)),
        element("td", {}, fieldOf(`limits.${key}.happy`, `${name}, happy`, happy)),
        element("td", {}, fieldOf(`limits.${key}.never`, `${name}, never`, never)),
      ),
    );
    const speed =
      board.speed === null
        ? null
        : element(
            "tr",
            {},
            element("th", { scope: "row" }, "Speed through the water"),
            element("td", {}, fieldOf(board.speed.key, "Speed through the water", board.speed.value)),
            element("td", { class: "field-aside" }, "a change runs the passage again"),
          );
    const head = ["limit", "happy", "never"].map((words) => element("th", { scope: "col" }, words));
    fill(
      place,
      element(
        "table",
        { class: "limits-typed" },
        element("caption", {}, "Your limits"),
        element("thead", {}, element("tr", {}, ...head)),
        element("tbody", {}, ...rows, speed),
      ),
    );
  };
  return {
    take(board) {
      const typed = new Map<string, string>(
        board.limits.flatMap(({ key, happy, never }) => [[`limits.${key}.happy`, happy] as const, [`limits.${key}.never`, never] as const]),
      );
      if (board.speed !== null) typed.set(board.speed.key, board.speed.value);
      const now = [...typed.keys(), ...board.limits.map(({ name }) => name)].join("\n");
      if (now !== shape) {
        shape = now;
        build(board);
      }
      for (const [path, text] of typed) {
        const field = fields.get(path);
        if (field === undefined) continue;
        const untouched = field.state === "kept" && field.input.value.trim() === field.kept;
        field.kept = text;
        if (untouched) field.input.value = text;
      }
    },
    forget() {
      shape = "";
      fields.clear();
    },
    waiting(path, typed) {
      const field = fields.get(path);
      if (field === undefined) return;
      if (document.activeElement !== field.input) field.input.value = typed;
      field.state = "waiting";
      field.tried = typed;
      say(field, "saving", "not saved yet");
    },
    saved(path, typed) {
      const field = fields.get(path);
      if (field === undefined || field.tried !== typed) return;
      field.kept = typed;
      settle(field);
    },
    refused(path, issues) {
      const field = fields.get(path);
      if (field === undefined) {
        // A limit that could not be taken out stands as it stood.
        for (const [of, one] of fields) if (limitOf(of) === path) one.input.value = one.kept;
        return;
      }
      field.state = "refused";
      field.input.setAttribute("aria-invalid", "true");
      field.note.className = "field-note bad";
      fill(field.note, ...issues.flatMap((one) => issueWords({ ...one, path: "" })), ` ${field.kept} still stands; Esc gives it back.`);
    },
  };
}

/** The limit that a figure is of: `limits.gust` of `limits.gust.never`. */
function limitOf(path: string): string {
  return path.split(".").slice(0, 2).join(".");
}

function settle(field: Field): void {
  field.state = "kept";
  field.input.removeAttribute("aria-invalid");
  say(field, "", "");
}

function say(field: Field, className: string, words: string): void {
  field.note.className = `field-note ${className}`;
  fill(field.note, words);
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
