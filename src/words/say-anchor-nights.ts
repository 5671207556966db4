import {
  GREATEST_LEAD_DEG,
  type NightAtAnchor,
  OPEN_WATER_METRES,
  SCOPE_OF_CHAIN,
  SCOPE_WITH_ROPE,
  SWELL_TO_EITHER_SIDE_DEG,
} from "../core/places/index.ts";
import { NIGHT_BEGINS_SECONDS, NIGHT_ENDS_SECONDS, type NightAnswer, type NightsAnswer } from "../core/plan/index.ts";
import { nmFromMetres } from "../core/units/index.ts";
import { anchorFaultInWords, anchorMetres, notJudgedInWords } from "./say-anchor.ts";
import { threeFigures } from "./say-quantity.ts";
import { dayAndClock, duration, zoneLabel } from "./say-time.ts";

/** Stands wherever anchorages are judged. */
export const ANCHOR_WARNING =
  "A planning aid: whether the anchor holds is for the bottom, the anchor and an anchor watch to say. Sound the swinging circle, and keep a way out in mind.";

/** Which night: `The night before the crossing, Tue 18:00 to Wed 08:00 UTC-8`. */
export function nightInWords({ side, from, until, zone }: NightAnswer): string {
  return `The night ${side} the crossing, ${dayAndClock(from, zone)} to ${dayAndClock(until, zone)} ${zoneLabel(from, zone)}`;
}

/** Where to lie, and why there, in a sentence or two; or that no place is known to hold. */
export function whereToLieInWords({ compared, zone }: NightAnswer): string {
  const { winner, ranked, why } = compared;
  const [first, second] = ranked;
  if (first === undefined) return "No anchorage is listed for it.";
  if (winner === null) {
    const unsure = ranked.some(({ verdict }) => verdict === "notJudged");
    const head = unsure ? "None of them is known to hold" : ranked.length === 1 ? "It does not hold" : "None of them holds";
    return `${head}. ${unsure ? "Nearest to it" : "Least bad"}: ${first.anchorage.name}${firstAgainst(first, zone) === undefined ? "" : `, but ${firstAgainst(first, zone)}`}.`;
  }
  const name = winner.anchorage.name;
  if (second === undefined || why === null) return `${name} holds; no other is listed.`;
  const other = second.anchorage.name;
  switch (why.by) {
    case "verdict":
      return ranked.length === 2
        ? `Lie in ${name}: it holds, and ${other} ${second.verdict === "untenable" ? "does not" : "is not known to"}${againstOf(second, zone)}.`
        : `Lie in ${name}: it alone is known to hold; next ${other}${againstOf(second, zone)}.`;
    case "sea":
      return `Lie in ${name}: its sea comes to ${anchorMetres(why.metres)} at the worst, that of ${other} to ${anchorMetres(why.otherMetres)}.`;
    case "swell":
      return `Lie in ${name}: ${why.metres === 0 ? "no swell" : `no more than ${anchorMetres(why.metres)} of swell`} can come in, while ${anchorMetres(why.otherMetres)} of sea outside may into ${other}.`;
    case "way":
      return `Lie in ${name}: it is as quiet as ${other}, and the inlet is ${duration(why.seconds)} off against ${duration(why.otherSeconds)}.`;
    case "nothing":
      return `${name} and ${other} are alike in depth, sea and way: choose by the bottom and your eye. ${name} stands first as listed.`;
  }
}

/** The first thing that speaks against a place, or isn't known of it; undefined where nothing does. */
function firstAgainst({ faults, notJudged }: NightAtAnchor, zone: string): string | undefined {
  return [...faults.map((one) => anchorFaultInWords(one, zone)), ...notJudged.map((one) => notJudgedInWords(one, zone))][0];
}

function againstOf(night: NightAtAnchor, zone: string): string {
  const against = firstAgainst(night, zone);
  return against === undefined ? "" : ` (${against})`;
}

/** What the nights rest on. */
export function nightAssumptionsInWords({ prepared, boat, swellFromDegTrue }: NightsAnswer): readonly string[] {
  const clock = (seconds: number): string => `${String(seconds / 3600).padStart(2, "0")}00`;
  const coast =
    prepared.land === null
      ? "No coastline is reckoned in this passage."
      : "Fetch is by the coastline, which knows nothing of reefs, walls and rocks it lacks; where you note `openTo` or `fetch`, those count.";
  const swell =
    swellFromDegTrue === null
      ? "whence it comes otherwise is not known (--swell-from)."
      : `and by itself, as you say, from ${threeFigures(swellFromDegTrue)}, ${SWELL_TO_EITHER_SIDE_DEG}° to either side.`;
  return [
    `A night is ${clock(NIGHT_BEGINS_SECONDS)} to ${clock(NIGHT_ENDS_SECONDS)}, looked at every half-hour by the control forecast, the worse end of every range.`,
    `${coast} It is the mean of nine rays three degrees apart about the wind (Shore Protection Manual, 1984); no land within ${nmFromMetres(OPEN_WATER_METRES).toFixed(0)} nm counts as open water.`,
    `The sea is what the wind raises over that fetch, blowing long enough, in deep water. Where the wind comes over open water the whole sea outside comes in with it, if it is higher; ${swell} Swell that bends round a point is not reckoned. Where the forecast's sea does not reach in to a place, that off the end of the route is taken.`,
    `Under the keel: charted depth and tide less draught and less the height of the sea there, unless you state \`waves\`.`,
    `Scope counts depth, tide and bow (left out: ${SCOPE_OF_CHAIN}:1 of chain, ${SCOPE_WITH_ROPE}:1 with rope, common practice). The pull is the wind load of ABYC H-40, table 1, for a boat ${boat.hull === "sail" ? "under sail" : "under power"}, by the wind's square; the rode a catenary at high water, without surge, stretch or sheering; more than ${GREATEST_LEAD_DEG}° off the bottom is too steep (common practice).`,
    "No stream at the anchorage is reckoned: where one runs, she may lie to it, across the wind.",
  ];
}
