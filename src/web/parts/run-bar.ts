import type { ShownIssue } from "../ask/answered.ts";
import { button, byId, element, fill } from "../dom/element.ts";
import { issueList } from "./issues.ts";

export interface RunBar {
  readonly start: (cancel: () => void) => void;
  readonly progress: (done: number, of: number, stage: string) => void;
  readonly over: () => void;
  readonly failed: (issues: readonly ShownIssue[], again: () => void) => void;
  readonly cancelled: (again: () => void) => void;
}

const STAGES: Readonly<Record<string, string>> = {
  departures: "Departures run through the forecast",
  chances: "Chances of the departures that are not shut",
};

/** How far a run is, with its figure and a way to stop it; nothing stands here while nothing runs. */
export function runBar(): RunBar {
  const place = byId("run");
  const bar = element("progress", { max: 1, "aria-label": "Departures tried" });
  const figure = element("p", { class: "run-figure" });
  const stopped = (...contents: readonly Node[]): void => {
    place.hidden = false;
    fill(place, ...contents);
  };
  return {
    start(cancel) {
      bar.removeAttribute("value");
      figure.textContent = "Reading the sources …";
      place.hidden = false;
      fill(place, figure, bar, button("Cancel the run", cancel, { class: "act", id: "cancel-run" }));
    },
    progress(done, of, stage) {
      bar.max = Math.max(of, 1);
      bar.value = done;
      const what = STAGES[stage] ?? stage;
      figure.textContent = of > 0 ? `${what}: ${done} of ${of}` : what;
    },
    over() {
      place.hidden = true;
      fill(place);
    },
    failed(issues, again) {
      stopped(
        element("p", { class: "run-figure" }, element("b", {}, "This passage could not be run.")),
        issueList(issues),
        issues.some(({ code }) => code === "file-not-opened")
          ? element("p", { class: "run-figure" }, "Drop what is missing on this page, or pick it above: it is kept beside the passage.")
          : element("span", {}),
        button("Run again", again, { class: "act" }),
      );
    },
    cancelled(again) {
      stopped(
        element("p", { class: "run-figure" }, "The run was cancelled. What stands below is from before, if anything does."),
        button("Run again", again, { class: "act", id: "run-again" }),
      );
    },
  };
}
