import type { ReAimTold } from "../../api/index.ts";
import { classes, escapeHtml, unseen } from "../html/escape.ts";

/** How the tables stand: side by side, or the stream as foretold first and the others folded under it. */
export interface ReAimLook {
  readonly blocks: "side" | "folded";
}

type Table = ReAimTold["tables"][number];

/**
 * Headings to the destination from where the boat finds herself: a table for each stream, miles across down the side, miles off the expected
 * path along the top, up-stream at the left. The order is vermilion and bold; a heavier rule stands at mid-stream.
 */
export function drawReAim(reAim: ReAimTold, look: ReAimLook): string {
  if (look.blocks === "side") return `<div class="re-aim">${reAim.tables.map((table) => drawTable(table, reAim, true)).join("")}</div>`;
  const foretold = reAim.tables.filter((table) => table.streamFactor === 1);
  const others = reAim.tables.filter((table) => table.streamFactor !== 1);
  const folded = others.map(
    (table) =>
      `<details class="re-aim-more"><summary>${escapeHtml(streamName(table.streamFactor))}</summary>${drawTable(table, reAim, false)}</details>`,
  );
  return `<div class="re-aim is-folded">${foretold.map((table) => drawTable(table, reAim, true)).join("")}${folded.join("")}</div>`;
}

function streamName(factor: number): string {
  return factor === 1 ? "Stream as foretold" : `Stream at ${factor}`;
}

function drawTable(table: Table, reAim: ReAimTold, named: boolean): string {
  const { offNm } = reAim;
  const name = named
    ? `<caption>${streamName(table.streamFactor)}</caption>`
    : `<caption class="unseen">${streamName(table.streamFactor)}</caption>`;
  const rows = table.rows.map((row, index) => {
    const before = table.rows[index - 1];
    const axis = reAim.axisAcrossNm;
    const midStream = before !== undefined && axis !== null && before.acrossNm < axis && axis <= row.acrossNm;
    const cells = offNm.map((off, column) => headingCell(row.headings[column] ?? null, reAim.order, off === 0));
    return `<tr class="${classes(midStream && "mid-stream")}"><th scope="row">${plain(row.acrossNm)}</th><td class="clock">${escapeHtml(row.clock)}</td>${cells.join("")}</tr>`;
  });
  const heads = offNm.map((off) => `<th scope="col" class="right">${plain(Math.abs(off))}${unseen(sideOf(off))}</th>`);
  return `<table class="plain re-aim-table">${name}<thead><tr aria-hidden="true"><td></td><td class="clock"></td>${sides(offNm)}</tr><tr><th scope="col">across</th><th scope="col" class="clock">at</th>${heads.join("")}</tr></thead><tbody>${rows.join("")}</tbody></table>`;
}

function headingCell(heading: string | null, order: string | null, expected: boolean): string {
  if (heading === null) return `<td class="right none">${unseen("none leads there")}<span aria-hidden="true">·</span></td>`;
  const isOrder = heading === order;
  const words = isOrder ? `<b class="order">${escapeHtml(heading)}</b>` : escapeHtml(heading);
  return `<td class="${classes("right", expected && "expected")}">${words}</td>`;
}

function sideOf(offNm: number): string {
  if (offNm === 0) return " on the expected path";
  return offNm < 0 ? " miles up-stream" : " miles down-stream";
}

/** A row over the columns: which side of the expected path they stand for. */
function sides(offNm: readonly number[]): string {
  const up = offNm.filter((off) => off < 0).length;
  const on = offNm.filter((off) => off === 0).length;
  const down = offNm.length - up - on;
  const over = (count: number, words: string): string => (count === 0 ? "" : `<td class="right side" colspan="${count}">${words}</td>`);
  return over(up, "up-stream") + over(on, "on") + over(down, "down-stream");
}

function plain(value: number): string {
  return String(Math.round(value * 10) / 10);
}
