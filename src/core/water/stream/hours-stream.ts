import { good, type Parsed } from "../../answers/index.ts";
import { type EpochSeconds, epochSeconds } from "../../units/index.ts";
import type { Tide } from "../tide/index.ts";
import { firstAfter } from "./first-after.ts";
import { motionOf } from "./harmonic-stream.ts";
import { type HighWater, type HoursTable, highWaters, hoursStretched, nodesBetween, type StreamNode, springShare } from "./hours-nodes.ts";
import { pathTurns } from "./path-turns.ts";
import type { StatedStream } from "./stated-stream.ts";
import { toAndFro } from "./stream-vector.ts";
import type { StreamDoubt, TidalStream } from "./tidal-stream.ts";

/** Within so long before and after any instant there are two high waters with their lows, also of a tide of one a day. */
const REACH_SECONDS = 3 * 86400;

interface Laid {
  readonly from: number;
  readonly until: number;
  readonly highs: readonly HighWater[];
  readonly nodes: readonly StreamNode[];
}

/**
 * A stream by a table of hours from high water of a tide, between neaps and springs by the range of the day: `nodesBetween` tells how.
 * Along the axis is the part of the stream along the line from the ebb's set to the flood's.
 */
export function hoursStream(stated: StatedStream, table: HoursTable, tide: Tide, of: string): Parsed<TidalStream> {
  const { name, position, floodTowardDegTrue, ebbTowardDegTrue, withinMetres } = stated;
  const sets = toAndFro(floodTowardDegTrue, ebbTowardDegTrue);
  const length = Math.hypot(sets.floodEast - sets.ebbEast, sets.floodNorth - sets.ebbNorth);
  const [axisEast, axisNorth] = [(sets.floodEast - sets.ebbEast) / length, (sets.floodNorth - sets.ebbNorth) / length];
  const alongOf = (node: { readonly eastMps: number; readonly northMps: number }): number =>
    node.eastMps * axisEast + node.northMps * axisNorth;
  const lay = (from: number, until: number): Laid => {
    const highs = highWaters(tide, table, from, until);
    return { from, until, highs, nodes: highs.flatMap((high, i) => (i === 0 ? [] : nodesBetween(table, highs[i - 1] as HighWater, high))) };
  };
  let kept: Laid | null = null;
  const around = (at: number): Laid => {
    if (kept === null || at < kept.from + REACH_SECONDS || at > kept.until - REACH_SECONDS) {
      const day = Math.floor(at / 86400) * 86400;
      kept = lay(day - 2 * REACH_SECONDS, day + 4 * REACH_SECONDS);
    }
    return kept;
  };
  const vectorInto = (out: Float64Array, at: number): void => {
    const { nodes } = around(at);
    const next = firstAfter(nodes, at);
    const [before, after] = [nodes[next - 1], nodes[next]];
    if (before === undefined || after === undefined) throw new Error(`no high waters for ${name} around ${at}`);
    const share = (at - before.at) / (after.at - before.at);
    out[0] = before.eastMps + share * (after.eastMps - before.eastMps);
    out[1] = before.northMps + share * (after.northMps - before.northMps);
  };
  const motionAt = (at: number) => motionOf(vectorInto, at);
  return good({
    name,
    position,
    floodTowardDegTrue,
    ebbTowardDegTrue,
    withinMetres,
    told: { kind: "byHours", of, springRangeMetres: table.springRangeMetres, neapRangeMetres: table.neapRangeMetres },
    alongAt: (at) => alongOf(motionAt(at)),
    vectorInto,
    vectorAt: motionAt,
    turns: (from, until) => {
      const { nodes } = lay(from - REACH_SECONDS, until + REACH_SECONDS);
      return pathTurns(
        nodes.map(({ at }) => at),
        nodes.map(alongOf),
      )
        .filter(({ at }) => at >= from && at < until)
        .map(({ kind, at, alongMps }) => {
          const { eastMps, northMps } = motionAt(at);
          return { kind, at: epochSeconds(at), alongMps, rateMps: Math.hypot(eastMps, northMps) };
        });
    },
    doubts: (from, until) => doubtsIn(table, lay(from - REACH_SECONDS, until + REACH_SECONDS).highs, from, until),
  });
}

/** Each high water's tide reaches half way to its neighbours. */
function doubtsIn(table: HoursTable, highs: readonly HighWater[], from: number, until: number): readonly StreamDoubt[] {
  const doubts: StreamDoubt[] = [];
  for (let i = 1; i + 1 < highs.length; i++) {
    const [before, high, after] = [highs[i - 1], highs[i], highs[i + 1]] as [HighWater, HighWater, HighWater];
    const [begins, ends] = [(before.at + high.at) / 2, (high.at + after.at) / 2];
    const share = springShare(table, high.rangeMetres);
    if (share > 1) doubts.push(rangeDoubt("beyond springs", begins, ends, high.rangeMetres, table.springRangeMetres));
    if (share < 0) doubts.push(rangeDoubt("short of neaps", begins, ends, high.rangeMetres, table.neapRangeMetres));
    if (hoursStretched(table, after.at - high.at) !== 1)
      doubts.push({ kind: "high waters uneven", from: high.at, until: after.at, rangeMetres: null, statedMetres: null });
  }
  return doubts.filter((doubt) => doubt.until > from && doubt.from < until);
}

function rangeDoubt(kind: StreamDoubt["kind"], from: number, until: number, rangeMetres: number, statedMetres: number): StreamDoubt {
  const at = (seconds: number): EpochSeconds => epochSeconds(seconds);
  return { kind, from: at(from), until: at(until), rangeMetres, statedMetres };
}
