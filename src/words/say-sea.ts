import {
  BREAKING_STEEPNESS,
  type BreakingBy,
  type Encounter,
  type JudgedSystem,
  type SeaGrownOnStream,
  type ShipNote,
  STEEP_STEEPNESS,
  swellWordsOf,
  type WaveOnCurrent,
  type WaveOverEdge,
  type WaveSystem,
} from "../core/sea/index.ts";
import { METRES_PER_FOOT } from "../core/units/index.ts";
import { knots, threeFigures, wholeKnots } from "./say-quantity.ts";

/** `0.9 m (3 ft)`; feet to a half under 10. */
export function waveHeight(metres: number): string {
  const feet = metres / METRES_PER_FOOT;
  const whole = feet < 10 ? Math.round(feet * 2) / 2 : Math.round(feet);
  return `${metres.toFixed(1)} m (${whole} ft)`;
}

/** `4.0 s`; `12 s` from ten on. */
export function wavePeriod(seconds: number): string {
  return `${seconds < 9.95 ? seconds.toFixed(1) : Math.round(seconds)} s`;
}

/** A steepness as sailors and builders write it, `1/34`; nothing of a sea without height. */
export function steepnessInWords(steepness: number): string {
  if (!(steepness > 0)) return "flat";
  return steepness >= 0.1 ? `1/${(1 / steepness).toFixed(1)}` : `1/${Math.round(1 / steepness)}`;
}

/** `a swell of 0.9 m (3 ft) at 10 s from 045`. */
export function waveSystemInWords(name: JudgedSystem["name"], wave: WaveSystem): string {
  const what = { asGiven: "waves", swell: "a swell", windSea: "a wind sea" }[name];
  return `${what} of ${waveHeight(wave.heightMetres)} at ${wavePeriod(wave.periodSeconds)} from ${threeFigures(wave.fromDegTrue)}`;
}

/** What forecasters call a swell: `a low swell of average length`. */
export function swellInWords(heightMetres: number, lengthMetres: number): string {
  const { height, length } = swellWordsOf(heightMetres, lengthMetres);
  return length === "average" ? `a ${height} swell of average length` : `a ${length}, ${height} swell`;
}

/** How the current runs to the waves: `against 3.0 kn of current`, `with 2.1 kn of it`, `across the current`, `in still water`. */
export function alongInWords(alongMps: number, rateMps: number): string {
  if (rateMps === 0) return "in still water";
  if (Math.abs(alongMps) < 0.05 * rateMps) return `across ${knots(rateMps)} of current`;
  return `${alongMps < 0 ? "against" : "with"} ${knots(Math.abs(alongMps))} of current`;
}

/** What a system comes to, in a sentence with its reason: the word first. */
export function feelInWords({ feel, comfort, meeting, growing, governs }: JudgedSystem): string {
  if (feel === "blocked" && meeting.kind === "blocked") {
    const under = meeting.blocksUnderSeconds;
    const stops = under === null ? "waves of every length in this depth" : `everything under ${wavePeriod(under)}`;
    return `blocked, so breaking: ${knots(-meeting.alongWaveMps)} against them stops ${stops}; they stand up and break where the current gathers, and don't get further`;
  }
  const uneasy = comfort === null || comfort === "easy" ? "" : `, and ${comfort} for a small boat`;
  const by = governs === "growing" && growing !== null ? growing.breakingBy : meeting.kind === "runs" ? meeting.breakingBy : [];
  if (feel === "breaking") return `breaking, for ${breakingInWords(by)}`;
  if (feel === "steep") return `steep, over ${steepnessInWords(STEEP_STEEPNESS)}${uneasy}`;
  return comfort === null || comfort === "easy" ? "harmless" : `not steep, but ${comfort} for a small boat`;
}

/** Why seas break. */
export function breakingInWords(by: readonly BreakingBy[]): string {
  const steep = `at ${steepnessInWords(BREAKING_STEEPNESS)} and more the highest in a thousand reach 1/7 of their length`;
  const shallow = "the highest in a thousand reach 0.78 of the depth";
  return by.map((one) => (one === "steepness" ? steep : shallow)).join(", and ");
}

/** What waves become on the current, beside still water. */
export function onCurrentInWords(sea: WaveOnCurrent): string {
  if (sea.kind === "blocked") return "blocked";
  const held = sea.breaking ? `; breaking holds them at ${waveHeight(sea.carriesHeightMetres)}` : "";
  const stands = sea.heightRatio > 20 ? "of any height, near blocking," : waveHeight(sea.heightMetres);
  const length = `on a length of ${sea.lengthMetres.toFixed(0)} m`;
  return sea.breaking ? `would be ${stands} ${length}${held}` : `${stands} ${length}, ${steepnessInWords(sea.steepness)}`;
}

/** What a sea raised on the stream is. */
export function grownInWords(sea: SeaGrownOnStream): string {
  if (sea.lengthMetres === null || sea.steepness === null) return "no sea";
  return `${waveHeight(sea.heightMetres)} on a length of ${sea.lengthMetres.toFixed(0)} m, ${steepnessInWords(sea.steepness)}, by ${wholeKnots(sea.relativeWindMps)} over the water`;
}

/** What the stream's edge does to waves that cross it aslant. */
export function edgeInWords(edge: WaveOverEdge): string {
  switch (edge.kind) {
    case "runs": {
      const bent = `${waveHeight(edge.heightMetres)} from ${threeFigures(edge.fromDegTrue)}, ${steepnessInWords(edge.steepness)}`;
      return edge.breaking ? `${bent}, breaking` : bent;
    }
    case "blocked":
      return "stopped at the edge and breaking there";
    case "turnedBack":
      return "turned back at the edge: little of them gets inside";
    case "runsAlong":
      return "they run along the edge";
  }
}

/** `every 4.5 s, from ahead`. */
export function encounterInWords({ periodSeconds, overtaking, sector, offBowDeg }: Encounter): string {
  const where = { head: "from ahead", beam: "abeam", following: "from astern" }[sector];
  const angle = `${where}, ${Math.round(offBowDeg)}° off the bow`;
  if (periodSeconds === null) return `never: she keeps with them, ${angle}`;
  return `every ${wavePeriod(periodSeconds)}, ${angle}${overtaking ? ", overtaking them" : ""}`;
}

/** A note of guidance that was written for ships. */
export function shipNoteInWords(note: ShipNote): string {
  switch (note.kind) {
    case "surf-riding":
      return `from ${knots(note.fromMps)} a wave may carry her off surfing`;
    case "successive-high-waves":
      return "high waves may catch her one after another";
    case "synchronous-rolling":
      return "she meets them in her own period of roll";
    case "parametric-rolling":
      return "rolling may build up of itself";
  }
}
