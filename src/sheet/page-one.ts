import type { BoardTold, DepartureTold } from "../api/index.ts";
import { drawBoardKey, drawSection, drawWays, escapeHtml, fitted } from "../figures/index.ts";
import { paperBoard } from "./paper-board.ts";
import { asManyAsFit, pageHeightPx, pageWidthPx, textHeightPx } from "./paper-space.ts";
import { type Printed, paperSection, type SheetPage } from "./sheet-page.ts";

const sectionWidthPx = 476;
const besidePx = pageWidthPx - sectionWidthPx - 18;
const halfPx = (pageWidthPx - 26) / 2;
const keyPx = 30;
/** What a section's rule, name and space above take. */
const sectionHeadPx = 28;

/** Page one: whether, when and how. */
export function pageOne(board: BoardTold, departure: DepartureTold, printed: Printed): SheetPage {
  const head = headOf(board, printed);
  const answer = answerOf(board, departure);
  const steer = steerOf(departure);
  const fixed = head.heightPx + sectionHeadPx + answer.heightPx + keyPx + sectionHeadPx + steer.heightPx;
  const drawn = paperBoard(board, departure.line.departAt, Math.max(150, pageHeightPx - fixed - 6));
  const key = drawBoardKey([], board.marginalBelow, "paper");
  const html =
    head.html +
    paperSection("1", "When to leave", board.zones, `${answer.html}${drawn.html}${key}`) +
    paperSection("2", "How to steer", departure.compass, steer.html);
  return { html, heightPx: fixed + drawn.heightPx };
}

function headOf(board: BoardTold, printed: Printed): SheetPage {
  const stampPx = 190;
  const titlePx = pageWidthPx - stampPx - 20;
  const title = fitted(board.name, titlePx * 1.8, 22, "serif");
  const boat = fitted(board.boat, titlePx * 1.8, 11, "serif");
  const invented = board.invented ? `<span class="invented">Invented, for demonstration</span>` : "";
  const sources = board.sources.map((source) =>
    source.loud
      ? `<span class="source is-loud"><b>Look out</b> ${escapeHtml(source.words)}</span>`
      : `<span class="source">${escapeHtml(source.words)}</span>`,
  );
  const sourceWords = board.sources.map((source) => `${source.loud ? "Look out  " : ""}${source.words}     `).join("");
  const sourcesPx = textHeightPx(sourceWords, pageWidthPx * 0.95, 8.4, 12.5, "sans") + 8;
  const html =
    `<header class="paper-head"><div><p class="kind">Crossing sheet <span>a planning aid; not for navigation</span></p><h1>${escapeHtml(title)}</h1><p class="boat">${escapeHtml(boat)}</p></div>` +
    `<div class="stamp"><p><b>Printed ${escapeHtml(printed.printedAt)}</b></p><p>${escapeHtml(printed.zoneWords)}</p>${invented}</div></header><p class="sources">${sources.join(" ")}</p>`;
  return { html, heightPx: 14 + textHeightPx(title, titlePx, 22, 26) + textHeightPx(boat, titlePx, 11, 14) + 8 + sourcesPx };
}

/** The answer in a sentence, the rest of it beside the departure this sheet is about. */
function answerOf(board: BoardTold, departure: DepartureTold): SheetPage {
  const [first = "", ...rest] = board.answer;
  const left = rest.join(" ");
  const right = [departure.leaving, departure.inHand].filter((words) => words !== "").join(" ");
  const heightPx =
    textHeightPx(first, pageWidthPx, 15.5, 19) +
    Math.max(textHeightPx(left, halfPx, 10.2, 13.2), textHeightPx(right, halfPx * 0.95, 10.2, 13.2)) +
    9;
  return {
    html: `<p class="say">${escapeHtml(first)}</p><div class="halves"><p>${escapeHtml(left)}</p><p><b>${escapeHtml(departure.leaving)}</b> ${escapeHtml(departure.inHand)}</p></div>`,
    heightPx,
  };
}

function steerOf(departure: DepartureTold): SheetPage {
  const [first = "", ...rest] = departure.order;
  const shut =
    departure.standsOpen || departure.section === null
      ? ""
      : `<p class="stands-shut"><b>Shut.</b> What follows is only what the order would be.</p>`;
  const said = `${shut}<p class="say">${escapeHtml(first)}</p><p>${escapeHtml(rest.join(" "))}</p>`;
  const gates = departure.gates.map((gate) => `<p>${escapeHtml(gate)}</p>`).join("");
  if (departure.section === null) {
    const orderPx = textHeightPx(first, pageWidthPx, 14.5, 18) + textHeightPx(rest.join(" "), pageWidthPx, 10.4, 13.4) + 20;
    const waysPx =
      departure.ways.reduce((sum, way) => sum + 14 + textHeightPx(`${way.orders} ${way.why ?? ""}`, 250, 9, 11.5, "sans"), 60) +
      departure.ways.length * 14;
    const notes = notesThatFit(departure, pageWidthPx, 90);
    return {
      html: `${said}${gates}${drawWays(departure.ways, { compact: false })}${notes.html}`,
      heightPx: orderPx + waysPx + notes.heightPx + departure.gates.length * 14,
    };
  }
  const figure = drawSection(departure.section, { widthPx: sectionWidthPx, ways: departure.ways });
  const figurePx = heightOfSvg(figure);
  const orderPx =
    textHeightPx(first, besidePx, 14.5, 17.5) +
    textHeightPx(rest.join(" "), besidePx, 10.4, 13.4) +
    (departure.standsOpen ? 8 : 36) +
    departure.gates.reduce((sum, gate) => sum + textHeightPx(gate, besidePx, 10.4, 13.4) + 3, 0);
  const waysPx = 20 + departure.ways.reduce((sum, way) => sum + wayHeightPx(way), 0);
  const notes = notesThatFit(departure, besidePx, Math.max(0, figurePx - orderPx - waysPx));
  const html = `<div class="steer"><figure>${figure}</figure><div class="beside">${said}${gates}${paperWays(departure)}${notes.html}</div></div>`;
  return { html, heightPx: Math.max(figurePx, orderPx + waysPx + notes.heightPx) };
}

/** In a narrow column the ways are letter, name, time and cost; the sentences of what is steered stand on the page. */
function paperWays(departure: DepartureTold): string {
  return drawWays(
    departure.ways.map((way) => ({
      ...way,
      orders: "",
      otherwise: [],
      verdictWords:
        way.verdict === null
          ? way.verdictWords
          : way.verdict === "notJudged"
            ? "not judged"
            : way.verdict === "closed"
              ? "shut"
              : way.verdict,
    })),
    { compact: true },
  );
}

function wayHeightPx(way: DepartureTold["ways"][number]): number {
  const namePx = besidePx - 42 - 48;
  const words = way.arrives
    ? `${way.up} up, ${way.down} down, nm off the line; ${way.verdict === null ? way.verdictWords : "marginal"}`
    : "";
  const why = way.arrives ? 0 : 12 + textHeightPx(`does not arrive: ${way.why ?? ""}`, namePx + 48, 8.7, 11.4, "sans");
  const own = textHeightPx(`${way.name}, a yardstick`, namePx, 9, 12, "sans") + textHeightPx(words, namePx, 8.7, 11.4, "sans");
  return Math.max(own, why) + 5;
}

function notesThatFit(departure: DepartureTold, widthPx: number, mostPx: number): SheetPage {
  const heightOf = (text: string): number => textHeightPx(text, widthPx, 9.6, 12.4) + 4;
  const { kept } = asManyAsFit([...departure.stream, ...departure.waysNote], mostPx, heightOf);
  return {
    html: kept.map((text) => `<p class="note">${escapeHtml(text)}</p>`).join(""),
    heightPx: kept.reduce((sum, text) => sum + heightOf(text), 0),
  };
}

/** The height a drawing says it has. */
function heightOfSvg(svg: string): number {
  const height = /^<svg[^>]* height="([\d.]+)"/.exec(svg)?.[1];
  if (height === undefined) throw new Error(`a figure without a height: ${svg.slice(0, 200)}`);
  return Number(height);
}
