import type { DepartureTold } from "../../api/index.ts";
import { drawReAim, drawSection, drawWays } from "../../figures/index.ts";
import { byId, element, fill, paragraphs, setMarkup } from "../dom/element.ts";
import { isNarrow } from "./narrow.ts";
import { saidSentences } from "./said.ts";

/** The section is drawn no wider than this; beyond it a mile gains nothing. */
const WIDEST_SECTION_PX = 900;
/** Narrower than this, px, the table of ways has its columns under the names. */
const WIDE_WAYS_PX = 620;
const REDRAW_REST_MILLISECONDS = 120;

export interface DeparturePart {
  readonly show: (departure: DepartureTold) => void;
  /** There is no answer, or none yet: what stood here is taken away, and these words stand instead. */
  readonly empty: (...contents: readonly Node[]) => void;
}

/** *How to steer*: the order, the crossing drawn across its stream, the ways across, and where to aim anew. */
export function steerPart(): DeparturePart {
  const body = byId("steer-body");
  const shut = element("p", { class: "shut-word" });
  const say = element("div", { class: "say second" });
  const stream = element("div", { class: "asides" });
  const figure = element("div", { class: "section-figure", id: "section-figure" });
  const ways = element("div", { class: "ways-place" });
  const waysNote = element("div", { class: "ways-note" });
  const reAimHead = element("h3", { class: "small-head" });
  const reAim = element("div", { class: "re-aim-place" });
  const reAimNotes = element("div", { class: "asides" });
  const reAimBlock = element("div", { class: "re-aim-part" }, reAimHead, element("div", { class: "re-aim-row" }, reAim, reAimNotes));
  const main = element("div", { class: "steer-main" }, figure, waysNote);
  const side = element("div", { class: "steer-side" }, stream, ways);
  const whole = [shut, say, element("div", { class: "steer" }, main, side), reAimBlock];
  let shown: DepartureTold | null = null;
  let drawnAtPx = 0;

  const draw = (): void => {
    if (shown === null) return;
    const widthPx = sectionWidthPx(main.clientWidth);
    drawnAtPx = widthPx;
    setMarkup(figure, shown.section === null ? "" : drawSection(shown.section, { widthPx, ways: shown.ways }));
    setMarkup(ways, drawWays(shown.ways, { compact: side.clientWidth < WIDE_WAYS_PX }));
    if (shown.reAim !== null) setMarkup(reAim, drawReAim(shown.reAim, { blocks: isNarrow() ? "folded" : "side" }));
  };
  let timer = 0;
  new ResizeObserver(() => {
    if (shown === null || sectionWidthPx(main.clientWidth) === drawnAtPx) return;
    clearTimeout(timer);
    timer = window.setTimeout(draw, REDRAW_REST_MILLISECONDS);
  }).observe(main);

  return {
    show(departure) {
      shown = departure;
      if (!body.contains(say)) fill(body, ...whole);
      shut.hidden = departure.standsOpen;
      shut.textContent = departure.standsOpen ? "" : "This departure is shut. Were it open, the order would be:";
      fill(byId("steer-note"), departure.compass);
      fill(say, ...saidSentences(departure.order));
      fill(stream, ...paragraphs(departure.stream));
      fill(waysNote, ...paragraphs(departure.waysNote));
      reAimBlock.hidden = departure.reAim === null;
      if (departure.reAim !== null) {
        reAimHead.textContent = `Re-aim: ${departure.reAim.by} heading from where you are`;
        fill(reAimNotes, ...paragraphs(departure.reAim.notes));
      }
      draw();
    },
    empty(...contents) {
      shown = null;
      fill(byId("steer-note"));
      fill(body, ...contents);
    },
  };
}

/** The width to draw at where so much room is: whole steps of 4 px, so that a scroll bar that comes and goes redraws nothing. */
function sectionWidthPx(roomPx: number): number {
  return Math.min(WIDEST_SECTION_PX, Math.max(280, Math.floor(roomPx / 4) * 4));
}
