import type { RefugesTold } from "../../api/index.ts";
import { classes, escapeHtml, unseen } from "../html/escape.ts";

/** How refuges are set: `compact` as a list for each hour, else as a table. */
export interface RefugesLook {
  readonly compact: boolean;
}

type Hour = RefugesTold["hours"][number];
type Cell = Hour["cells"][number];

/**
 * Where to run to, hour by hour. The soonest port that can be entered is bold and underlined; one that is reached but not to be entered
 * stands with its reason, and its time struck; one that is not judged has a question mark. In a list each hour shows the soonest, and the
 * others fold out.
 */
export function drawRefuges(refuges: RefugesTold, look: RefugesLook): string {
  if (refuges.hours.length === 0 || refuges.names.length === 0) return `<p class="quiet">No port of refuge is named in the passage.</p>`;
  return look.compact ? asList(refuges) : asTable(refuges);
}

function asTable(refuges: RefugesTold): string {
  const names = refuges.names.map((name) => `<th scope="col" class="right">${escapeHtml(name)}</th>`);
  const waits = waitsOf(refuges.hours);
  const rows = refuges.hours.map((hour, i) => {
    const cells = refuges.names.map((_, column) => {
      const cell = hour.cells[column];
      return `<td class="right${cell === undefined ? "" : ` is-${cell.state}`}">${cell === undefined ? "" : cellWords(cell)}</td>`;
    });
    const said = waits[i] ?? null;
    const wait = said === null ? "" : `<tr class="wait"><td></td><td colspan="${refuges.names.length + 1}">${escapeHtml(said)}</td></tr>`;
    return `<tr${said === null ? "" : ' class="has-wait"'}><th scope="row">${escapeHtml(hour.clock)}</th><td class="right across">${miles(hour)}</td>${cells.join("")}</tr>${wait}`;
  });
  return `<table class="plain refuges"><thead><tr><th scope="col">turn at</th><th scope="col" class="right across">across</th>${names.join("")}</tr></thead><tbody>${rows.join("")}</tbody></table>`;
}

function asList(refuges: RefugesTold): string {
  const waits = waitsOf(refuges.hours);
  const items = refuges.hours.map((hour, i) => `<li>${hourOfList(hour, refuges.names, waits[i] ?? null)}</li>`);
  return `<ol class="refuge-list">${items.join("")}</ol>`;
}

/** An hour: what to do stands, the soonest port or the wait; the other ports fold out. */
function hourOfList(hour: Hour, names: readonly string[], said: string | null): string {
  const ports = names.flatMap((name, column) => {
    const cell = hour.cells[column];
    return cell === undefined ? [] : [{ name, cell }];
  });
  const soonest = ports.find((port) => port.cell.soonest);
  const others = ports.filter((port) => port !== soonest);
  const reach = (port: { name: string; cell: Cell }): string =>
    `<span class="port">${escapeHtml(port.name)}</span><span class="reach">${cellWords(port.cell)}</span>`;
  const at = `<span class="at"><b>${escapeHtml(hour.clock)}</b> ${miles(hour)} nm</span>`;
  const first = soonest === undefined ? `<span class="port">none can be entered</span>` : reach(soonest);
  const wait = said === null ? "" : `<p class="wait">${escapeHtml(said)}</p>`;
  const items = others.map((port) => `<li class="is-${port.cell.state}">${reach(port)}</li>`);
  return `<details><summary>${at}${first}</summary><ul class="others">${items.join("")}</ul></details>${wait}`;
}

/** What to wait for, said once under the last of the hours that have it in common, with the first and the last of them. */
export function waitsOf(hours: readonly Hour[]): readonly (string | null)[] {
  let from = 0;
  return hours.map((hour, i) => {
    if (hours[i - 1]?.wait !== hour.wait) from = i;
    if (hour.wait === null || hours[i + 1]?.wait === hour.wait) return null;
    const first = hours[from]?.clock ?? hour.clock;
    return `${first === hour.clock ? hour.clock : `${first} to ${hour.clock}`}: ${hour.wait}`;
  });
}

function miles(hour: Hour): string {
  return String(Math.round(hour.acrossNm));
}

/** A cell's words: time of arrival and heading; reason and struck time; or why it is not reached. */
function cellWords(cell: Cell): string {
  const why = cell.why === null ? "" : escapeHtml(cell.why);
  const arrival = escapeHtml(cell.arrival ?? "");
  const steer = cell.steer === null ? "" : ` <span class="steer">${unseen("steer ")}${escapeHtml(cell.steer)}</span>`;
  if (cell.state === "none") return `<span class="quiet">${why === "" ? "not reached" : why}</span>`;
  if (cell.state === "struckOut") return `<span class="why">${why}</span>${unseen(" not to be entered, ")} <s>${arrival}</s>`;
  if (cell.state === "notJudged")
    return `${why === "" ? "" : `<span class="why">${why}</span> `}${arrival}<b class="doubt">?</b>${unseen(" not judged")}${steer}`;
  const time = cell.soonest ? `<b class="soonest">${arrival}</b>${unseen(" the soonest")}` : arrival;
  return `<span class="${classes("enter")}">${time}${steer}</span>`;
}

/** How the table is read: for a line under it. */
export function refugesKey(refuges: RefugesTold): string {
  return `Time of arrival if you turn for it then, and the heading by ${refuges.by}. Bold and underlined: the soonest that can be entered. Struck: reached, but not to be entered. With a question mark: not judged.`;
}
