import { isoDate } from "../core/calendar/index.ts";
import {
  type AnchorFault,
  type AnchorSum,
  GREATEST_LEAD_DEG,
  type LookAtAnchor,
  type NightAtAnchor,
  type NotJudged,
  type RodeForNight,
  type RodePull,
} from "../core/places/index.ts";
import { type NightAnswer, type NightsAnswer, secondsToInlet } from "../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import { nightInWords, whereToLieInWords } from "../words/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";

const metres = (value: number | null): number | null => (value === null ? null : rounded(value, 3));
const knots = (mps: number | null): number | null => (mps === null ? null : rounded(knotsFromMps(mps), 2));

/** The small sum at anchor as JSON, `athwart.anchor/1` of kind `sum`. */
export function anchorSumJson(sum: AnchorSum) {
  const { given, row } = sum;
  return {
    schema: "athwart.anchor/1" as const,
    kind: "sum" as const,
    given: {
      depthMetres: metres(given.depthMetres),
      riseMetres: metres(given.riseMetres),
      fallMetres: metres(given.fallMetres),
      bowHeightMetres: metres(given.bowHeightMetres),
      lengthOverallMetres: metres(given.lengthOverallMetres),
      beamMetres: metres(given.beamMetres),
      hull: given.hull,
      draughtMetres: metres(given.draughtMetres),
      rodeMetres: metres(given.rodeMetres),
      chainMetres: metres(given.chainMetres),
      chainDiameterMetres: rounded(given.chainDiameterMetres, 5),
      windKn: knots(given.windMps),
    },
    bottomToBowHighWaterMetres: metres(sum.highMetres),
    bottomToBowLowWaterMetres: metres(sum.lowMetres),
    scope: rounded(sum.scope, 3),
    scopeWanted: sum.scopeWanted,
    rodeForScopeMetres: metres(sum.rodeForScopeMetres),
    swingHighWaterMetres: metres(sum.swingHighMetres),
    swingLowWaterMetres: metres(sum.swingLowMetres),
    underKeelLowWaterMetres: metres(sum.underKeelMetres),
    loadTable: row === null ? null : { lengthFeet: row.lengthFeet, enteredBy: row.enteredBy },
    winds: sum.winds.map(({ windMps, loadNewtons, pull, levelMetres }) => ({
      windKn: knots(windMps),
      loadNewtons: rounded(loadNewtons, 1),
      ...pullJson(pull),
      levelWithMetres: metres(levelMetres),
    })),
    levelUpToKn: knots(sum.levelUpToMps),
    noSteeperThanEightDegUpToKn: knots(sum.holdsUpToMps),
  };
}

function pullJson(pull: RodePull) {
  const leads = pull.kind === "leads" ? pull : null;
  return {
    leadDeg: leads === null ? null : rounded(leads.leadDeg, 3),
    lyingMetres: metres(leads?.lyingMetres ?? null),
    bowNewtons: leads === null ? null : rounded(leads.bowNewtons, 1),
  };
}

/** The nights at anchor as JSON, `athwart.anchor/1` of kind `nights`. */
export function anchorNightsJson(answer: NightsAnswer) {
  return {
    schema: "athwart.anchor/1" as const,
    kind: "nights" as const,
    passage: { name: answer.prepared.passage.name, invented: answer.prepared.passage.invented },
    swellFromDegTrue: answer.swellFromDegTrue === null ? null : rounded(answer.swellFromDegTrue, 1),
    nights: answer.nights.map((night) => nightJson(answer, night)),
  };
}

function nightJson({ prepared }: NightsAnswer, night: NightAnswer) {
  const { winner, why, ranked } = night.compared;
  return {
    side: night.side,
    date: isoDate(night.date),
    zone: night.zone,
    from: iso(night.from),
    until: iso(night.until),
    words: `${nightInWords(night)}: ${whereToLieInWords(night)}`,
    lieIn: winner?.anchorage.name ?? null,
    becauseOf: why?.by ?? null,
    anchorages: ranked.map((place) => placeJson(place, secondsToInlet(place.anchorage, prepared.passage))),
  };
}

function placeJson(place: NightAtAnchor, toInletSeconds: number | null) {
  const { anchorage, worst, depths, rode } = place;
  const sea = worst.sea === null || worst.sea.sea.kind === "unknown" ? null : worst.sea.sea;
  return {
    name: anchorage.name,
    latitudeDeg: rounded(anchorage.position.latitudeDeg, 5),
    longitudeDeg: rounded(anchorage.position.longitudeDeg, 5),
    verdict: place.verdict,
    faults: place.faults.map(faultJson),
    notJudged: place.notJudged.map(notJudgedJson),
    notStated: [...place.leftOut],
    leastDepthMetres: metres(depths?.least.depthMetres ?? null),
    leastDepthAt: isoOrNull(depths?.least.at ?? null),
    greatestDepthMetres: metres(depths?.greatest.depthMetres ?? null),
    greatestDepthAt: isoOrNull(depths?.greatest.at ?? null),
    leastUnderKeelMetres: metres(worst.water?.underKeelMetres ?? null),
    leastUnderKeelAt: isoOrNull(worst.water?.at ?? null),
    allowedForWavesMetres: metres(worst.water?.wavesMetres ?? null),
    worstSeaMetres: metres(sea?.heightMetres ?? null),
    worstSeaIsAtLeast: sea?.kind === "atLeast",
    worstSeaAt: isoOrNull(sea === null ? null : (worst.sea?.at ?? null)),
    worstGustKn: knots(worst.gust?.gustMps ?? null),
    worstGustAt: isoOrNull(worst.gust?.at ?? null),
    swellOutsideMetres: metres(worst.outside?.metres ?? null),
    swellOutsideAt: isoOrNull(worst.outside?.at ?? null),
    rode: rode === null ? null : rodeJson(rode),
    bottom: anchorage.bottom,
    roomMetres: metres(anchorage.roomMetres),
    toInletSeconds: toInletSeconds === null ? null : rounded(toInletSeconds, 0),
    notes: anchorage.notes,
    looks: place.looks.map(lookJson),
  };
}

function rodeJson({ outMetres, from, scope, scopeWanted, swingLowMetres, swingHighMetres, pull, neededMetres }: RodeForNight) {
  return {
    outMetres: metres(outMetres),
    by: from,
    scope: rounded(scope, 3),
    scopeWanted,
    swingLowWaterMetres: metres(swingLowMetres),
    swingHighWaterMetres: metres(swingHighMetres),
    gustKn: knots(pull?.gustMps ?? null),
    loadNewtons: pull === null ? null : rounded(pull.loadNewtons, 1),
    leadDeg: pull?.pull.kind === "leads" ? rounded(pull.pull.leadDeg, 3) : null,
    levelWithMetres: metres(pull?.levelMetres ?? null),
    neededMetres: metres(neededMetres),
  };
}

/** A fault by its kind; `value` and `bound` in metres, knots, or degrees for `lift`. */
function faultJson(fault: AnchorFault) {
  const at = "at" in fault ? iso(fault.at) : null;
  switch (fault.kind) {
    case "depth":
      return { kind: fault.kind, at, value: rounded(fault.underKeelMetres, 3), bound: rounded(fault.leastMetres, 3) };
    case "swing":
      return { kind: fault.kind, at, value: rounded(fault.swingMetres, 2), bound: rounded(fault.roomMetres, 2) };
    case "lift":
      return { kind: fault.kind, at, value: fault.leadDeg === null ? null : rounded(fault.leadDeg, 2), bound: GREATEST_LEAD_DEG };
    case "sea":
      return { kind: fault.kind, at, value: rounded(fault.metres, 3), bound: rounded(fault.neverMetres, 3) };
    case "wind":
    case "gust":
      return { kind: fault.kind, at, value: knots(fault.mps), bound: knots(fault.neverMps) };
  }
}

function notJudgedJson(one: NotJudged) {
  return {
    kind: one.kind,
    at: "at" in one ? iso(one.at) : null,
    what: one.kind === "notStated" ? one.what : one.kind === "datum" ? one.datum : null,
    why: one.kind === "weather" ? noAnswerJson(one.why) : null,
  };
}

function lookJson(look: LookAtAnchor) {
  const known = look.kind === "known" ? look : null;
  const sea = known === null || known.sea.kind === "unknown" ? null : known.sea;
  return {
    at: iso(look.at),
    windKn: knots(known?.wind.windMps ?? null),
    windFromDegTrue: known === null ? null : rounded(known.wind.fromDegTrue, 1),
    windArcDeg: known === null ? null : rounded(known.wind.arcDeg, 1),
    gustKn: knots(known?.gustMps ?? null),
    fetchNm: sea === null || sea.fetchMetres === null ? null : rounded(nmFromMetres(sea.fetchMetres), 2),
    openUpWind: sea?.open ?? null,
    seaMetres: metres(sea?.heightMetres ?? null),
    seaIsAtLeast: sea === null ? null : sea.kind === "atLeast",
    seaBroughtBy: sea?.brings ?? null,
    seaPeriodSeconds: sea?.periodSeconds == null ? null : rounded(sea.periodSeconds, 2),
    depthMetres: metres(look.water?.depthMetres ?? null),
    underKeelMetres: metres(look.water?.underKeelMetres ?? null),
  };
}
