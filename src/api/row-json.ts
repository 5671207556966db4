import type { BoardRow, Door, Limit, Margin, Slack, Verdict, WayJudged, WorstPlace } from "../core/window/index.ts";
import { gatesJson } from "./gates-json.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";
import { LIMIT_KEYS, limitKey, limitValue } from "./limit-keys.ts";
import { noAnswerJson } from "./no-answer-json.ts";

function worstJson(limit: Limit, worst: WorstPlace) {
  return {
    margin: rounded(worst.margin, 4),
    value: limitValue(limit, worst.value),
    peakValue: limitValue(limit, worst.peakValue),
    at: iso(worst.at),
    latitudeDeg: rounded(worst.where.latitudeDeg, 5),
    longitudeDeg: rounded(worst.where.longitudeDeg, 5),
    firstPastNeverAt: isoOrNull(worst.firstPastNeverAt),
    /** Which of several it is of, as a shallow by its name. */
    of: worst.name ?? null,
  };
}

function marginJson(margin: Margin) {
  const { limit } = margin;
  const both = {
    limit: limitKey(limit),
    happy: limitValue(limit, limit.happy),
    never: limitValue(limit, limit.never),
    during: limit.during,
    toleratedSeconds: limit.toleratedSeconds,
  };
  if (margin.kind === "judged") return { ...both, judged: true as const, ...worstJson(limit, margin) };
  return {
    ...both,
    judged: false as const,
    why: noAnswerJson(margin.why),
    knownPart: margin.knownPart === null ? null : worstJson(limit, margin.knownPart),
  };
}

function doorJson(door: Door | null) {
  if (door === null) return null;
  if (door.kind === "noPassage") return { kind: door.kind, why: noAnswerJson(door.why) };
  if (door.kind === "gate") return { kind: door.kind, gate: door.name };
  return { kind: door.kind, limit: LIMIT_KEYS[door.felt] };
}

function slackJson(slack: Slack) {
  return { seconds: Math.round(slack.seconds), atLeast: slack.door === null, door: doorJson(slack.door) };
}

function decidedByJson({ decidedBy }: Verdict) {
  const why =
    decidedBy.kind === "noPassage" || decidedBy.kind === "currentNotFit"
      ? decidedBy.why
      : decidedBy.kind === "notJudged"
        ? decidedBy.margin.why
        : null;
  return {
    kind: decidedBy.kind,
    limit: decidedBy.kind === "margin" || decidedBy.kind === "notJudged" ? LIMIT_KEYS[decidedBy.margin.limit.felt] : null,
    why: why === null ? null : noAnswerJson(why),
    gate: decidedBy.kind === "gate" || decidedBy.kind === "gateNotJudged" ? decidedBy.fault.gate.name : null,
  };
}

/** One way judged along its own path. */
export function wayJudgedJson({ verdict, margins, berthAt }: WayJudged) {
  return {
    berthAt: iso(berthAt),
    verdict: verdict.kind,
    decidedBy: decidedByJson(verdict),
    smallestMargin: verdict.smallestMargin === null ? null : rounded(verdict.smallestMargin, 4),
    margins: margins.map(marginJson),
  };
}

/** A line of the board as JSON: one departure, its verdict, every margin, its time in hand. Without a known burn there is no fuel. */
export function rowJson(row: BoardRow, burnKnown: boolean) {
  const { verdict, inHand, advised } = row;
  return {
    departAt: iso(row.departAt),
    arrivalAt: isoOrNull(row.arrivalAt),
    way: advised?.name ?? null,
    verdict: verdict.kind,
    decidedBy: decidedByJson(verdict),
    smallestMargin: verdict.smallestMargin === null ? null : rounded(verdict.smallestMargin, 4),
    margins: row.margins.map(marginJson),
    gates: gatesJson(row),
    timeInHand:
      inHand === null
        ? null
        : {
            seconds: inHand.seconds === null ? null : Math.round(inHand.seconds),
            door: doorJson(inHand.door),
            laterDeparture: slackJson(inHand.laterDeparture),
            slower: { ...slackJson(inHand.slower), speedShare: rounded(inHand.slower.speedShare, 3) },
            engineStop: slackJson(inHand.engineStop),
          },
    forecastsAgreeing: row.forecastsAgreeing,
    sinceWindAgainstCurrent:
      row.sinceAgainst === null ? null : { blew: row.sinceAgainst.kind === "blew", seconds: Math.round(row.sinceAgainst.seconds) },
    fuelLitres: advised === null || !burnKnown ? null : rounded(advised.fuelLitres, 1),
    assumedWaterShare: advised === null ? null : rounded(advised.assumedWaterShare, 3),
  };
}
