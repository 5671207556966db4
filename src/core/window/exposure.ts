import { sunAltitudeDeg } from "../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_VARIABLE } from "../fields/index.ts";
import { epochSeconds } from "../units/index.ts";
import {
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_HEIGHT_LOW_METRES,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_PERIOD_LOW_SECONDS,
  SEA_SLOTS,
  type SeaSampler,
  WIND_ENDS,
  WIND_GUST_ASSUMED,
  WIND_GUST_MPS,
  WIND_SLOTS,
  type WindSampler,
} from "../weather/index.ts";
import type { Felt } from "./limit.ts";
import { ARRIVAL, nodesOf, type PassageNodes, type Passed } from "./passage-nodes.ts";
import { type Range, speedRangeOf, windAgainstRangeOf } from "./wind-felt.ts";

/** What is felt of one quantity along the passage: the low and the high end at each node, and whether it is known there (a `Coverage`). */
export interface FeltColumn {
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly coverage: Uint8Array;
}

/**
 * What a passage would meet: one row a node. Between nodes a value goes in a straight line. The sun is reckoned on arrival only; wind
 * against current only where the water is known, so not in harbour. Kept whole for each departure, so that a new limit needs no new run.
 */
export interface Exposure extends PassageNodes {
  readonly columns: Readonly<Record<Felt, FeltColumn>>;
  /** Any gust along the way that is a factor on the wind, for want of one in the source. */
  readonly gustAssumed: boolean;
  /** The steps of the forecast inside which the wind turns by more than a right angle, so that the worse end holds. */
  readonly shiftSteps: number;
}

/** Feels the weather along a passage. `sea` null: no source gives a sea. */
export function feel(passed: Passed, wind: WindSampler, sea: SeaSampler | null): Exposure {
  return feelOn(nodesOf(passed, [wind], sea), wind, sea);
}

/** Feels the weather on nodes laid for this wind and sea. */
export function feelOn(nodes: PassageNodes, wind: WindSampler, sea: SeaSampler | null): Exposure {
  const felt = windOn(nodes, wind);
  return { ...nodes, ...felt, columns: { ...felt.columns, ...seaOn(nodes, sea), sunAltitudeDeg: sunOn(nodes) } };
}

/** The same passage under another wind, for which the nodes were laid too: sea and sun are the same and shared. */
export function feelUnder(exposure: Exposure, wind: WindSampler): Exposure {
  const felt = windOn(exposure, wind);
  return { ...exposure, ...felt, columns: { ...exposure.columns, ...felt.columns } };
}

function windOn(nodes: PassageNodes, wind: WindSampler) {
  const { plane, count, atSeconds, xMetres, yMetres } = nodes;
  const [windMps, gustMps, windAgainstCurrentMps2] = emptyColumns(count, 3) as [FeltColumn, FeltColumn, FeltColumn];
  const columns = { windMps, gustMps, windAgainstCurrentMps2 };
  const out = new Float64Array(WIND_SLOTS);
  const range: Range = { low: 0, high: 0 };
  let gustAssumed = false;
  let shiftSteps = 0;
  let shifting = false;
  for (let i = 0; i < count; i++) {
    const x = xMetres[i] as number;
    const y = yMetres[i] as number;
    const coverage: Coverage = wind.readInto(out, x, y, atSeconds[i] as number);
    if (coverage !== COVERED) {
      columns.windMps.coverage[i] = coverage;
      columns.gustMps.coverage[i] = coverage;
      columns.windAgainstCurrentMps2.coverage[i] = coverage;
      continue;
    }
    speedRangeOf(out, range);
    put(columns.windMps, i, range.low, range.high);
    put(columns.gustMps, i, out[WIND_GUST_MPS] as number, out[WIND_GUST_MPS] as number);
    if (out[WIND_GUST_ASSUMED] === 1) gustAssumed = true;
    const shift = out[WIND_ENDS] === 2;
    if (shift && !shifting) shiftSteps++;
    shifting = shift;
    if ((nodes.answeredBy[i] as number) < 0) columns.windAgainstCurrentMps2.coverage[i] = NO_PLACE;
    else {
      windAgainstRangeOf(out, nodes.currentEastMps[i] as number, nodes.currentNorthMps[i] as number, plane.convergenceDegAt(x, y), range);
      put(columns.windAgainstCurrentMps2, i, range.low, range.high);
    }
  }
  return { columns, gustAssumed, shiftSteps };
}

function seaOn(nodes: PassageNodes, sea: SeaSampler | null) {
  const { count, atSeconds, xMetres, yMetres } = nodes;
  const [seaHeightMetres, seaPeriodSeconds] = emptyColumns(count, 2) as [FeltColumn, FeltColumn];
  const columns = { seaHeightMetres, seaPeriodSeconds };
  if (sea === null) return columns;
  const out = new Float64Array(SEA_SLOTS);
  for (let i = 0; i < count; i++) {
    const coverage: Coverage = sea.readInto(out, xMetres[i] as number, yMetres[i] as number, atSeconds[i] as number);
    if (coverage !== COVERED) {
      columns.seaHeightMetres.coverage[i] = coverage;
      columns.seaPeriodSeconds.coverage[i] = coverage;
      continue;
    }
    put(columns.seaHeightMetres, i, out[SEA_HEIGHT_LOW_METRES] as number, out[SEA_HEIGHT_HIGH_METRES] as number);
    if (out[SEA_HAS_PERIOD] === 1) {
      put(columns.seaPeriodSeconds, i, out[SEA_PERIOD_LOW_SECONDS] as number, out[SEA_PERIOD_HIGH_SECONDS] as number);
    }
  }
  return columns;
}

function sunOn({ plane, count, part, atSeconds, xMetres, yMetres }: PassageNodes): FeltColumn {
  const [column] = emptyColumns(count, 1) as [FeltColumn];
  for (let i = 0; i < count; i++) {
    if (part[i] !== ARRIVAL) {
      column.coverage[i] = NO_PLACE;
      continue;
    }
    const altitude = sunAltitudeDeg(epochSeconds(atSeconds[i] as number), plane.toPosition(xMetres[i] as number, yMetres[i] as number));
    put(column, i, altitude, altitude);
  }
  return column;
}

/** Empty columns cut from one piece of memory: many small ones cost more than what is written into them. */
function emptyColumns(count: number, howMany: number): FeltColumn[] {
  const values = new Float64Array(2 * howMany * count);
  const coverage = new Uint8Array(howMany * count).fill(NO_VARIABLE);
  return Array.from({ length: howMany }, (_, k) => ({
    low: values.subarray(2 * k * count, (2 * k + 1) * count),
    high: values.subarray((2 * k + 1) * count, (2 * k + 2) * count),
    coverage: coverage.subarray(k * count, (k + 1) * count),
  }));
}

function put(column: FeltColumn, i: number, low: number, high: number): void {
  column.low[i] = low;
  column.high[i] = high;
  column.coverage[i] = COVERED;
}
