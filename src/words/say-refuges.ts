import type { HelmOrder, RunThere } from "../core/passage/index.ts";
import {
  DAYLIGHT_ALTITUDE_DEG,
  FUEL_KEPT_SHARE,
  forTheHelm,
  type Prepared,
  type RefugeHour,
  type RefugeRun,
  type RefugesAnswer,
  type RefugeToTry,
  type SteeringCompass,
  type StruckOut,
} from "../core/plan/index.ts";
import { noAnswerInWords } from "./say-limit.ts";
import { knots, miles, threeFigures, wholeKnots } from "./say-quantity.ts";
import { headingInWords, northInWords, wayName } from "./say-steering.ts";
import { clock, dayAndClock, duration, fullTime, zoneLabel } from "./say-time.ts";

/** The warning that goes with every port of refuge. */
export const REFUGE_WARNING =
  "Entrances change, lights fail and harbours fill: the official charts, notices and pilots and the local rules come first, and so does a call to the harbour. A bar may break on the ebb in less sea than is foretold here.";

/** Why a refuge is struck out for a boat that comes at `arrivalAt`: `dark; light 05:48, wait 4 h 16`, `sea 1.2 m, never above 0.8 m`. */
export function struckOutInWords(one: StruckOut, arrivalAt: number, zone: string): string {
  switch (one.kind) {
    case "dark": {
      const where = one.from === "berth" ? "dark before the berth" : "dark";
      if (one.firstLightAt === null) return `${where}; no light to come`;
      return `${where}; light ${clock(one.firstLightAt, zone)}, wait ${duration(one.firstLightAt - arrivalAt)}`;
    }
    case "wind":
      return `wind ${aboveInKnots(one.mps, one.neverMps)}`;
    case "gust":
      return `gusts ${aboveInKnots(one.mps, one.neverMps)}`;
    case "sea":
      return `sea ${aboveInMetres(one.metres, one.neverMetres)}`;
    case "depth":
      return one.underKeelMetres < 0
        ? `${(-one.underKeelMetres).toFixed(1)} m too shallow at chart datum`
        : `${one.underKeelMetres.toFixed(1)} m under the keel at chart datum, ${one.leastMetres.toFixed(1)} m wanted`;
    case "fuel":
      return one.leftLitres < 0
        ? `fuel short by ${(-one.leftLitres).toFixed(0)} L`
        : `${one.leftLitres.toFixed(0)} L of fuel left, ${one.keptLitres.toFixed(0)} L to be kept`;
    case "notJudged":
      return noAnswerInWords(one.why, zone);
  }
}

/** `36 kn, never above 34 kn`; to the tenth where whole figures would be the same. */
function aboveInKnots(mps: number, neverMps: number): string {
  const say = wholeKnots(mps) === wholeKnots(neverMps) ? knots : wholeKnots;
  return `${say(mps)}, never above ${say(neverMps)}`;
}

/** `1.2 m, never above 0.8 m`; to the hundredth where tenths would be the same. */
function aboveInMetres(metres: number, neverMetres: number): string {
  const decimals = metres.toFixed(1) === neverMetres.toFixed(1) ? 2 : 1;
  return `${metres.toFixed(decimals)} m, never above ${neverMetres.toFixed(decimals)} m`;
}

/** All that speaks against a refuge on arrival, or why there is no way to it. */
export function againstInWords({ run, struckOut }: RefugeRun, zone: string): string {
  if (run.kind === "fails") return noAnswerInWords(run.why, zone);
  const words = struckOut.map((one) => struckOutInWords(one, run.arrivalAt, zone)).join("; ");
  // A figure and its unit stay on one line.
  return words.replaceAll(/(\d) (kn|m|L)\b/g, "$1\u00a0$2");
}

/** What to steer first, in three figures by the helm's north; null where the way there is no heading. */
export function firstHeading(prepared: Prepared, compass: SteeringCompass, run: RunThere): string | null {
  const steer = run.kind === "arrives" ? run.orders[0]?.steer : undefined;
  if (steer?.kind !== "heading") return null;
  const helm = forTheHelm(prepared, compass, steer.headingDegTrue);
  return threeFigures(helm === null ? steer.headingDegTrue : helm.headingDegCompass);
}

/** The orders after the first, where one heading does not lead there: `from Thu 02:10 steer 305 compass`. */
export function laterOrders(prepared: Prepared, compass: SteeringCompass, run: RunThere): readonly string[] {
  if (run.kind === "fails") return [];
  const zone = prepared.passage.shipZone;
  const [, ...later] = run.orders;
  if (later.length === 0) return [];
  return [...(run.by === "fastest" ? ["no one heading leads there; turning:"] : []), ...laterWords(prepared, compass, later, zone)];
}

function laterWords(prepared: Prepared, compass: SteeringCompass, later: readonly HelmOrder[], zone: string): readonly string[] {
  return later.map((order) => `from ${dayAndClock(order.fromAt, zone)} ${steerWords(prepared, compass, order)}`);
}

function steerWords(prepared: Prepared, compass: SteeringCompass, { steer }: HelmOrder): string {
  if (steer.kind === "heading") return `steer ${headingInWords(prepared, compass, steer.headingDegTrue)}`;
  return steer.kind === "holdTrack" ? `hold the track ${threeFigures(steer.trackDegTrue)} true` : "keep the bow on the entrance";
}

/** The arrival by the clock kept at the refuge, where that is not ship's time: `04:20 UTC-7`; null where it is the same. */
export function portTime(refuge: RefugeToTry, at: number, shipZone: string): string | null {
  const zone = refuge.zone ?? shipZone;
  const label = zoneLabel(at, zone);
  return label === zoneLabel(at, shipZone) ? null : `${dayAndClock(at, zone)} ${label}`;
}

/** The soonest that can be entered from one place of the way; null where none can. */
export function soonestOf(hour: RefugeHour): RefugeRun | null {
  const first = hour.runs[0]?.[0];
  return first?.verdict === "enter" ? first : null;
}

/** The answer in a few sentences: where to run to and when, where nothing can be entered, until when to turn back. */
export function refugesInWords(answer: RefugesAnswer): readonly string[] {
  const { prepared, way, why } = answer;
  const zone = prepared.passage.shipZone;
  const leaving = `Leaving ${fullTime(answer.departAt, zone)}`;
  if (way === null) {
    return [`${leaving} no way arrives${why === null ? "" : `: ${noAnswerInWords(why, zone)}`}. There is no hour to say where to run to.`];
  }
  if (answer.running.length === 0) return ["Neither a speed under power nor under sail is stated: no refuge can be reached."];
  return [
    `${leaving} by the way “${wayName(way.name)}”. If it goes wrong: ${spellsInWords(answer).join("; ")}.`,
    ...barredInWords(answer),
    ...turnBackInWords(answer),
  ];
}

/** Where to run to in one sentence, hours with the same soonest refuge together: `From Tue 22:00 to Wed 01:00 run for Lantern Cove; …`. */
export function runsInWords(answer: RefugesAnswer): string {
  const spells = spellsInWords(answer).join("; ");
  return `${spells.charAt(0).toUpperCase()}${spells.slice(1)}.`;
}

/** What to do at the first hour from which none can be entered; nothing where there is no such hour. */
export function barredInWords({ hours, prepared }: RefugesAnswer): readonly string[] {
  const zone = prepared.passage.shipZone;
  const bare = hours.filter((hour) => soonestOf(hour) === null);
  const [first] = bare;
  return first === undefined ? [] : [waitInWords(first, zone)];
}

/** Neighbouring hours with the same soonest refuge, a phrase each. */
function spellsInWords({ hours, prepared }: RefugesAnswer): readonly string[] {
  const zone = prepared.passage.shipZone;
  const spells: { best: RefugeRun | null; from: number; until: number }[] = [];
  for (const hour of hours) {
    const best = soonestOf(hour);
    const last = spells.at(-1);
    if (last !== undefined && last.best?.refuge === best?.refuge) last.until = hour.at;
    else spells.push({ best, from: hour.at, until: hour.at });
  }
  return spells.map(({ best, from, until }) => {
    const when = from === until ? `at ${dayAndClock(from, zone)}` : `from ${dayAndClock(from, zone)} to ${dayAndClock(until, zone)}`;
    if (best === null) return `${when} none can be entered on arrival`;
    const verb = { listed: "run for", from: "turn back to", to: "go on to" }[best.refuge.role];
    return `${when} ${verb} ${best.refuge.name}`;
  });
}

/** Where to wait from an hour at which nothing can be entered on arrival. */
export function waitInWords(hour: RefugeHour, zone: string): string {
  return `${dayAndClock(hour.at, zone)}: ${waitingInWords(hour, zone)}`;
}

/** The same without the hour: what hours in a row may have in common. */
export function waitingInWords({ wait }: RefugeHour, zone: string): string {
  if (wait === null) {
    return "none opens within a day either, as far as is known: keep sea room, heave to where you are well off the land, and call for advice.";
  }
  const { refuge, arrivalAt, opensAt } = wait;
  return `none can be entered before ${dayAndClock(opensAt, zone)}. Make for ${refuge.name}, there ${dayAndClock(arrivalAt, zone)}; heave to or stand off with sea room for ${duration(opensAt - arrivalAt)}, and go in when it opens.`;
}

/** Until when turning back is quicker than going on; nothing where no way is left. */
export function turnBackInWords({ turnBack, way, prepared, hours }: RefugesAnswer): readonly string[] {
  if (turnBack === null || way === null) return [];
  const zone = prepared.passage.shipZone;
  const { from, to } = prepared.passage;
  if (turnBack.lastAt === null) {
    return [
      turnBack.thenWhy === null
        ? `Going on is quicker than turning back from the start.`
        : `Turning back: ${noAnswerInWords(turnBack.thenWhy, zone)}.`,
    ];
  }
  const until = `Turning back to ${from.name} is quicker than going on to ${to.name} until ${dayAndClock(turnBack.lastAt, zone)}`;
  const dark = backInTheDark(hours, turnBack.lastAt, zone);
  if (turnBack.thenWhy !== null) return [`${until}; after it there is no way back (${noAnswerInWords(turnBack.thenWhy, zone)}).${dark}`];
  const { line } = prepared;
  const across = (turnBack.xMetres - line.fromX) * line.alongX + (turnBack.yMetres - line.fromY) * line.alongY;
  return [`${until}, ${miles(across)} miles across, with ${duration(turnBack.onSeconds)} to either.${dark}`];
}

/** Of the hours at which turning back is quicker, those from which she would come back in the dark; empty where there is none. */
function backInTheDark(hours: readonly RefugeHour[], lastAt: number, zone: string): string {
  const dark = hours.filter(
    ({ at, runs }) =>
      at <= lastAt &&
      (runs[0] ?? []).some(({ refuge, struckOut }) => refuge.role === "from" && struckOut.some(({ kind }) => kind === "dark")),
  );
  const [first, last] = [dark[0], dark.at(-1)];
  if (first === undefined || last === undefined) return "";
  const when =
    first === last ? `at ${dayAndClock(first.at, zone)}` : `from ${dayAndClock(first.at, zone)} to ${dayAndClock(last.at, zone)}`;
  return ` Of the whole hours, turned back ${when} she comes there in the dark.`;
}

/** What is asked of each entrance, a line each: `Lantern Cove: by night too; 1.7 m under the keel at chart datum, 1 m wanted.` */
export function entrancesInWords({ refuges, prepared }: RefugesAnswer): readonly string[] {
  const draught = prepared.passage.boat.draughtMetres;
  return refuges.map((refuge) => {
    const { entrance, role, pilotageSeconds } = refuge;
    const parts: string[] = [];
    if (entrance.sunAboveDeg === null) parts.push("by night too");
    else
      parts.push(
        entrance.sunAboveDeg === DAYLIGHT_ALTITUDE_DEG ? "by daylight" : `sun above ${entrance.sunAboveDeg.toFixed(0).replace("-", "−")}°`,
      );
    const never = [
      ...(entrance.neverWindMps === null ? [] : [`wind ${wholeKnots(entrance.neverWindMps)}`]),
      ...(entrance.neverGustMps === null ? [] : [`gusts ${wholeKnots(entrance.neverGustMps)}`]),
      ...(entrance.neverSeaMetres === null ? [] : [`sea ${entrance.neverSeaMetres.toFixed(1)} m`]),
    ];
    if (never.length > 0) parts.push(`never above ${never.join(", ")}`);
    if (entrance.chartedDepthMetres !== null && draught !== null) {
      const left = (entrance.chartedDepthMetres - draught).toFixed(1).replace("-", "−");
      parts.push(`${left} m under the keel at chart datum, ${entrance.underKeelMetres.toFixed(1)} m wanted`);
    } else parts.push("depth not judged");
    if (role === "listed")
      parts.push(pilotageSeconds === null ? "the way to the berth not reckoned" : `${duration(pilotageSeconds)} to the berth`);
    const byLimits = role === "listed" ? "" : " (your limits)";
    return `${refuge.name}${byLimits}: ${parts.join("; ")}.${refuge.notes === null ? "" : ` ${refuge.notes}`}`;
  });
}

/** What the figures rest on, in sentences. */
export function refugeAssumptionsInWords({ prepared, running, refuges }: RefugesAnswer, compass: SteeringCompass): readonly string[] {
  const { boat } = prepared.passage;
  const usable = boat.power?.usableFuelLitres ?? null;
  const fuel =
    usable === null || boat.power?.burnLitresPerHour == null
      ? "Burn or usable fuel is not stated: fuel is not judged."
      : `Fuel is what is left of ${usable.toFixed(0)} L usable when the boat comes to the entrance, from the berth on; with less than ${Math.round(FUEL_KEPT_SHARE * 100)} % of it left a refuge is struck out (common practice).`;
  const depths = refuges.some((one) => one.entrance.chartedDepthMetres !== null)
    ? ["Depths are judged at chart datum, with no tide added, and without any allowance for swell."]
    : [];
  const daylight = refuges.some((one) => one.entrance.sunAboveDeg === DAYLIGHT_ALTITUDE_DEG)
    ? [`Daylight is the sun no lower than ${-DAYLIGHT_ALTITUDE_DEG}° below the horizon, from the entrance to the berth.`]
    : [];
  const speed = boat.goes === "power" && boat.power?.speedMps != null ? ` at ${knots(boat.power.speedMps)}` : "";
  const how = running.includes("withEngine")
    ? [`With the engine the boat goes${speed} as the passage file says.`]
    : ["The boat has no engine to run with: she runs under sail."];
  const sail = running.includes("underSail") ? [] : ["No speeds under sail are stated: without her engine she drifts."];
  return [
    `Headings are ${northInWords(compass)} and held all the way; where none leads there the fastest way is taken. Weather at the entrance is the control forecast's on arrival, the worse end of every range.`,
    ...how,
    ...sail,
    fuel,
    ...depths,
    ...daylight,
    `The drift of a boat that stands off is not reckoned.`,
  ];
}

/** The time at the berth: `berth 03:45`. */
export function berthInWords({ berthAt, refuge }: RefugeRun, zone: string): string {
  return berthAt === null || refuge.pilotageSeconds === null ? "" : `berth ${clock(berthAt, zone)}`;
}
