import type { Plane } from "../earth/index.ts";
import { type PilotageRun, sumsOf, type Track } from "../passage/index.ts";
import type { RangedSampler, SeaSampler, WindSampler } from "../weather/index.ts";

/** Which part of the passage a node belongs to. */
export const OUT_OF_HARBOUR = 0;
export const OPEN_WATER = 1;
export const ARRIVAL = 2;

/** A whole passage to be felt: out of harbour, open water, and in. */
export interface Passed {
  readonly out: PilotageRun | null;
  readonly open: Track;
  readonly into: PilotageRun | null;
}

/**
 * The moments at which a passage is felt, in time order: those of the run and, on both sides, every instant at which the weather jumps;
 * the arrival point stands twice, as the end of open water and as the first of the arrival. The current is in the plane's frame;
 * `answeredBy` below 0 means that it is assumed or not reckoned there.
 */
export interface PassageNodes {
  readonly plane: Plane;
  readonly count: number;
  readonly atSeconds: Float64Array;
  readonly xMetres: Float64Array;
  readonly yMetres: Float64Array;
  readonly part: Uint8Array;
  readonly currentEastMps: Float64Array;
  readonly currentNorthMps: Float64Array;
  readonly answeredBy: Int16Array;
  /** What the engine burns in open water, by its rule. */
  readonly openWaterFuelLitres: number;
  /** 1 where she has lain still before a gate since the node before; left out where she never does. */
  readonly waiting?: Uint8Array;
}

/** How far from a jump its two sides stand, seconds: at a step of a forecast the step itself holds, and what holds between two begins just after. */
const JUMP_SECONDS = 1;
/** What answers for the water on a leg in or out of harbour: nobody, it is not reckoned there. */
const NOT_RECKONED = -100;
const NUMBERS = 8;
const PART = 3;
const WAITING = 7;

/** Lays the nodes of a passage so that every one of these winds, the sea and what else of the weather there is can be felt on them. */
export function nodesOf(
  passed: Passed,
  winds: readonly WindSampler[],
  sea: SeaSampler | null,
  others: readonly RangedSampler[] = [],
): PassageNodes {
  const { out, open, into } = passed;
  const last = open.count - 1;
  const from = out === null ? (open.atSeconds[0] as number) : (out.atSeconds[0] as number);
  const until = into === null ? (open.atSeconds[last] as number) : (into.atSeconds[into.count - 1] as number);
  // A jump just at the end has its near side within the passage: the last node itself stands on the far side.
  const jumps = new Set<number>();
  for (const weather of [...winds, ...(sea === null ? [] : [sea]), ...others])
    for (const at of weather.breaksWithin(from, until + JUMP_SECONDS)) jumps.add(at);
  const breaks: number[] = [];
  for (const at of jumps) breaks.push(at - JUMP_SECONDS, at, at + JUMP_SECONDS);
  breaks.sort((a, b) => a - b);
  const rows: number[] = [];
  let next = 0;
  const addRun = (run: PilotageRun | Track, part: number, track: Track | null): void => {
    for (let i = 0; i < run.count; i++) {
      const at = run.atSeconds[i] as number;
      const waiting = "waiting" in run ? (run.waiting?.[i] ?? 0) : 0;
      if (i > 0) {
        const before = run.atSeconds[i - 1] as number;
        while (next < breaks.length && (breaks[next] as number) < at) {
          const moment = breaks[next++] as number;
          if (moment <= before) continue;
          const share = (moment - before) / (at - before);
          const mix = (values: Float64Array | undefined): number =>
            values === undefined ? 0 : (values[i - 1] as number) + share * ((values[i] as number) - (values[i - 1] as number));
          const answeredBy = track === null ? NOT_RECKONED : Math.min(track.answeredBy[i - 1] as number, track.answeredBy[i] as number);
          rows.push(
            moment,
            mix(run.xMetres),
            mix(run.yMetres),
            part,
            mix(track?.currentEastMps),
            mix(track?.currentNorthMps),
            answeredBy,
            waiting,
          );
        }
      }
      const x = run.xMetres[i] as number;
      const y = run.yMetres[i] as number;
      if (track === null) rows.push(at, x, y, part, 0, 0, NOT_RECKONED, waiting);
      else {
        const [east, north] = [track.currentEastMps[i] as number, track.currentNorthMps[i] as number];
        rows.push(at, x, y, part, east, north, track.answeredBy[i] as number, waiting);
      }
    }
  };
  if (out !== null) addRun(out, OUT_OF_HARBOUR, null);
  addRun(open, OPEN_WATER, open);
  if (into !== null) addRun(into, ARRIVAL, null);
  else rows.push(...rows.slice(-NUMBERS).map((value, k) => (k === PART ? ARRIVAL : value)));
  const nodes = inColumns(open.plane, rows, sumsOf(open).fuelLitres);
  return out?.waiting === undefined && into?.waiting === undefined ? nodes : { ...nodes, waiting: waitingOf(rows) };
}

function inColumns(plane: Plane, rows: readonly number[], openWaterFuelLitres: number): PassageNodes {
  const count = rows.length / NUMBERS;
  const numbers = new Float64Array(5 * count);
  const nodes = {
    plane,
    count,
    atSeconds: numbers.subarray(0, count),
    xMetres: numbers.subarray(count, 2 * count),
    yMetres: numbers.subarray(2 * count, 3 * count),
    part: new Uint8Array(count),
    currentEastMps: numbers.subarray(3 * count, 4 * count),
    currentNorthMps: numbers.subarray(4 * count),
    answeredBy: new Int16Array(count),
    openWaterFuelLitres,
  };
  for (let i = 0; i < count; i++) {
    const k = i * NUMBERS;
    nodes.atSeconds[i] = rows[k] as number;
    nodes.xMetres[i] = rows[k + 1] as number;
    nodes.yMetres[i] = rows[k + 2] as number;
    nodes.part[i] = rows[k + PART] as number;
    nodes.currentEastMps[i] = rows[k + 4] as number;
    nodes.currentNorthMps[i] = rows[k + 5] as number;
    nodes.answeredBy[i] = rows[k + 6] as number;
  }
  return nodes;
}

function waitingOf(rows: readonly number[]): Uint8Array {
  return Uint8Array.from({ length: rows.length / NUMBERS }, (_, i) => rows[i * NUMBERS + WAITING] as number);
}
