import type { BoatAssumption } from "../core/boat/index.ts";
import { boatAssumptions, CALLED_BEFORE_SECONDS, HEAD_SEA_METRES, HEAD_SEA_SECONDS, LEAST_SLEEP_SECONDS } from "../core/boat/index.ts";
import type { StatedDepth } from "../core/places/index.ts";
import type { Prepared } from "../core/plan/index.ts";
import { BLEW_BEFORE_SECONDS, OPEN_FETCH_METRES, SEA_HALVES_IN_SECONDS } from "../core/sea/index.ts";
import { nmFromMetres } from "../core/units/index.ts";
import { FELT_BY_CURRENT, FELT_OF_SEA, type Felt, OVERHEAD_SUN_DEG } from "../core/window/index.ts";
import { datumOfTide, entranceAssumptions } from "./say-inlet.ts";
import { knots, wholeKnots } from "./say-quantity.ts";
import { streamsAssumedInWords } from "./say-streams.ts";
import { fullTime } from "./say-time.ts";

/** Each source of water and weather in a line: what it is, when issued, how far it reaches. */
export function sourcesInWords(prepared: Prepared): readonly string[] {
  const zone = prepared.passage.shipZone;
  const issued = (at: number | null): string => (at === null ? "no issue time" : `issued ${fullTime(at, zone)}`);
  const until = (covers: { readonly until: number } | null): string => (covers === null ? "" : `, until ${fullTime(covers.until, zone)}`);
  return [
    ...prepared.currents.map(
      (source) =>
        `Water: ${source.name}, ${isOfAllTimes(source) ? "reckoned for any time" : issued(source.issuedAt)}${until(source.covers)}${source.heldSteady ? "; held steady for want of more steps" : ""}`,
    ),
    ...prepared.winds.map(
      (source) =>
        `Wind: ${source.name}, ${issued(source.issuedAt)}${until(source.covers)}${source.memberCount > 1 ? `; ${source.memberCount} forecasts` : ""}`,
    ),
    ...prepared.seas.map((source) => `Sea: ${source.name}, ${issued(source.issuedAt)}${until(source.covers)}`),
    ...(prepared.seas.length === 0 ? [`Sea: no source; the wind's own is reckoned, ${swellInWords(prepared)}`] : []),
    ...besideInWords(prepared),
  ];
}

function swellInWords({ passage }: Prepared): string {
  const { swell = null } = passage;
  if (swell === null) return "what swell there is isn't known";
  return swell === "none" ? "no swell, as stated" : `a swell of ${swell.heightMetres.toFixed(1)} m at ${swell.periodSeconds} s as stated`;
}

/** A current that is reckoned and not forecast, as a tidal stream. */
function isOfAllTimes({ covers, issuedAt, heldSteady }: Prepared["currents"][number]): boolean {
  return covers === null && issuedAt === null && !heldSteady;
}

/** Visibility and thunderstorms: until when they are told, or that no source tells of them; and the depths, which stand in the file. */
function besideInWords({ passage, weather }: Prepared): readonly string[] {
  const zone = passage.shipZone;
  const known = [
    { name: "Visibility", source: weather.visibility ?? null },
    { name: "Thunderstorms", source: weather.thunderstorms ?? null },
  ];
  const depths = passage.depths ?? [];
  const wanting = [...known.filter(({ source }) => source === null).map(({ name }) => name), ...(depths.length === 0 ? ["Depth"] : [])];
  const list = wanting.map((name, i) => (i === 0 ? name : name.toLowerCase())).join(", ");
  return [
    ...known.flatMap(({ name, source }) =>
      source === null ? [] : [`${name}: ${source.name}, until ${fullTime(source.covers.until, zone)}`],
    ),
    ...(wanting.length === 0 ? [] : [`${list}: no source; not judged`]),
    ...depths.map(depthInWords),
  ];
}

/** A shallow and what it is reckoned with. */
function depthInWords({ name, depthMetres, datum, tideAboveChartDatumMetres, tide: computed, along, wavesMetres }: StatedDepth): string {
  if (datum === "unknown") return `Depth: ${name}, ${depthMetres.toFixed(1)} m from an unknown datum; not judged`;
  const tide =
    computed != null
      ? `and the tide of ${computed} as computed, ${along == null ? "the lowest while she is on that leg" : "when she comes by"}`
      : tideAboveChartDatumMetres === null
        ? "at chart datum, the tide not reckoned"
        : `with ${tideAboveChartDatumMetres.toFixed(1)} m of tide as stated, not reckoned`;
  const waves = wavesMetres === null ? "the significant height" : `${wavesMetres.toFixed(1)} m`;
  return `Depth: ${name}, ${depthMetres.toFixed(1)} m ${tide}, less ${waves} for the waves`;
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
    ...boatAssumptions(passage.boat).map((one) => boatAssumptionInWords(one, (passage.boat.headSeaLossShare ?? 0) > 0)),
    ...(prepared.trialOf(0).crossing.boat.dependsOnWind
      ? [
          "The boat is run in the middle of each range of wind and direction, and where winds overlap or shift at a stroke in the first; a wind that may come from half the circle or more has no direction: it gives the sails no drive and is taken to blow from dead ahead.",
        ]
      : []),
    water,
    ...streamsAssumedInWords(prepared),
    ...landInWords(prepared),
    ...limitsInWords(prepared),
    ...(passage.gates ?? []).flatMap((gate) => entranceAssumptions(gate, datumOfTide(prepared)).map((said) => `${gate.name}. ${said}`)),
    `Where a source gives no gust it is taken as ${passage.gustFactor} times the wind.`,
    ...(passage.pilotageOut === null && passage.pilotageIn === null
      ? []
      : ["In harbour the fixed track is run at its stated speed over the ground; the current there is not reckoned."]),
  ];
}

/** What stands behind the limits that are set. */
function limitsInWords(prepared: Prepared): readonly string[] {
  const { passage } = prepared;
  const { crew, limits, power } = { ...passage, power: passage.boat.power };
  const isSet = (felt: Felt): boolean => limits.some((limit) => limit.felt === felt);
  const sentences: string[] = [];
  if (isSet("sunOffBowDeg") || isSet("eyeballSunAltitudeDeg")) {
    sentences.push(
      `How well the water can be read by eye is judged by the sun alone: cloud is not known. A sun above ${OVERHEAD_SUN_DEG}° is overhead and blinds on no course (common practice).`,
    );
  }
  if ([...FELT_OF_SEA].some(isSet)) {
    sentences.push(
      `Where no source gives a sea the wind's own is reckoned, ${swellInWords(prepared)}: the upper end of its range, steepness and period too, and the longest fetch of its arc, to the coastline (${Math.round(nmFromMetres(OPEN_FETCH_METRES))} nm where no land is found, or none is known), in deep water, growing hour by hour; its first wind is taken to have blown for ${BLEW_BEFORE_SECONDS / 3600} h before. Every forecast and every crossing that is tried meets that sea of the first forecast. What a dropped or turned wind leaves halves every ${SEA_HALVES_IN_SECONDS / 3600} h (common practice).`,
    );
  }
  if ([...FELT_OF_SEA].some((felt) => FELT_BY_CURRENT.has(felt) && isSet(felt))) {
    sentences.push(
      "Seas on the stream, in deep water: where a source tells swell and wind sea apart each runs onto it its own way; else its one height and period are taken as one system, and where it does not say where that comes from as running dead against the set. They are taken as not yet having the current in them, with the period as given; under 0.2 m they are passed over (common practice). A wind sea is also told as grown on the stream itself by the wind over the water, and the worse counts. A forecast's sea is taken to hold what earlier winds left. A short wind sea under a long swell can break where both taken as one do not: `athwart wave` tells each.",
    );
  }
  if (isSet("fuelLeftLitres") && power !== null) sentences.push("In harbour the engine is taken to burn as at the cruising speed.");
  if (isSet("awakeSeconds") && crew != null) {
    const { watchkeepers, sleptOffWatchShare } = crew;
    const watches =
      watchkeepers === 1 ? "alone, nobody sleeps underway" : `${Math.round(100 * sleptOffWatchShare)} % of the time off watch is slept`;
    sentences.push(
      `Hours awake: ${watches}; before a night's departure the crew is called ${CALLED_BEFORE_SECONDS / 3600} h ahead, and a sleep of less than ${LEAST_SLEEP_SECONDS / 3600} h counts for nothing (common practice).`,
    );
  }
  return sentences;
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

function boatAssumptionInWords(one: BoatAssumption, hasSeaLoss: boolean): string {
  switch (one.kind) {
    case "speedEstimatedFromWaterline":
      return `The boat's speed is an estimate: ${knots(one.speedMps)}, ${Math.round(one.cruiseShare * 100)} % of the hull speed from the waterline.`;
    case "burnNotGiven":
      return "No burn is given: fuel is not reckoned.";
    case "burnScaledByCubeLaw":
      return `The burn is scaled by the cube of the speed, from ${one.measuredLitresPerHour.toFixed(1)} L/h at ${knots(one.measuredAtMps)} to ${one.burnLitresPerHour.toFixed(1)} L/h.`;
    case "headwindLossNotReckoned":
      return hasSeaLoss ? "No loss of speed into the wind is reckoned." : "No loss of speed into wind or sea is reckoned.";
    case "headwindLossWithSquareOfWindAhead":
      return `Speed lost to wind ahead goes with its square: ${Math.round(one.lossShare * 100)} % at ${wholeKnots(one.atWindMps)}.${hasSeaLoss ? "" : " No loss into the sea is reckoned."}`;
    case "headSeaLossNotReckoned":
      return "No loss of speed into the sea is reckoned.";
    case "headSeaLoss":
      return `Speed lost to head seas: ${Math.round(one.lossShare * 100)} % into ${HEAD_SEA_METRES} m at ${HEAD_SEA_SECONDS} s from dead ahead, as stated; in others by the square of the height over that of the wave's length and ${one.ridesOverMetres.toFixed(0)} m together${one.waterlineKnown ? " (twice the waterline)" : " (the waterline isn't stated)"}, by the cosine off the bow, each system as it stands on the stream. Nothing is lost abaft the beam, where no sea is known, or to a swell that isn't known.`;
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
  "A planning aid; not for navigation. Check official charts, notices and forecasts. Local rules and the skipper's own judgement come first. Clearing rules change: ask the authorities.";
