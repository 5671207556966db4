import type { BoatAssumption } from "../core/boat/index.ts";
import { boatAssumptions } from "../core/boat/index.ts";
import type { Prepared } from "../core/plan/index.ts";
import { nmFromMetres } from "../core/units/index.ts";
import { knots, wholeKnots } from "./say-quantity.ts";
import { fullTime } from "./say-time.ts";

/** Each source of water and weather in a line: what it is, when issued, how far it reaches. */
export function sourcesInWords(prepared: Prepared): readonly string[] {
  const zone = prepared.passage.shipZone;
  const issued = (at: number | null): string => (at === null ? "no issue time" : `issued ${fullTime(at, zone)}`);
  const until = (covers: { readonly until: number } | null): string => (covers === null ? "" : `, until ${fullTime(covers.until, zone)}`);
  return [
    ...prepared.currents.map(
      (source) =>
        `Water: ${source.name}, ${issued(source.issuedAt)}${until(source.covers)}${source.heldSteady ? "; held steady for want of more steps" : ""}`,
    ),
    ...prepared.winds.map(
      (source) =>
        `Wind: ${source.name}, ${issued(source.issuedAt)}${until(source.covers)}${source.memberCount > 1 ? `; ${source.memberCount} forecasts` : ""}`,
    ),
    ...prepared.seas.map((source) => `Sea: ${source.name}, ${issued(source.issuedAt)}${until(source.covers)}`),
    ...(prepared.seas.length === 0 ? ["Sea: no source"] : []),
    "Thunderstorms, visibility, depth: no source; not judged",
  ];
}

/** What the answer rests on that a skipper could dispute, a sentence each. */
export function assumptionsInWords(prepared: Prepared): readonly string[] {
  const { passage } = prepared;
  const water = {
    refuse: "Where no source gives the current the passage is refused.",
    still: "Where no source gives the current the water is taken to be still, as the passage file says.",
    nearest: `Where no source gives the current the nearest known within ${passage.whereCurrentUnknown.kind === "nearest" ? nmFromMetres(passage.whereCurrentUnknown.withinMetres).toFixed(1) : ""} nm is taken, as the passage file says.`,
  }[passage.whereCurrentUnknown.kind];
  return [
    ...boatAssumptions(passage.boat).map(boatAssumptionInWords),
    ...(prepared.trialOf(0).crossing.boat.dependsOnWind
      ? [
          "The boat is run in the middle of each range of wind and direction, and where winds overlap or shift at a stroke in the first; a wind that may come from half the circle or more has no direction: it gives the sails no drive and is taken to blow from dead ahead.",
        ]
      : []),
    water,
    ...landInWords(prepared),
    `Where a source gives no gust it is taken as ${passage.gustFactor} times the wind.`,
    ...(passage.pilotageOut === null && passage.pilotageIn === null
      ? []
      : ["In harbour the fixed track is run at its stated speed over the ground; the current there is not reckoned."]),
  ];
}

/** Which land no way leads through, and that nothing is said of close approach. */
function landInWords({ land, passage }: Prepared): readonly string[] {
  if (land === null) return ["No land is reckoned: hold every way against the chart."];
  const { coast } = land;
  const own = land.files.length === 0 ? "" : `the areas in ${land.files.join(" and ")}`;
  const world =
    coast === null
      ? ""
      : `the world's coastline (${coast.name}, of ${coast.madeOn}, half of it within ${coast.medianErrorMetres} m and nine tenths within ${coast.ninetiethErrorMetres} m of its own finest version; its surveys are older and may be out by more)`;
  const sources = [own, world].filter((one) => one !== "").join(" and ");
  const harbour = passage.pilotageOut === null && passage.pilotageIn === null ? "" : " Tracks in harbour are not held against it.";
  return [`No way leads through ${sources}: not for close approach; rocks and islets may be missing.${harbour}`];
}

function boatAssumptionInWords(one: BoatAssumption): string {
  switch (one.kind) {
    case "speedEstimatedFromWaterline":
      return `The boat's speed is an estimate: ${knots(one.speedMps)}, ${Math.round(one.cruiseShare * 100)} % of the hull speed from the waterline.`;
    case "burnNotGiven":
      return "No burn is given: fuel is not reckoned.";
    case "burnScaledByCubeLaw":
      return `The burn is scaled by the cube of the speed, from ${one.measuredLitresPerHour.toFixed(1)} L/h at ${knots(one.measuredAtMps)} to ${one.burnLitresPerHour.toFixed(1)} L/h.`;
    case "headwindLossNotReckoned":
      return "No loss of speed into wind or sea is reckoned.";
    case "headwindLossWithSquareOfWindAhead":
      return `Speed lost to wind ahead goes with its square: ${Math.round(one.lossShare * 100)} % at ${wholeKnots(one.atWindMps)}. No loss into the sea is reckoned.`;
    case "sailTableEdges":
      return `Under sail: closer than ${one.closestDeg}° no speed on one heading; below ${wholeKnots(one.lowestWindMps)} in proportion; above ${wholeKnots(one.highestWindMps)} no faster; wider than ${one.widestDeg}° what gybing makes good.`;
    case "leewayNotReckoned":
      return "No leeway is reckoned.";
    case "leewayFromEstimatedHeel":
      return `Leeway is reckoned from an estimated heel, at most ${one.capDeg}°.`;
    case "engineNeverUsed":
      return "The engine is never used.";
    case "engineByRule":
      return `The engine goes on below ${knots(one.onBelowMps)} under sail and off above ${knots(one.offAboveMps)}.`;
    case "motorSailing":
      return `Engine and sails are joined as (Vm^n + Vs^n)^(1/n) with n = ${one.exponent}, the sails drawing beyond ${one.headsailOnlyBeyondDeg}° apparent${one.hullSpeedMps === null ? "" : `, ${knots(one.hullSpeedMps)} at most`}.`;
  }
}

/** The words that stand under every answer. */
export const SAFETY_WORDS =
  "A planning aid; not for navigation. Check official charts, notices and forecasts. Local rules and the skipper's own judgement come first.";
