import type { RefugeHour, RefugeRun, RefugesAnswer, SteeringCompass } from "../../core/plan/index.ts";
import {
  againstInWords,
  berthInWords,
  dayAndClock,
  duration,
  firstHeading,
  laterOrders,
  miles,
  portTime,
  position,
  soonestOf,
  waitInWords,
} from "../../words/index.ts";
import { cell, WIDTH, wrap } from "./wrap.ts";

const NAME_WIDTH = 31;
/** Where the column after the arrival begins: takes, fuel and berth, or why a refuge is struck out. */
const AFTER_ARRIVAL = 2 + NAME_WIDTH + 1 + 3 + 2 + 9 + 2;

/** The page: a block for each hour, the soonest that can be entered first, the struck-out ones with their reasons after. */
export function refugesText(answer: RefugesAnswer, compass: SteeringCompass): string {
  const head = `  ${cell("", NAME_WIDTH)} ${cell("steer  entrance", 16)}${cell("takes", 9)}${cell("fuel", 7)}`.trimEnd();
  return [head, ...answer.hours.map((hour) => hourText(answer, compass, hour))].join("\n\n");
}

function hourText(answer: RefugesAnswer, compass: SteeringCompass, hour: RefugeHour): string {
  const zone = answer.prepared.passage.shipZone;
  const burnt = hour.fuelUsedLitres === null ? "" : `${hour.fuelUsedLitres.toFixed(0)} L burnt`;
  const place = `${miles(hour.acrossMetres)} nm across   ${position(hour.where.latitudeDeg, hour.where.longitudeDeg)}`;
  const lines = [`${cell(`${dayAndClock(hour.at, zone)}   ${place}`, WIDTH - 12)}${cell(burnt, 12, "right")}`.trimEnd()];
  const [ranked = [], ...others] = hour.runs;
  for (const run of ranked) {
    lines.push(...runLines(answer, compass, run, run.refuge.name, run === soonestOf(hour)));
    for (const list of others) {
      const other = list.find((one) => one.refuge === run.refuge);
      if (other !== undefined) lines.push(...runLines(answer, compass, other, "  under sail alone", false));
    }
  }
  if (soonestOf(hour) === null) lines.push(wrap(waitInWords(hour, zone), WIDTH, "    ", "  "));
  return lines.join("\n");
}

function runLines(answer: RefugesAnswer, compass: SteeringCompass, run: RefugeRun, name: string, isSoonest: boolean): readonly string[] {
  const { prepared } = answer;
  const zone = prepared.passage.shipZone;
  const mark = isSoonest ? "→ " : { enter: "  ", struckOut: "– ", notJudged: "? " }[run.verdict];
  const there = run.run;
  const arrives = there.kind === "arrives";
  const heading = cell(firstHeading(prepared, compass, there) ?? (arrives ? "–" : ""), 3, "right");
  const arrival = cell(arrives ? dayAndClock(there.arrivalAt, zone) : "", 9);
  const before = `${mark}${cell(name, NAME_WIDTH)} ${heading}  ${arrival}  `;
  const after = " ".repeat(AFTER_ARRIVAL);
  const notes = [...laterOrders(prepared, compass, there)];
  const local = arrives ? portTime(run.refuge, there.arrivalAt, zone) : null;
  if (local !== null) notes.push(`${local} there`);
  const extra = notes.map((text) => wrap(text, WIDTH, after));
  if (run.verdict !== "enter") return [wrap(againstInWords(run, zone), WIDTH, after, before).trimEnd(), ...extra];
  const takes = cell(arrives ? duration(there.arrivalAt - there.departAt) : "", 9);
  const fuel = cell(run.fuelLeftLitres === null ? "" : `${run.fuelLeftLitres.toFixed(0)} L`, 7);
  return [`${before}${takes}${fuel}${berthInWords(run, zone)}`.trimEnd(), ...extra];
}
