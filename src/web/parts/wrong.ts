import type { DepartureTold } from "../../api/index.ts";
import { drawRefuges, refugesKey } from "../../figures/index.ts";
import { byId, element, fill, paragraphs, setMarkup } from "../dom/element.ts";
import { isNarrow, onNarrow } from "./narrow.ts";
import { saidSentences } from "./said.ts";
import type { DeparturePart } from "./steer.ts";

/** *If it goes wrong*: ports of refuge by the hour, turning back, standing off, the engine stopping; and what the departure rests on. */
export function wrongPart(after: HTMLElement): DeparturePart {
  const body = byId("wrong-body");
  const say = element("div", { class: "say second" });
  const refuges = element("div", { class: "refuges-place" });
  const key = element("p", { class: "refuges-note" });
  const warning = element("p", { class: "refuges-note" });
  const entrances = element("ul", { class: "refuges-note" });
  const what = element("dl", { class: "wrong-what" });
  const rests = element("details", { class: "unfolds" }, element("summary", {}, "What these figures rest on"));
  const list = element("ul", { class: "rests" });
  rests.append(list);
  const whole = [
    say,
    element("div", { class: "wrong" }, element("div", { class: "refuges-side" }, refuges, key, entrances, warning), what),
    after,
    rests,
  ];
  let shown: DepartureTold | null = null;
  const draw = (): void => {
    const told = shown?.refuges ?? null;
    if (told !== null) setMarkup(refuges, drawRefuges(told, { compact: isNarrow() }));
  };
  onNarrow(draw);
  return {
    show(departure) {
      shown = departure;
      if (!body.contains(say)) fill(body, ...whole);
      const { refuges: told } = departure;
      fill(say, ...saidSentences(told === null ? [] : told.answer));
      say.hidden = told === null;
      if (told === null) fill(refuges, ...paragraphs(["No port of refuge is named in the passage file."]));
      else draw();
      fill(byId("wrong-note"), told === null ? "" : "ports of refuge by the hour, through the moving water");
      fill(what, ...departure.wrong.map(({ name, words }) => element("div", {}, element("dt", {}, name), element("dd", {}, words))));
      fill(key, told === null || told.hours.length === 0 ? "" : refugesKey(told));
      fill(entrances, ...(told?.entrances ?? []).map((words) => element("li", {}, words)));
      fill(warning, told?.warning ?? "");
      rests.hidden = departure.restsOn.length === 0;
      fill(list, ...departure.restsOn.map((words) => element("li", {}, words)));
    },
    empty(...contents) {
      shown = null;
      fill(byId("wrong-note"));
      fill(body, ...contents);
    },
  };
}
