import type { BoardTold, DepartureTold, ReAimTold, RefugesTold } from "../api/index.ts";
import { drawLimits, drawReAim, drawRefuges, escapeHtml, fitted, waitsOf } from "../figures/index.ts";
import { handLog, leastLogHeightPx } from "./hand-log.ts";
import { asManyAsFit, pageHeightPx, pageWidthPx, textHeightPx, thinned, thinnedWords } from "./paper-space.ts";
import { paperSection, type SheetPage } from "./sheet-page.ts";

const sectionHeadPx = 28;
const rowPx = 14.2;
const leftPx = 440;
const rightPx = pageWidthPx - leftPx - 24;
const signPx = 30;
/** Kept free at the foot, since we only think how high a text stands. */
const slackPx = 14;

/** How much of what is long is shown, from all of it to as little as still serves. */
interface Measure {
  readonly reAimRows: number;
  readonly refugeRows: number;
  readonly withAnswer: boolean;
}

const measures: readonly [Measure, ...Measure[]] = [
  { reAimRows: 12, refugeRows: 14, withAnswer: true },
  { reAimRows: 12, refugeRows: 12, withAnswer: false },
  { reAimRows: 10, refugeRows: 10, withAnswer: false },
  { reAimRows: 7, refugeRows: 8, withAnswer: false },
  { reAimRows: 6, refugeRows: 6, withAnswer: false },
];

/** Page two: what to do when it turns out otherwise, what it rests on, and a log to fill in. */
export function pageTwo(board: BoardTold, departure: DepartureTold): SheetPage {
  const safetyPx = textHeightPx(board.safety, pageWidthPx, 9.6, 12.4) + 6;
  const limits = limitsOf(departure, board);
  const leastLogPx = leastLogHeightPx(departure.section);
  const around = 12 + sectionHeadPx + signPx + safetyPx;
  const tried = measures.map((measure) => {
    const reAim = reAimOf(departure.reAim, measure.reAimRows);
    const wrong = wrongOf(departure, measure);
    return { reAim, wrong, fixed: around + reAim.heightPx + wrong.heightPx };
  });
  const fits = tried.find((one) => one.fixed + limits.heightPx + leastLogPx + slackPx <= pageHeightPx) ?? tried.at(-1);
  if (fits === undefined) throw new Error("no measure was tried");
  const { reAim, wrong, fixed } = fits;
  const restsRoom = Math.max(limits.heightPx, Math.min(240, pageHeightPx - fixed - leastLogPx - slackPx));
  const rests = restsOnOf([...departure.restsOn, ...board.restsOn, ...(board.unset === "" ? [] : [board.unset])], restsRoom);
  const middlePx = Math.max(limits.heightPx, rests.heightPx);
  const log = handLog(departure.section, Math.max(leastLogPx, pageHeightPx - fixed - middlePx - slackPx));
  const running = `<p class="running"><span>${escapeHtml(fitted(board.name, 300, 9))}</span><span>${escapeHtml(fitted(departure.leaving, 380, 9))}</span></p>`;
  const sign = `<p class="sign"><span>Go or stay, decided by the skipper at <i></i></span><span>Signed <i class="long"></i></span></p>`;
  const html =
    running +
    reAim.html +
    wrong.html +
    paperSection(
      "5",
      "The limits, and what all this rests on",
      "",
      `<div class="halves is-limits"><div>${limits.html}</div><div>${rests.html}</div></div>`,
    ) +
    `${log.html}${sign}<footer class="safety">${escapeHtml(board.safety)}</footer>`;
  return { html, heightPx: fixed + middlePx + log.heightPx + 2 };
}

function reAimOf(reAim: ReAimTold | null, mostRows: number): SheetPage {
  if (reAim === null || reAim.tables.length === 0) {
    return {
      html: paperSection("3", "Re-aim", "", `<p class="quiet">No heading is steered that could be re-aimed.</p>`),
      heightPx: sectionHeadPx + 14,
    };
  }
  const all = reAim.tables[0]?.rows.length ?? 0;
  const tables = reAim.tables.map((table) => ({ ...table, rows: [...thinned(table.rows, mostRows)] }));
  const shown = tables[0]?.rows.length ?? 0;
  const notes = [...reAim.notes, thinnedWords(shown, all)].filter((note) => note !== "").join(" ");
  const html = paperSection(
    "3",
    "Re-aim from where you are",
    `headings by ${reAim.by}`,
    `<p class="note">${escapeHtml(notes)}</p>${drawReAim({ ...reAim, tables }, { blocks: "side" })}`,
  );
  return { html, heightPx: sectionHeadPx + textHeightPx(notes, pageWidthPx, 9.6, 12.4) + 4 + 38 + shown * rowPx };
}

/**
 * Where to run to, and what to do. Few ports leave room beside them for the rest; many take the width.
 */
function wrongOf(departure: DepartureTold, measure: Measure): SheetPage {
  const { refuges } = departure;
  const list = departure.wrong.map((one) => `<dt>${escapeHtml(one.name)}</dt><dd>${escapeHtml(one.words)}</dd>`).join("");
  const itemPx = (one: (typeof departure.wrong)[number], widthPx: number): number =>
    Math.max(textHeightPx(one.words, widthPx - 62, 9.4, 12), textHeightPx(one.name, 54, 8.8, 12, "sansBold")) + 5;
  const listPx = (widthPx: number): number => departure.wrong.reduce((sum, one) => sum + itemPx(one, widthPx), 0);
  const aside = "times of arrival if you turn then";
  if (refuges === null || refuges.hours.length === 0) {
    return {
      html: paperSection("4", "If it goes wrong", "", `<dl class="wrong">${list}</dl>`),
      heightPx: sectionHeadPx + listPx(pageWidthPx),
    };
  }
  const hours = [...thinned(refuges.hours, measure.refugeRows)];
  const more = thinnedWords(hours.length, refuges.hours.length);
  const answer = measure.withAnswer ? (refuges.answer[0] ?? "") : "";
  const key = [
    `Headings by ${refuges.by}. Bold: the soonest that can be entered. Struck: not to be entered. Question mark: not judged.`,
    more,
    refuges.warning,
  ]
    .filter((words) => words !== "")
    .join(" ");
  const beside = refuges.names.length <= 4;
  const widthPx = beside ? leftPx : pageWidthPx;
  const table = `${drawRefuges({ ...refuges, hours }, { compact: false })}<p class="note">${escapeHtml(key)}</p>`;
  const tablePx = refugesPx({ ...refuges, hours }, widthPx) + textHeightPx(key, widthPx, 9.6, 12.4);
  const said = answer === "" ? "" : `<p class="note">${escapeHtml(answer)}</p>`;
  const saidPx = textHeightPx(answer, pageWidthPx, 9.6, 12.4) + 4;
  if (beside) {
    const html = `${said}<div class="halves is-wrong"><div>${table}</div><dl class="wrong">${list}</dl></div>`;
    return {
      html: paperSection("4", "If it goes wrong", aside, html),
      heightPx: sectionHeadPx + saidPx + Math.max(tablePx, listPx(rightPx)),
    };
  }
  const html = `${said}${table}<dl class="wrong is-wide">${list}</dl>`;
  const halfPx = (pageWidthPx - 24) / 2;
  const widePx = higherColumn(departure.wrong.map((one) => itemPx(one, halfPx))) + 8;
  return { html: paperSection("4", "If it goes wrong", aside, html), heightPx: sectionHeadPx + saidPx + tablePx + 6 + widePx };
}

/** How high two columns stand when items in their order are parted where the higher one is lowest. */
function higherColumn(heightsPx: readonly number[]): number {
  const all = heightsPx.reduce((sum, height) => sum + height, 0);
  let first = 0;
  let least = all;
  for (const height of heightsPx) {
    first += height;
    least = Math.min(least, Math.max(first, all - first));
  }
  return least;
}

function refugesPx(refuges: RefugesTold, widthPx: number): number {
  const columnPx = (widthPx - 74) / refuges.names.length - 8;
  const headPx = Math.max(12, ...refuges.names.map((name) => textHeightPx(name, columnPx, 8, 10, "sans"))) + 4;
  const waits = waitsOf(refuges.hours);
  return refuges.hours.reduce((sum, hour, i) => {
    const cells = hour.cells.map((cell) =>
      textHeightPx(
        `${cell.why ?? ""} ${cell.arrival ?? ""} ${cell.state === "enter" || cell.state === "notJudged" ? `? ${cell.steer ?? ""}` : ""}`,
        columnPx,
        9.4,
        11,
        "sans",
      ),
    );
    const said = waits[i] ?? null;
    const wait = said === null ? 0 : textHeightPx(said, widthPx - 50, 9.4, 11, "sans") + 3;
    return sum + Math.max(11, ...cells) + 3.2 + wait;
  }, headPx);
}

function limitsOf(departure: DepartureTold, board: BoardTold): SheetPage {
  const html = drawLimits(departure, { marginalBelow: board.marginalBelow, kind: "paper" });
  const heightPx = departure.limits.reduce((sum, limit) => {
    const past = limit.pastNever === null ? "" : `; past never from ${limit.pastNever}`;
    const worst = textHeightPx(`${limit.judged ? "" : "not judged: "}${limit.words}${past}`, 114, 9.4, 11, "sans");
    return sum + Math.max(14, worst, textHeightPx(limit.limit, 120, 9.4, 11, "sans")) + 1;
  }, 23);
  return { html, heightPx };
}

function restsOnOf(sentences: readonly string[], roomPx: number): SheetPage {
  const heightOf = (text: string): number => textHeightPx(text, rightPx, 9.2, 11.6) + 3;
  const { kept, leftOff } = asManyAsFit(sentences, roomPx - 14, heightOf);
  const more = leftOff === 0 ? "" : `<p class="rests"><b>And ${leftOff} more, on the page.</b></p>`;
  const heightPx = kept.reduce((sum, text) => sum + heightOf(text), leftOff === 0 ? 0 : 14);
  return { html: kept.map((text) => `<p class="rests">${escapeHtml(text)}</p>`).join("") + more, heightPx };
}
