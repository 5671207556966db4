import type { InletTold } from "../../api/index.ts";
import { classes, escapeHtml, paragraphs, unseen } from "../html/escape.ts";
import { drawInletStrip, NARROW_PX } from "./inlet-strip.ts";

/** How wide the strip of an inlet's clock is drawn, px. */
export interface InletLook {
  readonly widthPx: number;
}

type Row = InletTold["rows"][number];

/**
 * The clock of one bar or cut: the sentence to act on, the day as a strip (open and shut, tide, stream, night), every half hour in a table with
 * the shut ones struck out, and what it rests on. Inks are those of `inlet.css`.
 */
export function drawInlet(inlet: InletTold, look: InletLook): string {
  const reasons = inlet.spells
    .filter(({ verdict }) => verdict !== "open")
    .map((spell) => `${spell.opens ?? "from midnight"}: ${spell.words}`);
  return (
    `<p class="inlet-answer"><b>${escapeHtml(inlet.answer)}</b> ${escapeHtml(inlet.head)}; ${escapeHtml(inlet.there)}.</p>` +
    drawInletStrip(inlet, look.widthPx) +
    `<ul class="inlet-reasons">${reasons.map((words) => `<li>${escapeHtml(words)}</li>`).join("")}</ul>` +
    table(inlet, look.widthPx < NARROW_PX) +
    paragraphs(inlet.notes, "note")
  );
}

/** `narrow`: why it is shut stands under the sea, and the wind is left to the reasons above. */
function table({ name, rows }: InletTold, narrow: boolean): string {
  const has = (key: "tide" | "keel" | "stream" | "sea" | "wind"): boolean => rows.some((row) => row[key] !== "");
  const columns = (
    [
      ["tide", "tide, m"],
      ["keel", "under keel, m"],
      ["stream", "stream, kn"],
      ["sea", "sea on the bar"],
      ["wind", "wind against ebb, kn²"],
    ] as const
  ).filter(([key]) => has(key) && !(narrow && key === "wind"));
  const heads = columns.map(([, words]) => `<th scope="col" class="right">${words}</th>`).join("");
  const body = rows.map((row) => {
    const cells = columns.map(([key]) => `<td class="right nowrap">${escapeHtml(row[key])}</td>`).join("");
    const last = narrow ? "" : `<td>${why(row)}</td>`;
    const under =
      narrow && row.why !== "" ? `<tr class="is-under"><td colspan="${columns.length + 1}" class="right">${why(row)}</td></tr>` : "";
    return `<tr class="${classes(`is-${row.verdict}`, row.night && "is-night")}"><th scope="row">${time(row)}</th>${cells}${last}</tr>${under}`;
  });
  const lastHead = narrow ? "" : `<th scope="col">shut by</th>`;
  return (
    `<table class="plain inlet"><caption>${escapeHtml(name)}: every half hour</caption><thead><tr><th scope="col">time</th>${heads}` +
    `${lastHead}</tr></thead><tbody>${body.join("")}</tbody></table>`
  );
}

function time({ clock, verdict, night }: Row): string {
  const words = escapeHtml(clock);
  const struck =
    verdict === "shut"
      ? `<s>${words}</s>${unseen(" shut")}`
      : verdict === "notJudged"
        ? `${words}<b class="doubt">?</b>${unseen(" not judged")}`
        : words;
  return night ? `${struck}${unseen(" by night")}` : struck;
}

function why({ verdict, why: words }: Row): string {
  return verdict === "open" ? "open" : escapeHtml(words);
}
