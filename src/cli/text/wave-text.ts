import type { WaveAnswer } from "../../api/index.ts";
import { meaningOf } from "../../core/answers/index.ts";
import {
  BREAKING_STEEPNESS,
  beaufortOf,
  COASTAL_MANUAL_GROWTH,
  SEA_HALVES_IN_SECONDS,
  SHORE_MANUAL_GROWTH,
  STEEP_STEEPNESS,
  seaStateOf,
} from "../../core/sea/index.ts";
import {
  alongInWords,
  duration,
  edgeInWords,
  encounterInWords,
  feelInWords,
  grownInWords,
  miles,
  onCurrentInWords,
  shipNoteInWords,
  steepnessInWords,
  swellInWords,
  threeFigures,
  waveHeight,
  wavePeriod,
  waveSystemInWords,
  wholeKnots,
} from "../../words/index.ts";
import { wrap } from "./wrap.ts";

type Told = WaveAnswer["systems"][number];

/** Waves on a current as text: a sentence for each system, its figures, the height together, and what it all rests on. */
export function waveText(answer: WaveAnswer): string {
  const parts: string[] = [];
  if (answer.why !== null) {
    const { meaning, whatToDo } = meaningOf(answer.why);
    return `${wrap(`${meaning} ${whatToDo}`)}\n`;
  }
  if (answer.wind !== null) parts.push(wrap(windInWords(answer.wind)));
  for (const one of answer.systems) parts.push(systemText(one, answer));
  if (answer.systems.length === 0) parts.push("No sea.");
  if (answer.systems.length > 1 || answer.systems.some((one) => one.growing !== null)) {
    const { words } = seaStateOf(answer.togetherMetres);
    parts.push(wrap(`Height together, by squares: ${waveHeight(answer.togetherMetres)}, ${words}. Steepness is each one's own.`));
  }
  parts.push(wrap(assumptionsInWords(answer)));
  parts.push(wrap("A planning aid; not for navigation. Forecasts, charts and what you see come first."));
  return `${parts.join("\n\n")}\n`;
}

function systemText(one: Told, answer: WaveAnswer): string {
  const { meeting, growing, edge, met } = one;
  const where = alongInWords(meeting.alongWaveMps, answer.currentRateMps);
  const named = waveSystemInWords(one.name, one.wave);
  const head = `${named.charAt(0).toUpperCase()}${named.slice(1)}, ${where}: ${feelInWords(one)}.`;
  const still = `${waveHeight(one.wave.heightMetres)} on ${one.still.lengthMetres.toFixed(0)} m, ${steepnessInWords(one.wave.heightMetres / one.still.lengthMetres)}`;
  const isReckoned = one.name === "windSea" && answer.wind !== null;
  const called = one.name === "swell" ? `; ${swellInWords(one.wave.heightMetres, one.still.lengthMetres)}` : "";
  const rows: (readonly [string, string])[] = [
    [answer.heightGivenThere || answer.depthMetres === null || isReckoned ? "in still water" : "as given", `${still}${called}`],
  ];
  const counts = (governs: Told["governs"]): string => (growing !== null && one.governs === governs ? "; this counts" : "");
  const ran = growing === null ? (answer.currentRateMps === 0 ? "there" : "on the current") : "run into it";
  if (answer.currentRateMps > 0 || answer.depthMetres !== null) rows.push([ran, `${onCurrentInWords(meeting)}${counts("meeting")}`]);
  if (growing !== null) rows.push(["raised on it", `${grownInWords(growing)}${counts("growing")}`]);
  if (edge !== null) rows.push(["over its edge", edgeInWords(edge)]);
  if (met !== null) {
    rows.push(["she meets them", encounterInWords(met.encounter)]);
    if (met.shipNotes !== null) {
      const notes = met.shipNotes.map(shipNoteInWords);
      rows.push(["written for ships", notes.length === 0 ? "nothing to warn of" : notes.join("; ")]);
    }
  }
  return [wrap(head), ...rows.map(([name, text]) => wrap(text, 80, " ".repeat(21), `  ${name.padEnd(19)}`))].join("\n");
}

function windInWords(wind: NonNullable<WaveAnswer["wind"]>): string {
  const fetch = wind.fetchMetres === null ? "open water up-wind" : `${miles(wind.fetchMetres)} nm of fetch`;
  const time = wind.durationSeconds === null ? "blowing long enough" : `blowing for ${duration(wind.durationSeconds)}`;
  const blew = wind.droppedSeconds === null ? "raises" : `dropped ${duration(wind.droppedSeconds)} ago, has left`;
  const { raised, otherwise } = wind;
  const sea = raised.periodSeconds === null ? "no sea" : `${waveHeight(raised.heightMetres)} at ${wavePeriod(raised.periodSeconds)}`;
  const limit = {
    fetch: "held down by the fetch",
    duration: "held down by the time",
    full: "fully grown",
    depth: "held down by the depth",
  }[raised.limitedBy];
  const other =
    otherwise.periodSeconds === null || wind.droppedSeconds !== null
      ? ""
      : ` ${COASTAL_MANUAL_GROWTH.name} has ${waveHeight(otherwise.heightMetres)} at ${wavePeriod(otherwise.periodSeconds)}.`;
  return `Wind of ${wholeKnots(wind.windMps)} from ${threeFigures(wind.windFromDegTrue)}, force ${wind.beaufortForce} (some ${waveHeight(beaufortOf(wind.windMps).probableHeightMetres)} far from land), ${fetch}, ${time}, ${blew} ${sea} in still water, ${limit}, by the ${SHORE_MANUAL_GROWTH.name}.${other}`;
}

/** What the answer rests on that a skipper could dispute. */
function assumptionsInWords(answer: WaveAnswer): string {
  const given = answer.systems.some((one) => one.name !== "windSea" || answer.wind === null);
  const period =
    answer.periodGiven === "notSaid"
      ? "The period is taken as the peak's (--period-is); were it a mean the waves would be longer than told."
      : answer.periodGiven === "peak"
        ? ""
        : `The peak's period is taken as ${(answer.periodFactor ?? 1).toFixed(2)} times that given (spectrum of a growing sea, JONSWAP).`;
  const holds =
    answer.depthMetres === null
      ? "The water is taken as deep."
      : answer.heightGivenThere
        ? ""
        : "The height is taken as that of deep water outside; bending by the bottom is not reckoned.";
  const already =
    answer.currentRateMps === 0
      ? ""
      : answer.currentAlreadyIn
        ? "The height has the current in it; only the length changes."
        : "The height is taken to have no current in it (--current-in-it).";
  const dropped =
    answer.wind?.droppedSeconds == null
      ? ""
      : `A sea is taken to lose half its height in ${duration(SEA_HALVES_IN_SECONDS)} (common practice).`;
  const rules = `Steep from ${steepnessInWords(STEEP_STEEPNESS)} (common practice), breaking from ${steepnessInWords(BREAKING_STEEPNESS)} of significant height to length, or where the highest in a thousand waves, 1.86 times as high, reach 0.78 of the depth.`;
  const current =
    answer.currentRateMps === 0
      ? ""
      : "The current is taken to gather along the waves' way, which is the worst; near blocking a tenth of a knot decides, and no rate is known so well.";
  return [rules, ...(given ? [period, holds, already] : [holds]), dropped, current].filter((text) => text !== "").join(" ");
}
