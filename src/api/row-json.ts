import { knotsFromMps, MPS_PER_KNOT } from "../core/units/index.ts";
import type { BoardRow, Door, Limit, Margin, Slack, WorstPlace } from "../core/window/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";

/** The names limits go by outside the core, with their units. */
const LIMIT_KEYS = {
  windMps: "windKn",
  gustMps: "gustKn",
  windAgainstCurrentMps2: "windAgainstCurrentKn2",
  seaHeightMetres: "seaHeightMetres",
  seaPeriodSeconds: "seaPeriodSeconds",
  sunAltitudeDeg: "sunAltitudeDeg",
} as const;

export type LimitKey = (typeof LIMIT_KEYS)[keyof typeof LIMIT_KEYS];

/** A limit's key with its unit: `gustKn`. */
export function limitKey(limit: Limit): LimitKey {
  return LIMIT_KEYS[limit.felt];
}

/** A limit's value in the unit of its key. */
export function limitValue(limit: Limit, value: number): number {
  switch (limit.felt) {
    case "windMps":
    case "gustMps":
      return rounded(knotsFromMps(value), 2);
    case "windAgainstCurrentMps2":
      return rounded(value / (MPS_PER_KNOT * MPS_PER_KNOT), 2);
    default:
      return rounded(value, 2);
  }
}

function worstJson(limit: Limit, worst: WorstPlace) {
  return {
    margin: rounded(worst.margin, 4),
    value: limitValue(limit, worst.value),
    peakValue: limitValue(limit, worst.peakValue),
    at: iso(worst.at),
    latitudeDeg: rounded(worst.where.latitudeDeg, 5),
    longitudeDeg: rounded(worst.where.longitudeDeg, 5),
    firstPastNeverAt: isoOrNull(worst.firstPastNeverAt),
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
  return { kind: door.kind, limit: LIMIT_KEYS[door.felt] };
}

function slackJson(slack: Slack) {
  return { seconds: Math.round(slack.seconds), atLeast: slack.door === null, door: doorJson(slack.door) };
}

/** A line of the board as JSON: one departure, its verdict, every margin, its time in hand. Without a known burn there is no fuel. */
export function rowJson(row: BoardRow, burnKnown: boolean) {
  const { verdict, inHand, advised } = row;
  const { decidedBy } = verdict;
  return {
    departAt: iso(row.departAt),
    arrivalAt: isoOrNull(row.arrivalAt),
    way: advised?.name ?? null,
    verdict: verdict.kind,
    decidedBy: {
      kind: decidedBy.kind,
      limit: decidedBy.kind === "margin" || decidedBy.kind === "notJudged" ? LIMIT_KEYS[decidedBy.margin.limit.felt] : null,
      why:
        decidedBy.kind === "noPassage"
          ? noAnswerJson(decidedBy.why)
          : decidedBy.kind === "notJudged"
            ? noAnswerJson(decidedBy.margin.why)
            : null,
    },
    smallestMargin: verdict.smallestMargin === null ? null : rounded(verdict.smallestMargin, 4),
    margins: row.margins.map(marginJson),
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
