import { escapeHtml } from "../html/escape.ts";
import { type BarTold, drawMarginBar } from "./margin-bar.ts";

const samples: readonly (BarTold & { readonly name: string; readonly words: string })[] = [
  { verdict: "open", margin: 0.7, marginalBelow: 0.15, name: "Open", words: "room left before never" },
  { verdict: "marginal", margin: 0.5, marginalBelow: 0.15, name: "Marginal", words: "short of your line, or of time in hand" },
  { verdict: "closed", margin: -0.7, marginalBelow: 0.15, name: "Shut", words: "past never" },
  { verdict: "notJudged", margin: null, marginalBelow: 0.15, name: "Not judged", words: "something about it is not known" },
];

/**
 * How the board is read: a sample of each bar with its name, and the sentences told.
 *
 * @param sentences `BoardTold.key`
 */
export function drawBoardKey(sentences: readonly string[], marginalBelow: number, kind: "wide" | "paper" = "wide"): string {
  const bars = samples.map(({ name, words, ...bar }) => {
    const drawn = drawMarginBar({ ...bar, marginalBelow }, kind);
    return `<span class="key-bar"><span class="key-sample">${drawn}</span><span><b>${name}</b> ${words}</span></span>`;
  });
  const strip = `<span class="key-bar"><span class="key-light light-night"></span><span class="key-light light-twilight"></span><span>leaving by night, in twilight</span></span>`;
  return `<div class="board-key">${bars.join("")}${strip}${sentences.map((text) => `<p class="quiet">${escapeHtml(text)}</p>`).join("")}</div>`;
}
