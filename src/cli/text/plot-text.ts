import { alongOf, offOf, rateAtNode, type WayArrives, whereAlong } from "../../core/passage/index.ts";
import type { CrossAnswer } from "../../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../../core/units/index.ts";
import { clock } from "../../words/index.ts";
import { cell } from "./wrap.ts";

const ROWS = 12;
const COLUMNS = 45;

/**
 * A small plot of a way across the stream: down the page the miles across with the time, to the right the side toward which the stream
 * sets; `●` the boat's path, `┊` the straight line, and the rate at the right.
 */
export function plotText(answer: CrossAnswer, way: WayArrives): string {
  const { line } = answer.prepared;
  const zone = answer.prepared.passage.shipZone;
  const side = answer.stream?.downStreamSide ?? 1;
  const { track } = way;
  let least = 0;
  let most = 0;
  for (let i = 0; i < track.count; i++) {
    const off = offOf(line, track.xMetres[i] as number, track.yMetres[i] as number) * side;
    least = Math.min(least, off);
    most = Math.max(most, off);
  }
  const span = Math.max(most - least, 1852);
  const columnOf = (off: number): number => Math.round(((off - least) / span) * (COLUMNS - 1));
  const lines = [`across   at    ${cell("up-stream", COLUMNS / 2 - 2)}${cell("down-stream", COLUMNS / 2 + 2, "right")}   off   rate`];
  for (let k = 0; k <= ROWS; k++) {
    const alongMetres = (line.lengthMetres * k) / ROWS;
    const there = whereAlong(
      track,
      line,
      Math.min(alongMetres, alongOf(line, track.xMetres[track.count - 1] as number, track.yMetres[track.count - 1] as number)),
    );
    if (there === null) continue;
    const off = there.offMetres * side;
    const strip = Array.from({ length: COLUMNS }, () => " ");
    strip[columnOf(0)] = "┊";
    strip[columnOf(off)] = "●";
    let node = 0;
    while (node + 1 < track.count && (track.atSeconds[node + 1] as number) <= there.at) node++;
    const offNm = nmFromMetres(off);
    const offText = Math.abs(offNm) < 0.05 ? "0.0" : offNm.toFixed(1).replace("-", "−");
    lines.push(
      `${cell(nmFromMetres(alongMetres).toFixed(1), 6, "right")}  ${clock(there.at, zone)} ${strip.join("")} ${cell(offText, 6, "right")} ${cell(knotsFromMps(rateAtNode(track, node)).toFixed(1), 6, "right")}`,
    );
  }
  return lines.join("\n");
}
