import { formatInstant } from "../../core/calendar/index.ts";
import { type EpochSeconds, knotsFromMps } from "../../core/units/index.ts";
import type { Letter, LetterLine } from "../../formats/bulletin/index.ts";
import { cell, WIDTH, wrap } from "./wrap.ts";

type ForecastLine = Extract<LetterLine, { readAs: "forecast" }>;

/** A letter's periods as they were read, a line each, in the letter's own zone and order: to be held against its lines. */
export function letterTable(letter: Letter): readonly string[] {
  const forecasts = letter.lines.filter((line): line is ForecastLine => line.readAs === "forecast");
  const rows = forecasts.map((line) => {
    const period = line.wind ?? line.sea;
    const at = (instant: EpochSeconds | undefined): string => (instant === undefined ? "" : dayAndTime(instant, letter.zone));
    return row(String(line.number), at(period?.from), at(period?.until), ...windWords(line.wind), seaWords(line.sea));
  });
  const head = `As read, times ${letter.zone}, winds in knots from where they come (degrees true), seas in metres:`;
  return [wrap(head, WIDTH, "    ", "  "), row("line", "from", "until", "wind", "gust", "sea"), ...rows];
}

function row(line: string, from: string, until: string, wind: string, gust: string, sea: string): string {
  return `    ${cell(line, 4, "right")}  ${cell(from, 16)}${cell(until, 16)}${cell(wind, 15)}${cell(gust, 5)}${sea}`.trimEnd();
}

/** `Thu 8 Apr 0600`, as letters write it. */
function dayAndTime(at: EpochSeconds, zone: string): string {
  const { weekdayShort, date, monthShort, time } = formatInstant(at, zone);
  return `${weekdayShort} ${date.day} ${monthShort} ${time.replace(":", "")}`;
}

/** `000-045 15-20` and the gust: where it comes from, degrees true, clockwise. */
function windWords(wind: ForecastLine["wind"]): [wind: string, gust: string] {
  if (wind === null) return ["-", ""];
  const knots = (mps: number): string => String(Math.round(knotsFromMps(mps)));
  const speed = range(knots(wind.speedLowMps), knots(wind.speedHighMps));
  const degrees = (deg: number): string => String(Math.round(deg) % 360).padStart(3, "0");
  const direction = range(degrees(wind.fromDegTrue), degrees(wind.fromDegTrue + wind.arcDeg));
  const from = wind.arcDeg >= 360 ? "variable" : direction;
  if (wind.speedHighMps === 0) return ["calm", ""];
  return [`${from} ${speed}`, wind.gustMps === null ? "-" : knots(wind.gustMps)];
}

/** `0.6-0.9 @ 9 s`. */
function seaWords(sea: ForecastLine["sea"]): string {
  if (sea === null) return "-";
  const height = range(sea.heightLowMetres.toFixed(1), sea.heightHighMetres.toFixed(1));
  if (sea.periodLowSeconds === null || sea.periodHighSeconds === null) return height;
  return `${height} @ ${range(String(sea.periodLowSeconds), String(sea.periodHighSeconds))} s`;
}

const range = (low: string, high: string): string => (low === high ? low : `${low}-${high}`);
