import type { Answered } from "../ask/answered.ts";
import { element, fill, paragraphs } from "../dom/element.ts";
import { issueList } from "./issues.ts";

export interface AfterPart {
  readonly place: HTMLElement;
  /** Another departure: what stands here is of the last one. */
  readonly departure: (departAt: string | null) => void;
}

type Fetcher = (departAt: string) => Promise<Answered<{ readonly sentences: readonly string[] }>>;

/** The days after arrival, the way home and staging: slow to reckon, so asked for only where the fold is open. */
export function afterPart(fetcher: Fetcher, unreachable: () => void): AfterPart {
  const body = element("div", { class: "after-body", "aria-live": "polite" });
  const place = element(
    "details",
    { class: "unfolds", id: "after" },
    element("summary", {}, "After arrival: the days at anchor, the way home"),
    body,
  );
  let wanted: string | null = null;
  let told: string | null = null;
  const load = async (): Promise<void> => {
    const departAt = wanted;
    if (departAt === null || !place.open || told === departAt) return;
    // What is of another departure pales; with nothing there, words say what is going on.
    if (body.childElementCount > 0) body.classList.add("reckoning");
    else fill(body, ...paragraphs(["Reckoning the days after arrival …"]));
    const answer = await fetcher(departAt);
    if (wanted !== departAt) return;
    body.classList.remove("reckoning");
    if (answer.kind === "told") {
      told = departAt;
      fill(body, ...paragraphs(answer.value.sentences));
    } else if (answer.kind === "refused") fill(body, issueList(answer.issues));
    else if (answer.kind === "unreachable") unreachable();
  };
  place.addEventListener("toggle", () => void load());
  let timer = 0;
  return {
    place,
    departure(departAt) {
      if (wanted === departAt) return;
      wanted = departAt;
      told = null;
      clearTimeout(timer);
      // The fold may stand open while a key runs down the board.
      if (place.open) timer = window.setTimeout(() => void load(), 400);
    },
  };
}
