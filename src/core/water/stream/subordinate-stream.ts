import { bad, good, type Issue, issue, type Parsed } from "../../answers/index.ts";
import { type EpochSeconds, epochSeconds } from "../../units/index.ts";
import { alongBetween, isSlack } from "./between-stream-turns.ts";
import { firstAfter } from "./first-after.ts";
import { motionOf } from "./harmonic-stream.ts";
import type { StatedStream, StreamDifferences } from "./stated-stream.ts";
import type { AlongTurn } from "./stream-curve.ts";
import { alongInto, toAndFro } from "./stream-vector.ts";
import type { StreamDoubt, StreamTurn, StreamTurnKind, TidalStream } from "./tidal-stream.ts";

/** No difference of time is longer, seconds: half a tide, and another turn is nearer. */
const LONGEST_DIFFERENCE_SECONDS = 7 * 3600;
const GREATEST_RATIO = 10;
/** Within so long before and after any instant there are turns, also of a stream that turns once a day. */
const REACH_SECONDS = 2 * 86400;

/** A turn at the subordinate station, and whether the one of the reference before it was left out because it would stand behind. */
type Own = AlongTurn & { readonly leftOut: boolean };

/**
 * A stream told by its differences from a reference: each of its turns is the reference's, moved in time by its own difference, its
 * greatest rates multiplied (NOAA, Tidal Current Tables, table 2; common practice); between turns by `alongBetween`. A turn that its
 * difference would put behind the next is left out, and that is told.
 */
export function subordinateStream(
  stated: StatedStream,
  differences: StreamDifferences,
  reference: TidalStream,
  path: string,
): Parsed<TidalStream> {
  const issues = faultsOf(stated.name, differences, path);
  if (issues.length > 0) return bad(...issues);
  const { name, position, floodTowardDegTrue, ebbTowardDegTrue, withinMetres } = stated;
  const sets = toAndFro(floodTowardDegTrue, ebbTowardDegTrue);
  const turnsWithin = (from: number, until: number): readonly Own[] =>
    inOrder(
      reference
        .turns(epochSeconds(from - LONGEST_DIFFERENCE_SECONDS), epochSeconds(until + LONGEST_DIFFERENCE_SECONDS))
        .map((turn) => differed(differences, turn)),
    );
  let kept: { readonly from: number; readonly until: number; readonly turns: readonly Own[] } | null = null;
  const around = (at: number): readonly Own[] => {
    if (kept === null || at < kept.from + REACH_SECONDS || at > kept.until - REACH_SECONDS) {
      // From a whole day on, so that the same turns stand whichever instant is asked for first.
      const day = Math.floor(at / 86400) * 86400;
      const [from, until] = [day - 2 * REACH_SECONDS, day + 6 * REACH_SECONDS];
      kept = { from, until, turns: turnsWithin(from, until) };
    }
    return kept.turns;
  };
  const alongAt = (at: number): number => {
    const turns = around(at);
    const next = firstAfter(turns, at);
    const [before, after] = [turns[next - 1], turns[next]];
    if (before === undefined || after === undefined) throw new Error(`no turns of ${name} around ${at}`);
    return alongBetween(before, after, at);
  };
  const vectorInto = (out: Float64Array, at: number): void => alongInto(out, sets, alongAt(at));
  const ownWithin = (from: number, until: number): readonly Own[] =>
    turnsWithin(from - REACH_SECONDS, until + REACH_SECONDS).filter(({ at }) => at >= from && at < until);
  return good({
    name,
    position,
    floodTowardDegTrue,
    ebbTowardDegTrue,
    withinMetres,
    told: { kind: "subordinate", of: reference.name },
    alongAt,
    vectorInto,
    vectorAt: (at) => motionOf(vectorInto, at),
    turns: (from, until) =>
      ownWithin(from, until).map(
        ({ kind, at, alongMps }): StreamTurn => ({ kind, at: epochSeconds(at), alongMps, rateMps: Math.abs(alongMps) }),
      ),
    doubts: (from, until) => [
      ...reference.doubts(from, until),
      ...ownWithin(from, until)
        .filter(({ leftOut }) => leftOut)
        .map(({ at }) => outOfOrder(epochSeconds(at))),
    ],
  });
}

function faultsOf(name: string, differences: StreamDifferences, path: string): Issue[] {
  const issues: Issue[] = [];
  const { floodRatio, ebbRatio, ...times } = differences;
  for (const [key, seconds] of Object.entries(times)) {
    if (!(Math.abs(seconds) <= LONGEST_DIFFERENCE_SECONDS)) {
      const turn = key.replace("LaterSeconds", "");
      issues.push(
        issue(
          `${path}.${turn}`,
          "stream-differences-range",
          `the difference of ${name} is ${seconds} s, more than ${LONGEST_DIFFERENCE_SECONDS / 3600} h`,
        ),
      );
    }
  }
  for (const [key, ratio] of Object.entries({ floodRatio, ebbRatio })) {
    if (!(ratio > 0 && ratio <= GREATEST_RATIO))
      issues.push(
        issue(`${path}.${key}`, "stream-differences-range", `the ratio of ${name} is ${ratio}, not above 0 and up to ${GREATEST_RATIO}`),
      );
  }
  return issues;
}

/** The reference's turn moved and multiplied: one that eases without turning goes with the greatest rate of its own sense. */
function differed(by: StreamDifferences, { kind, at, alongMps }: StreamTurn): AlongTurn {
  const flood = alongMps > 0;
  return { kind, at: at + laterOf(by, kind), alongMps: isSlack({ kind }) ? 0 : alongMps * (flood ? by.floodRatio : by.ebbRatio) };
}

function laterOf(by: StreamDifferences, kind: StreamTurnKind): number {
  switch (kind) {
    case "slack before flood":
      return by.slackBeforeFloodLaterSeconds;
    case "slack before ebb":
      return by.slackBeforeEbbLaterSeconds;
    case "greatest flood":
    case "least flood":
      return by.greatestFloodLaterSeconds;
    case "greatest ebb":
    case "least ebb":
      return by.greatestEbbLaterSeconds;
  }
}

/**
 * Turns in order of time: of two that stand in the wrong order a slack gives way to a greatest rate, and of two greatest rates the smaller
 * to the greater, so that a stream is never told slacker than it is.
 */
function inOrder(turns: readonly AlongTurn[]): readonly Own[] {
  const kept: Own[] = [];
  for (const turn of turns) {
    let own: Own = { ...turn, leftOut: false };
    let last = kept[kept.length - 1];
    while (last !== undefined && own.at <= last.at) {
      if (Math.abs(own.alongMps) <= Math.abs(last.alongMps)) own = last;
      kept.pop();
      own = { ...own, leftOut: true };
      last = kept[kept.length - 1];
    }
    kept.push(own);
  }
  return kept;
}

/** So long about a turn that was left out the stream is doubted, seconds. */
const DOUBTED_ABOUT_SECONDS = 3 * 3600;

function outOfOrder(at: EpochSeconds): StreamDoubt {
  return {
    kind: "turns out of order",
    from: epochSeconds(at - DOUBTED_ABOUT_SECONDS),
    until: epochSeconds(at + DOUBTED_ABOUT_SECONDS),
    rangeMetres: null,
    statedMetres: null,
  };
}
