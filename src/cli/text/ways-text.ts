import { OFF_PATH_NM, type ReAimTable, STREAM_FACTORS } from "../../core/passage/index.ts";
import { type ComparedWay, type CrossAnswer, forTheHelm, type SteeringCompass } from "../../core/plan/index.ts";
import { nmFromMetres } from "../../core/units/index.ts";
import {
  clock,
  costInWords,
  crossCheckedInWords,
  duration,
  miles,
  noAnswerInWords,
  signedDuration,
  tacksInWords,
  threeFigures,
  wayName,
} from "../../words/index.ts";
import { cell } from "./wrap.ts";

const OTHER_FACTORS = STREAM_FACTORS.filter((factor) => factor !== 1);
const NAME_WIDTH = 23;
/** The columns for the stream at other strengths: `+16 min 13.1d` fits, with room before it. */
const CHANGED_WIDTHS = [15, 14] as const;

/** The ways side by side: what each takes and costs, how far it strays, and what it does when the stream is not as foretold. */
export function waysText(answer: CrossAnswer): string {
  const zone = answer.prepared.passage.arrivalZone;
  const head = [
    `${cell("", NAME_WIDTH + 2)}${cell("open", 8)}${cell("strays, nm", 17, "right")}${cell("with the stream at", 27, "right")}`,
    `  ${cell("way", NAME_WIDTH)}${cell("water", 8)}${cell("costs", 8)}${cell("up", 5, "right")}${cell("down", 5, "right")}${OTHER_FACTORS.map((factor, k) => cell(String(factor), CHANGED_WIDTHS[k] ?? 0, "right")).join("")}`,
  ];
  const side = answer.stream?.downStreamSide ?? 1;
  return [...head, ...answer.ways.map((way) => wayLine(way, answer.advised?.name ?? null, zone, side)), ...bestLine(answer)].join("\n");
}

/** The yardstick under the ways; under sail the bound and its plan. */
export function bestLine({ fastest, ways, prepared }: CrossAnswer): string[] {
  if (fastest === null) return [];
  const name = cell(fastest.kind === "arrives" && fastest.underSail !== null ? "fastest under sail" : "the fastest there is", NAME_WIDTH);
  if (fastest.kind === "fails") return [`  ${name}${noAnswerInWords(fastest.why, prepared.passage.arrivalZone)}`];
  const earliest = Math.min(...ways.map(({ way }) => (way.kind === "arrives" ? way.arrivalAt : Number.POSITIVE_INFINITY)));
  const costOf = (arrivalAt: number): string => (arrivalAt <= earliest + 30 ? "best" : signedDuration(arrivalAt - earliest));
  const checked = crossCheckedInWords(fastest);
  const line = (what: string, arrivalAt: number, cost: string, said: string): string =>
    `  ${what}${cell(duration(arrivalAt - fastest.departAt), 8)}${cell(cost, 8)}  ${said}`;
  if (fastest.underSail === null) return [line(name, fastest.arrivalAt, costOf(fastest.arrivalAt), checked)];
  const { plan } = fastest.underSail;
  const bound = line(name, fastest.arrivalAt, "", `tacking free; ${checked}`);
  const planned = cell("its plan", NAME_WIDTH);
  if (plan.kind === "fails") return [bound, `  ${planned}${noAnswerInWords(plan.why, prepared.passage.arrivalZone)}`];
  return [bound, line(planned, plan.arrivalAt, costOf(plan.arrivalAt), `with ${tacksInWords(plan)}`)];
}

function wayLine({ way, costSeconds, otherwise }: ComparedWay, advised: string | null, zone: string, side: 1 | -1): string {
  const mark = way.name === advised ? "→ " : "  ";
  const name = cell(way.name === "acrossThenTurn" ? "across, then turn" : wayName(way.name), NAME_WIDTH);
  if (way.kind === "fails") return `${mark}${name}${noAnswerInWords(way.why, zone)}`;
  const takes = cell(duration(way.arrivalAt - way.departAt), 8);
  const cost = cell(costInWords(costSeconds), 8);
  const strayed = `${cell(miles(way.upStreamMetres), 5, "right")}${cell(miles(way.downStreamMetres), 5, "right")}`;
  const changed = otherwise.map(({ addedSeconds, carried }, k) => {
    const width = CHANGED_WIDTHS[k] ?? 0;
    if (addedSeconds === null) return cell("fails", width, "right");
    const off =
      carried.offAtClearMetres === null
        ? ""
        : ` ${miles(Math.abs(carried.offAtClearMetres))}${carried.offAtClearMetres * side >= 0 ? "d" : "u"}`;
    return cell(`${signedDuration(addedSeconds)}${off}`, width, "right");
  });
  return `${mark}${name}${takes}${cost}${strayed}${changed.join("")}`;
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
