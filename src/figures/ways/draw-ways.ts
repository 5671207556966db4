import type { WayTold } from "../../api/index.ts";
import { verdictWord } from "../board/say-line.ts";
import { classes, escapeHtml, unseen } from "../html/escape.ts";
import { drawWaySample } from "./way-line.ts";

/** How the ways are set: `compact` puts miles off the line and the verdict under the name. */
export interface WaysLook {
  readonly compact: boolean;
}

/**
 * The ways across side by side: letter and a sample of the line that stand on the figure too, what each takes and costs, how far off the
 * line it goes, its verdict, and what comes of it with less and more stream. A way that does not arrive says why.
 */
export function drawWays(ways: readonly WayTold[], look: WaysLook): string {
  if (ways.length === 0) return `<p class="quiet">No way was tried.</p>`;
  const factors = [...new Set(ways.flatMap((way) => way.otherwise.map((one) => one.streamFactor)))].sort((a, b) => a - b);
  const withFuel = ways.some((way) => way.fuel !== "");
  const heads = [
    `<th scope="col" class="sample">${unseen("line")}</th>`,
    `<th scope="col">way</th>`,
    ...(look.compact
      ? [`<th scope="col" class="right">takes, costs</th>`]
      : [
          `<th scope="col" class="right">takes</th>`,
          `<th scope="col" class="right">costs</th>`,
          `<th scope="col" class="right">up, nm</th>`,
          `<th scope="col" class="right">down, nm</th>`,
          ...(withFuel ? [`<th scope="col" class="right">fuel</th>`] : []),
          `<th scope="col" class="verdict">by its limits</th>`,
        ]),
  ];
  const rows = ways.map((way) => (way.arrives ? arriving(way, look, withFuel) : failing(way, look, heads.length)));
  return `<table class="plain ways${look.compact ? " is-compact" : ""}"><thead><tr>${heads.join("")}</tr></thead><tbody>${rows.join("")}</tbody></table>${otherwise(ways, factors)}`;
}

function nameCell(way: WayTold, below: readonly string[], span = 1): string {
  const role = { order: ", the order", yardstick: ", a yardstick", other: "" }[way.role];
  const lines = below.filter((words) => words !== "").map((words) => `<span class="below">${escapeHtml(words)}</span>`);
  return `<th scope="row"${span === 1 ? "" : ` colspan="${span}"`}><span class="way-name">${escapeHtml(way.name)}</span>${role}${lines.join("")}</th>`;
}

function sampleCell(way: WayTold): string {
  return `<td class="sample">${drawWaySample(way)}<b class="letter">${escapeHtml(way.letter)}</b></td>`;
}

function arriving(way: WayTold, look: WaysLook, withFuel: boolean): string {
  const offLine = [way.up === "" ? "" : `${way.up} up`, way.down === "" ? "" : `${way.down} down`]
    .filter((words) => words !== "")
    .join(", ");
  const right = (text: string): string => `<td class="right nowrap">${escapeHtml(text)}</td>`;
  const both = `<td class="right nowrap">${escapeHtml(way.takes)}<span class="below">${escapeHtml(way.costs)}</span></td>`;
  const offAndVerdict = [offLine === "" ? "" : `${offLine}, nm off the line`, verdictOf(way)].filter((words) => words !== "").join("; ");
  const below = look.compact ? [way.orders, offAndVerdict] : [way.orders];
  const more =
    right(way.up) + right(way.down) + (withFuel ? right(way.fuel) : "") + `<td class="verdict">${escapeHtml(verdictOf(way))}</td>`;
  return `<tr class="${classes(`role-${way.role}`)}">${sampleCell(way)}${nameCell(way, below)}${look.compact ? both : right(way.takes) + right(way.costs) + more}</tr>`;
}

function failing(way: WayTold, look: WaysLook, columnCount: number): string {
  const why = way.why === null || way.why === "" ? "does not arrive" : `does not arrive: ${way.why}`;
  if (look.compact) return `<tr class="fails">${sampleCell(way)}${nameCell(way, [way.orders, why], columnCount - 1)}</tr>`;
  return `<tr class="fails">${sampleCell(way)}${nameCell(way, [way.orders])}<td class="why" colspan="${columnCount - 2}">${escapeHtml(why)}</td></tr>`;
}

function verdictOf(way: WayTold): string {
  if (way.verdictWords !== "") return way.verdictWords;
  return way.verdict === null ? "" : verdictWord(way.verdict);
}

/** What comes of each order with less and more stream: a table of its own, since the words need the room. */
function otherwise(ways: readonly WayTold[], factors: readonly number[]): string {
  const told = ways.filter((way) => way.otherwise.length > 0);
  if (told.length === 0) return "";
  const heads = factors.map((factor) => `<th scope="col">stream at ${factor}</th>`).join("");
  const rows = told.map((way) => {
    const cells = factors.map((factor) => `<td>${escapeHtml(way.otherwise.find((one) => one.streamFactor === factor)?.words ?? "")}</td>`);
    return `<tr class="role-${way.role}"><th scope="row"><b class="letter">${escapeHtml(way.letter)}</b> ${escapeHtml(way.name)}</th>${cells.join("")}</tr>`;
  });
  return `<table class="plain otherwise"><caption>If the stream is not as foretold</caption><thead><tr><th scope="col">order held</th>${heads}</tr></thead><tbody>${rows.join("")}</tbody></table>`;
}
