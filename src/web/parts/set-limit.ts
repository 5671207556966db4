import type { BoardTold } from "../../api/index.ts";
import type { ShownIssue } from "../ask/answered.ts";
import { type Content, element, fill } from "../dom/element.ts";
import { issueWords } from "./issues.ts";

export interface SetLimit {
  readonly element: HTMLElement;
  /** Offers what a board says is not set. */
  readonly take: (board: BoardTold) => void;
}

type Offered = BoardTold["toSet"][number];

/** Sets a limit that the skipper has not set yet: which, and its two figures. `apply` gives back why not, or null. */
export function setLimit(apply: (key: string, happy: string, never: string) => Promise<readonly ShownIssue[] | null>): SetLimit {
  let offered: readonly Offered[] = [];
  const which = element("select", { class: "field", id: "set-limit" });
  const happy = figure("happy");
  const never = figure("never");
  const note = element("p", { class: "field-note", role: "status" });
  const say = (className: string, ...words: readonly Content[]): void => {
    note.className = `field-note ${className}`;
    fill(note, ...words);
  };
  const chosen = (): Offered | undefined => offered.find(({ key }) => key === which.value);
  /** Figures to start from stand in the fields until others are typed. */
  const suggest = (): void => {
    happy.value = chosen()?.happy ?? "";
    never.value = chosen()?.never ?? "";
    say("", "Figures to start from, not advice: put your own.");
  };
  which.addEventListener("change", suggest);
  const form = element(
    "form",
    { class: "set-limit" },
    element("label", { for: "set-limit" }, "Set another limit on"),
    which,
    element("label", {}, "happy ", happy),
    element("label", {}, "never ", never),
    element("button", { type: "submit", class: "act", id: "set-limit-now" }, "Set it"),
    note,
  );
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const limit = chosen();
    if (limit === undefined) return;
    const why = await apply(limit.key, happy.value.trim(), never.value.trim());
    if (why === null) say("", `The limit on ${limit.name} is set.`);
    else say("bad", ...why.flatMap((one) => issueWords(one)));
  });
  return {
    element: form,
    take(board) {
      const keys = (limits: readonly Offered[]): string => limits.map(({ key }) => key).join();
      if (keys(board.toSet) === keys(offered)) return;
      const before = which.value;
      offered = board.toSet;
      form.hidden = offered.length === 0;
      fill(which, ...offered.map(({ key, name }) => element("option", { value: key }, name)));
      if (offered.some(({ key }) => key === before)) which.value = before;
      else suggest();
    },
  };
}

function figure(name: string): HTMLInputElement {
  return element("input", {
    class: "field",
    type: "text",
    id: `set-limit-${name}`,
    autocomplete: "off",
    autocapitalize: "off",
    spellcheck: "false",
  });
}
