import type { NoAnswer } from "../answers/index.ts";
import { gateDoorBetween } from "./gates/gate-doors.ts";
import type { GatesRun } from "./gates/pass-gates.ts";
import type { Margin } from "./judged.ts";
import type { Felt } from "./limit.ts";

/** What shuts when the time in hand is used up. */
export type Door =
  | { readonly kind: "limit"; readonly felt: Felt }
  | { readonly kind: "notJudged"; readonly felt: Felt; readonly why: NoAnswer }
  | { readonly kind: "noPassage"; readonly why: NoAnswer }
  | { readonly kind: "gate"; readonly name: string };

/** How far one thing may go wrong before a door shuts. */
export interface Slack {
  /** Seconds: later at the start, later at the end, or the engine stopped. */
  readonly seconds: number;
  /** null: no door was met as far as was tried, and `seconds` is how far that was. */
  readonly door: Door | null;
}

/** Time in hand: a margin can't see a door that closes after the arrival; this does. */
export interface TimeInHand {
  readonly laterDeparture: Slack;
  /** The arrival later by a slower boat, and the share of the speed at which the door shuts. */
  readonly slower: Slack & { readonly speedShare: number };
  readonly engineStop: Slack;
  /** The least of the three where a door was met; null where none was. */
  readonly seconds: number | null;
  readonly door: Door | null;
}

/** One passage as tried with something a little further wrong: `amount` grows from case to case. */
export interface Tried {
  readonly amount: number;
  readonly outcome:
    | { readonly kind: "judged"; readonly margins: readonly Margin[]; readonly arrivalAt: number; readonly gates?: GatesRun }
    | { readonly kind: "noPassage"; readonly why: NoAnswer };
}

/**
 * Finds how far `amount` may go before the first door shuts, by straight lines between the cases tried, each limit on its own. The first
 * case is the passage as planned and must be passable. Where a case has no passage or can't be judged, the last good one stands. A door
 * that shuts at one stroke, as a front does, is met no later than when the arrival has slipped to it: a straight line between margins
 * would promise more.
 */
export function firstDoor(cases: readonly Tried[]): { readonly amount: number; readonly door: Door | null } {
  for (let k = 1; k < cases.length; k++) {
    const before = cases[k - 1] as Tried;
    const now = cases[k] as Tried;
    if (now.outcome.kind === "noPassage") return { amount: before.amount, door: { kind: "noPassage", why: now.outcome.why } };
    const earlier = before.outcome.kind === "judged" ? before.outcome.margins : [];
    const gate = before.outcome.kind === "judged" ? gateDoorBetween(before.outcome.gates, now.outcome.gates) : null;
    let least = gate === null ? Number.POSITIVE_INFINITY : before.amount + gate.share * (now.amount - before.amount);
    let door: Door | null = gate?.door ?? null;
    for (const margin of now.outcome.margins) {
      const past = earlier.find((one) => one.limit === margin.limit);
      const m1 = margin.kind === "judged" ? margin.margin : (margin.knownPart?.margin ?? 0);
      if (m1 < 0) {
        const m0 = past?.kind === "judged" ? Math.max(0, past.margin) : 0;
        const share = Math.min(m0 / (m0 - m1), shareUntilArrivalSlips(before, now, margin));
        const amount = before.amount + share * (now.amount - before.amount);
        if (amount < least) {
          least = amount;
          door = { kind: "limit", felt: margin.limit.felt };
        }
      } else if (margin.kind === "notJudged" && past?.kind === "judged" && before.amount < least) {
        least = before.amount;
        door = { kind: "notJudged", felt: margin.limit.felt, why: margin.why };
      }
    }
    if (door !== null) return { amount: least, door };
  }
  return { amount: (cases[cases.length - 1] as Tried).amount, door: null };
}

/**
 * The share of the way from one case to the next at which the arrival slips to the moment when the next first passes *never*; 1 where
 * that moment lies before the earlier case's arrival, so that this tells nothing.
 */
function shareUntilArrivalSlips(before: Tried, now: Tried, margin: Margin): number {
  const pastAt = (margin.kind === "judged" ? margin : margin.knownPart)?.firstPastNeverAt ?? null;
  if (pastAt === null || before.outcome.kind === "noPassage" || now.outcome.kind === "noPassage") return 1;
  const slips = now.outcome.arrivalAt - before.outcome.arrivalAt;
  const until = pastAt - before.outcome.arrivalAt;
  return until >= 0 && slips > 0 ? Math.min(1, until / slips) : 1;
}

/** Joins the three slacks: the least of those that met a door. */
export function timeInHand(laterDeparture: Slack, slower: Slack & { readonly speedShare: number }, engineStop: Slack): TimeInHand {
  let seconds: number | null = null;
  let door: Door | null = null;
  for (const slack of [laterDeparture, slower, engineStop]) {
    if (slack.door !== null && (seconds === null || slack.seconds < seconds)) {
      seconds = slack.seconds;
      door = slack.door;
    }
  }
  return { laterDeparture, slower, engineStop, seconds, door };
}
