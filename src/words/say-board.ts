import type { LeaveAnswer, LeaveBoard } from "../core/plan/index.ts";
import { SHARPEST_STEADY_TURN_DEG } from "../core/weather/index.ts";
import { type BoardRow, ENGINE_STOPS_SECONDS, LATEST_TRIED_SECONDS, type Slack, SPEED_SHARES } from "../core/window/index.ts";
import { inTen } from "./say-chance.ts";
import { doorInWords, reasonInWords } from "./say-limit.ts";
import { seamInWords } from "./say-seam.ts";
import { duration, fullTime } from "./say-time.ts";

/** What decides a line of the board, short enough for its column: `words` as `decidedInWords` has them. Of a gate and of time more is told elsewhere. */
export function shortlyDecided(row: BoardRow, words: string): string {
  const { decidedBy } = row.verdict;
  if (decidedBy.kind === "littleTime") return `short of time: ${doorInWords(decidedBy.inHand.door)}`;
  return decidedBy.kind === "gate" || decidedBy.kind === "gateNotJudged" ? reasonInWords(row) : words;
}

/** The time in hand of a line: `7 h 20`, `no door` where none shuts; empty where the departure is closed. */
export function handInWords({ inHand }: BoardRow): string {
  return inHand === null ? "" : inHand.seconds === null ? "no door" : duration(inHand.seconds);
}

/** How many in ten of such departures are good; null where it was not tried, or something on the way is not judged. */
export function tenthsOf(answer: Pick<LeaveAnswer, "chances" | "rows">, row: BoardRow): number | "notJudged" | null {
  const chance = answer.chances[answer.rows.indexOf(row)] ?? null;
  if (chance === null) return null;
  return chance.notJudged > 0 && chance.good.count === 0 ? "notJudged" : inTen(chance.good);
}

/** What the members say of the first open departure, and when it last blew against the stream before it; empty where none is open. */
export function forecastsAgreeInWords({ rows, prepared }: LeaveBoard): string {
  const row = rows.find((one) => one.verdict.kind === "open");
  if (row === undefined) return "";
  const { agree, of } = row.forecastsAgreeing;
  const { shipZone, limits } = prepared.passage;
  const sentences: string[] = [];
  if (of > 1) sentences.push(`For the first open departure, ${fullTime(row.departAt, shipZone)}, ${agree} of ${of} forecasts agree.`);
  if (row.sinceAgainst !== null) {
    sentences.push(
      row.sinceAgainst.kind === "blew"
        ? `The wind last blew 10 kn or more against the stream ${duration(row.sinceAgainst.seconds)} before mid-stream.`
        : `The wind has not blown 10 kn against the stream in the ${duration(row.sinceAgainst.seconds)} before mid-stream that the forecast covers; what went before is not known.`,
    );
  }
  if (!limits.some((limit) => limit.felt === "calmBeforeSeconds"))
    sentences.push("Two or three calm days before leaving are wanted (common practice).");
  return sentences.join(" ");
}

/** Where the forecast is too coarse for a shift, and where gusts had to be assumed; empty where neither. */
export function coarseWeatherInWords({ kept }: LeaveBoard): string {
  const felt = kept.filter((one) => !one.onlyLater).flatMap((one) => (one.planned === null ? [] : [one.planned]));
  const shifts = felt.filter((one) => one.shiftSteps > 0).length;
  const assumed = felt.filter((one) => one.gustAssumed).length;
  const sentences: string[] = [];
  if (shifts > 0)
    sentences.push(
      `On ${shifts} of ${felt.length} departures the wind turns by more than ${SHARPEST_STEADY_TURN_DEG}° within a step of the forecast, or two winds are given for one time: there the worse of both is taken for the whole of it.`,
    );
  if (assumed > 0)
    sentences.push(`On ${assumed} of ${felt.length} departures no gust is given for part of the way and it is assumed from the wind.`);
  return sentences.join(" ");
}

/** The departures under which two runs of a forecast are joined, and the first of the seams; empty where there is none. */
export function seamsUnderInWords({ seams, rows, prepared }: LeaveBoard): string {
  const joined = seams.filter((some) => some.length > 0);
  const first = joined[0]?.[0];
  if (first === undefined) return "";
  const which = `For ${joined.length} of ${rows.length} departures no run of a forecast covers the passage whole, and two are joined under it`;
  return `${which}: ${seamInWords(first, prepared.passage.shipZone)}`;
}

/** What a time in hand means, in half a sentence. */
export function handMeansInWords(): string {
  return `In hand: how long a later start, a slower boat or a stopped engine can be borne before a limit shuts; “no door” where none shuts within ${LATEST_TRIED_SECONDS / 3600} h, at ${Math.min(...SPEED_SHARES)} of the speed and with the engine off for ${Math.max(...ENGINE_STOPS_SECONDS) / 3600} h.`;
}

/** The three parts of the time in hand; empty where the departure is closed. */
export function handPartsInWords({ inHand }: BoardRow): string {
  if (inHand === null) return "";
  const before = ({ door }: Slack): string => (door === null ? "and nothing shuts" : `before ${doorInWords(door)}`);
  const { laterDeparture, slower, engineStop } = inHand;
  const parts = [
    `leave ${duration(laterDeparture.seconds)} later ${before(laterDeparture)}${laterDeparture.door === null ? ` (tried up to ${LATEST_TRIED_SECONDS / 3600} h)` : ""}`,
    `go at ${Math.round(slower.speedShare * 100)} % of the speed and arrive ${duration(slower.seconds)} later ${before(slower)}${slower.door === null ? ` (tried down to ${Math.min(...SPEED_SHARES) * 100} %)` : ""}`,
    `have the engine off for ${duration(engineStop.seconds)} in mid-stream ${before(engineStop)}${engineStop.door === null ? ` (tried up to ${Math.max(...ENGINE_STOPS_SECONDS) / 3600} h)` : ""}`,
  ];
  return `In hand, each by itself: ${parts.join("; ")}.`;
}
