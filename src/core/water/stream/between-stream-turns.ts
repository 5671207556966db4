import type { AlongTurn } from "./stream-curve.ts";

/**
 * The rate along the axis between two neighbouring turns. Between a slack and a greatest rate it is the greatest times the sine of
 * 90° times the share of the interval gone from the slack (the cosine rule of NOAA's Tidal Current Tables, table 3, column A; common
 * practice): so half a sine from slack to slack, whose two quarters need not be of the same length. Between two rates neither of which
 * is a slack, half a cosine from the one to the other.
 */
export function alongBetween(before: AlongTurn, after: AlongTurn, at: number): number {
  const share = (at - before.at) / (after.at - before.at);
  if (isSlack(before)) return after.alongMps * Math.sin((Math.PI / 2) * share);
  if (isSlack(after)) return before.alongMps * Math.sin((Math.PI / 2) * (1 - share));
  return before.alongMps + ((after.alongMps - before.alongMps) * (1 - Math.cos(Math.PI * share))) / 2;
}

export const isSlack = ({ kind }: Pick<AlongTurn, "kind">): boolean => kind === "slack before flood" || kind === "slack before ebb";

/** Slack to greatest rate, as table 4 takes it, seconds: a quarter of a tide of twelve hours. */
const QUARTER_SECONDS = 3 * 3600;

/**
 * How long about a slack the stream runs no faster than a rate, seconds, where the greatest rate on both sides is the same: NOAA's
 * Tidal Current Tables, table 4, (720/π)·asin(rate/greatest) minutes. It takes three hours from slack to greatest rate; give `quarterSeconds`
 * where it is otherwise. Null where the stream never runs faster than the rate.
 */
export function slackLastsSeconds(greatestMps: number, rateMps: number, quarterSeconds: number = QUARTER_SECONDS): number | null {
  if (!(greatestMps > 0 && rateMps >= 0 && quarterSeconds > 0))
    throw new Error(`no slack of ${greatestMps} m/s at ${rateMps} m/s over ${quarterSeconds} s`);
  return rateMps >= greatestMps ? null : ((4 * quarterSeconds) / Math.PI) * Math.asin(rateMps / greatestMps);
}
