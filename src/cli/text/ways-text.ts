import { OFF_PATH_NM, type ReAimTable } from "../../core/passage/index.ts";
import { type ComparedWay, type CrossAnswer, forTheHelm, type SteeringCompass } from "../../core/plan/index.ts";
import { nmFromMetres } from "../../core/units/index.ts";
import { clock, duration, miles, noAnswerInWords, signedDuration, threeFigures, wayName } from "../../words/index.ts";
import { cell } from "./wrap.ts";

/** The ways side by side: what each takes and costs, how far it strays, and what it does when the stream is not as foretold. */
export function waysText(answer: CrossAnswer): string {
  const zone = answer.prepared.passage.arrivalZone;
  const head = [
    `${cell("", 51)}${cell("miles", 6, "right")}${cell("with the stream at", 23, "right")}`,
    `  ${cell("way", 27)}${cell("takes", 7, "right")}${cell("costs", 10, "right")}${cell("up", 6, "right")}${cell("down", 6, "right")}${cell("0.8", 11, "right")}${cell("1.25", 11, "right")}`,
  ];
  return [...head, ...answer.ways.map((way) => wayLine(way, answer.advised?.name ?? null, zone))].join("\n");
}

function wayLine({ way, costSeconds, otherwise }: ComparedWay, advised: string | null, zone: string): string {
  const mark = way.name === advised ? "→ " : "  ";
  const name = cell(wayName(way.name), 27);
  if (way.kind === "fails") return `${mark}${name}${noAnswerInWords(way.why, zone)}`;
  const takes = cell(duration(way.arrivalAt - way.departAt), 7, "right");
  const cost = cell(costSeconds !== null && costSeconds < 30 ? "best" : signedDuration(costSeconds ?? 0), 10, "right");
  const strayed = `${cell(miles(way.upStreamMetres), 6, "right")}${cell(miles(way.downStreamMetres), 6, "right")}`;
  const changed = otherwise.map(({ addedSeconds }) => cell(addedSeconds === null ? "fails" : signedDuration(addedSeconds), 11, "right"));
  return `${mark}${name}${takes}${cost}${strayed}${changed.join("")}`;
}

/** What the order comes to when the stream is not as foretold, with the miles off the line where it ends. */
export function offStrengthText(answer: CrossAnswer): string {
  const advised = answer.ways.find((one) => one.way.name === answer.advised?.name);
  if (advised === undefined) return "";
  const side = answer.stream?.downStreamSide ?? 1;
  return advised.otherwise
    .map(({ streamFactor, carried, addedSeconds }) => {
      if (carried.run.kind === "fails")
        return `With the stream at ${streamFactor} the order fails: ${noAnswerInWords(carried.run.why, answer.prepared.passage.shipZone)}.`;
      const off = carried.offAtClearMetres === null ? null : carried.offAtClearMetres * side;
      const where = off === null ? "" : ` you come clear ${miles(Math.abs(off))} miles ${off >= 0 ? "down" : "up"}-stream of the line and`;
      return `With the stream at ${streamFactor}${where} arrive ${(addedSeconds ?? 0) >= 0 ? `${duration(addedSeconds ?? 0)} later` : `${duration(-(addedSeconds ?? 0))} earlier`}.`;
    })
    .join(" ");
}

/** The re-aim tables beside each other: miles across down, miles off the expected path along, headings to steer. */
export function reAimText(answer: CrossAnswer, compass: SteeringCompass): string {
  const { prepared } = answer;
  const zone = prepared.passage.shipZone;
  const figure = (degTrue: number): string => {
    const helm = forTheHelm(prepared, compass, degTrue);
    return threeFigures(helm === null ? degTrue : helm.headingDegCompass);
  };
  const width = OFF_PATH_NM.length * 4;
  const title = (table: ReAimTable): string => cell(` stream × ${table.streamFactor}`, width);
  const offs = OFF_PATH_NM.map((nm) => cell(nm === 0 ? "on" : `${Math.abs(nm)}${nm < 0 ? "u" : "d"}`, 4, "right")).join("");
  const lines = [`             ${answer.reAim.map(title).join("  ")}`, ` across  at  ${answer.reAim.map(() => offs).join("  ")}`];
  const rows = answer.reAim[0]?.rows ?? [];
  rows.forEach((row, i) => {
    const cells = answer.reAim.map((table) =>
      (table.rows[i]?.cells ?? []).map((one) => cell(one === null ? "–" : figure(one.headingDegTrue), 4, "right")).join(""),
    );
    lines.push(
      `${cell(String(Math.round(nmFromMetres(row.acrossMetres) * 10) / 10), 5, "right")}  ${clock(row.at, zone)} ${cells.join("  ")}`,
    );
  });
  return lines.join("\n");
}
