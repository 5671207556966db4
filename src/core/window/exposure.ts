import { type Plane, sunAltitudeDeg } from "../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_VARIABLE } from "../fields/index.ts";
import type { PilotageRun, Track } from "../passage/index.ts";
import { epochSeconds } from "../units/index.ts";
import {
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_HEIGHT_LOW_METRES,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_PERIOD_LOW_SECONDS,
  SEA_SLOTS,
  type SeaSampler,
  WIND_GUST_ASSUMED,
  WIND_GUST_MPS,
  WIND_SLOTS,
  type WindSampler,
} from "../weather/index.ts";
import type { Felt } from "./limit.ts";
import { type Range, speedRangeOf, windAgainstRangeOf } from "./wind-felt.ts";

/** Which part of the passage a node belongs to. */
export const OUT_OF_HARBOUR = 0;
export const OPEN_WATER = 1;
export const ARRIVAL = 2;

/** What is felt of one quantity along the passage: the low and the high end at each node, and whether it is known there (a `Coverage`). */
export interface FeltColumn {
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly coverage: Uint8Array;
}

/**
 * What a passage would meet: one row a node, in time order. Nodes are those of the run and, on both sides, every instant at which the
 * weather jumps; the arrival point stands twice, as the end of open water and as the first of the arrival. Between nodes a value goes in
 * a straight line. The sun is reckoned on arrival only; wind against current only where the water is known, so not in harbour. Kept
 * whole for each departure, so that a new limit needs no new run.
 */
export interface Exposure {
  readonly plane: Plane;
  readonly count: number;
  readonly atSeconds: Float64Array;
  readonly xMetres: Float64Array;
  readonly yMetres: Float64Array;
  readonly part: Uint8Array;
  readonly columns: Readonly<Record<Felt, FeltColumn>>;
  /** Any gust along the way that is a factor on the wind, for want of one in the source. */
  readonly gustAssumed: boolean;
  /** The steps of the forecast inside which the wind turns by more than a right angle, so that the worse end holds. */
  readonly shiftSteps: number;
}

/** A whole passage to be felt: out of harbour, open water, and in. */
export interface Passed {
  readonly out: PilotageRun | null;
  readonly open: Track;
  readonly into: PilotageRun | null;
}

/** How long before a jump its near side stands, seconds. */
const JUMP_SECONDS = 1;
/** What answers for the water on a leg in or out of harbour: nobody, it is not reckoned there. */
const NOT_RECKONED = -100;

/** Feels the weather along a passage. `sea` null: no source gives a sea. */
export function feel(passed: Passed, wind: WindSampler, sea: SeaSampler | null): Exposure {
  const nodes = nodesOf(passed, wind, sea);
  const { count, atSeconds, xMetres, yMetres, part } = nodes;
  const columns = {
    windMps: emptyColumn(count),
    gustMps: emptyColumn(count),
    windAgainstCurrentMps2: emptyColumn(count),
    seaHeightMetres: emptyColumn(count),
    seaPeriodSeconds: emptyColumn(count),
    sunAltitudeDeg: emptyColumn(count),
  };
  const plane = passed.open.plane;
  const windOut = new Float64Array(WIND_SLOTS);
  const seaOut = new Float64Array(SEA_SLOTS);
  const range: Range = { low: 0, high: 0 };
  let gustAssumed = false;
  let shiftSteps = 0;
  let shifting = false;
  for (let i = 0; i < count; i++) {
    const x = xMetres[i] as number;
    const y = yMetres[i] as number;
    const at = atSeconds[i] as number;
    const windCoverage: Coverage = wind.readInto(windOut, x, y, at);
    if (windCoverage === COVERED) {
      speedRangeOf(windOut, range);
      put(columns.windMps, i, range.low, range.high);
      put(columns.gustMps, i, windOut[WIND_GUST_MPS] as number, windOut[WIND_GUST_MPS] as number);
      if (windOut[WIND_GUST_ASSUMED] === 1) gustAssumed = true;
      const shift = windOut[0] === 2;
      if (shift && !shifting) shiftSteps++;
      shifting = shift;
      if ((nodes.answeredBy[i] as number) < 0) columns.windAgainstCurrentMps2.coverage[i] = NO_PLACE;
      else {
        windAgainstRangeOf(windOut, nodes.currentEast[i] as number, nodes.currentNorth[i] as number, plane.convergenceDegAt(x, y), range);
        put(columns.windAgainstCurrentMps2, i, range.low, range.high);
      }
    } else {
      for (const column of [columns.windMps, columns.gustMps, columns.windAgainstCurrentMps2]) column.coverage[i] = windCoverage;
    }
    const seaCoverage: Coverage = sea === null ? NO_VARIABLE : sea.readInto(seaOut, x, y, at);
    if (seaCoverage === COVERED) {
      put(columns.seaHeightMetres, i, seaOut[SEA_HEIGHT_LOW_METRES] as number, seaOut[SEA_HEIGHT_HIGH_METRES] as number);
      if (seaOut[SEA_HAS_PERIOD] === 1) {
        put(columns.seaPeriodSeconds, i, seaOut[SEA_PERIOD_LOW_SECONDS] as number, seaOut[SEA_PERIOD_HIGH_SECONDS] as number);
      }
    } else {
      columns.seaHeightMetres.coverage[i] = seaCoverage;
      columns.seaPeriodSeconds.coverage[i] = seaCoverage;
    }
    if (part[i] === ARRIVAL) {
      const altitude = sunAltitudeDeg(epochSeconds(at), plane.toPosition(x, y));
      put(columns.sunAltitudeDeg, i, altitude, altitude);
    } else columns.sunAltitudeDeg.coverage[i] = NO_PLACE;
  }
  return { plane, count, atSeconds, xMetres, yMetres, part, columns, gustAssumed, shiftSteps };
}

function emptyColumn(count: number): FeltColumn {
  return { low: new Float64Array(count), high: new Float64Array(count), coverage: new Uint8Array(count).fill(NO_VARIABLE) };
}

function put(column: FeltColumn, i: number, low: number, high: number): void {
  column.low[i] = low;
  column.high[i] = high;
  column.coverage[i] = COVERED;
}

interface Nodes {
  readonly count: number;
  readonly atSeconds: Float64Array;
  readonly xMetres: Float64Array;
  readonly yMetres: Float64Array;
  readonly part: Uint8Array;
  readonly currentEast: Float64Array;
  readonly currentNorth: Float64Array;
  readonly answeredBy: Int16Array;
}

/** The passage's own nodes and, between them, both sides of every jump of the weather. */
function nodesOf(passed: Passed, wind: WindSampler, sea: SeaSampler | null): Nodes {
  const { out, open, into } = passed;
  const last = open.count - 1;
  const from = out === null ? (open.atSeconds[0] as number) : (out.atSeconds[0] as number);
  const until = into === null ? (open.atSeconds[last] as number) : (into.atSeconds[into.count - 1] as number);
  // A jump just at the end has its near side within the passage: the last node itself stands on the far side.
  const jumps = new Set<number>(wind.breaksWithin(from, until + JUMP_SECONDS));
  if (sea !== null) for (const at of sea.breaksWithin(from, until + JUMP_SECONDS)) jumps.add(at);
  const breaks: number[] = [];
  for (const at of jumps) breaks.push(at - JUMP_SECONDS, at);
  breaks.sort((a, b) => a - b);
  const rows: number[] = [];
  let next = 0;
  const add = (at: number, x: number, y: number, part: number, east: number, north: number, answeredBy: number): void => {
    rows.push(at, x, y, part, east, north, answeredBy);
  };
  const addRun = (
    run: { readonly count: number; readonly atSeconds: Float64Array; readonly xMetres: Float64Array; readonly yMetres: Float64Array },
    part: number,
    track: Track | null,
  ): void => {
    for (let i = 0; i < run.count; i++) {
      const at = run.atSeconds[i] as number;
      if (i > 0) {
        const before = run.atSeconds[i - 1] as number;
        while (next < breaks.length && (breaks[next] as number) < at) {
          const moment = breaks[next++] as number;
          if (moment <= before) continue;
          const share = (moment - before) / (at - before);
          const mix = (values: Float64Array | undefined): number =>
            values === undefined ? 0 : (values[i - 1] as number) + share * ((values[i] as number) - (values[i - 1] as number));
          const answeredBy = track === null ? NOT_RECKONED : Math.min(track.answeredBy[i - 1] as number, track.answeredBy[i] as number);
          add(moment, mix(run.xMetres), mix(run.yMetres), part, mix(track?.currentEastMps), mix(track?.currentNorthMps), answeredBy);
        }
      }
      add(
        at,
        run.xMetres[i] as number,
        run.yMetres[i] as number,
        part,
        track?.currentEastMps[i] ?? 0,
        track?.currentNorthMps[i] ?? 0,
        track?.answeredBy[i] ?? NOT_RECKONED,
      );
    }
  };
  if (out !== null) addRun(out, OUT_OF_HARBOUR, null);
  addRun(open, OPEN_WATER, open);
  if (into !== null) addRun(into, ARRIVAL, null);
  else rows.push(...rows.slice(-7).map((value, k) => (k === 3 ? ARRIVAL : value)));
  const count = rows.length / 7;
  const column = (k: number): Float64Array => Float64Array.from({ length: count }, (_, i) => rows[i * 7 + k] as number);
  return {
    count,
    atSeconds: column(0),
    xMetres: column(1),
    yMetres: column(2),
    part: Uint8Array.from(column(3)),
    currentEast: column(4),
    currentNorth: column(5),
    answeredBy: Int16Array.from(column(6)),
  };
}
