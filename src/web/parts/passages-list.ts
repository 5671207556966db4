import type { Answered } from "../ask/answered.ts";
import type { ListedPassage } from "../ask/shapes.ts";
import { button, element, fill } from "../dom/element.ts";
import { issueList } from "./issues.ts";

export interface PassagesListWork {
  readonly list: () => Promise<Answered<{ readonly passages: readonly ListedPassage[] }>>;
  readonly open: (id: string) => void;
  readonly remove: (id: string) => Promise<Answered<null>>;
  readonly current: () => string | null;
  readonly unreachable: () => void;
}

/** The passages kept on this computer, in a fold: to open one, or throw one away (asked twice). */
export function passagesList(work: PassagesListWork): HTMLDetailsElement {
  const body = element("div", { class: "passages" });
  const place = element("details", { class: "passages-fold" }, element("summary", { class: "act" }, "Passages"), body);
  const load = async (): Promise<void> => {
    const answer = await work.list();
    if (answer.kind === "unreachable") return work.unreachable();
    if (answer.kind === "refused") return fill(body, issueList(answer.issues));
    if (answer.kind === "told") fill(body, element("ul", {}, ...answer.value.passages.map(entry)));
  };
  const entry = (passage: ListedPassage): HTMLLIElement => {
    const here = passage.id === work.current();
    const open = button(
      passage.name,
      () => {
        place.open = false;
        work.open(passage.id);
      },
      { class: "act", "aria-current": here ? "true" : null },
    );
    const kind = passage.origin === "demo" ? "a demo, invented" : passage.invented ? "invented" : "";
    const notes = [here ? "open now" : "", kind].filter((words) => words !== "").join("; ");
    return element("li", {}, open, element("span", { class: "quiet" }, notes), passage.origin === "demo" ? null : removal(passage));
  };
  const removal = (passage: ListedPassage): HTMLElement => {
    const place = element("span", {});
    const asked = async (): Promise<void> => {
      const answer = await work.remove(passage.id);
      if (answer.kind === "unreachable") work.unreachable();
      if (answer.kind === "refused") return fill(place, issueList(answer.issues));
      await load();
    };
    const first = button(
      "Throw away",
      () => {
        const sure = button("Throw it away for good", () => void asked(), { class: "act" });
        fill(
          place,
          sure,
          button("Keep it", () => fill(place, first), { class: "act" }),
        );
        sure.focus();
      },
      { class: "act", "aria-label": `Throw away ${passage.name}` },
    );
    fill(place, first);
    return place;
  };
  place.addEventListener("toggle", () => {
    if (place.open) void load();
  });
  place.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !place.open) return;
    place.open = false;
    place.querySelector("summary")?.focus();
  });
  return place;
}
