import { sunPlace } from "../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_VARIABLE } from "../fields/index.ts";
import { OVERHEAD_SUN_DEG } from "../places/index.ts";
import { degFromRad, epochSeconds, turnDeg } from "../units/index.ts";
import {
  RANGED_HIGH,
  RANGED_LOW,
  RANGED_SLOTS,
  type RangedSampler,
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_HEIGHT_LOW_METRES,
  SEA_LACKS_SWELL,
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
import type { FeltColumn } from "./felt-column.ts";
import type { FeltAlong } from "./limit.ts";
import { type Before, feelWhole, withBefore } from "./once/felt-once.ts";
import type { WholePassage } from "./once/once-value.ts";
import type { PassageFacts } from "./once/passage-facts.ts";
import { ARRIVAL, nodesOf, type PassageNodes, type Passed } from "./passage-nodes.ts";
import { SeaOnStream } from "./sea-on-stream.ts";
import { type Range, speedRangeOf, windAgainstRangeOf } from "./wind-felt.ts";

/**
 * What a passage would meet: one row a node. Between nodes a value goes in a straight line. The sun is reckoned on arrival only; wind
 * against current only where the water is known, so not in harbour. Kept whole for each departure, so that a new limit needs no new run.
 */
export interface Exposure extends PassageNodes {
  readonly columns: Readonly<Record<FeltAlong, FeltColumn>>;
  /** What the passage has one figure of. */
  readonly whole: WholePassage;
  /** Any gust along the way that is a factor on the wind, for want of one in the source. */
  readonly gustAssumed: boolean;
  /** The steps of the forecast inside which the wind turns by more than a right angle, so that the worse end holds. */
  readonly shiftSteps: number;
  /** 1 where the sea is one raised by the wind alone and what swell runs isn't known; left out where that is nowhere. */
  readonly seaLacksSwell?: Uint8Array;
}

/** What is felt beside wind and sea. Null: no source gives it, or it is not stated. */
export interface FeltBeside {
  readonly visibility: RangedSampler | null;
  readonly thunderstorms: RangedSampler | null;
  readonly facts: PassageFacts | null;
  /** What the source of the sea covers in time. */
  readonly seaCovers: { readonly from: number; readonly until: number } | null;
}

/** Nothing beside wind and sea. */
export const NOTHING_BESIDE: FeltBeside = { visibility: null, thunderstorms: null, facts: null, seaCovers: null };

/** No sea at all has no period; a limit on it counts it as so long, seconds. Ours. */
export const NO_SEA_PERIOD_SECONDS = 60;

/** The samplers among what is felt beside wind and sea, for `nodesOf`. */
export function samplersBeside({ visibility, thunderstorms }: FeltBeside): readonly RangedSampler[] {
  return [visibility, thunderstorms].filter((one) => one !== null);
}

/** Feels the weather along a passage. `sea` null: no source gives a sea. `before` tells what lay behind it, once its nodes stand. */
export function feel(
  passed: Passed,
  wind: WindSampler,
  sea: SeaSampler | null,
  beside: FeltBeside = NOTHING_BESIDE,
  before: (nodes: PassageNodes) => Before | null = () => null,
): Exposure {
  const nodes = nodesOf(passed, [wind], sea, samplersBeside(beside));
  return feelOn(nodes, wind, sea, beside, before(nodes));
}

/** Feels the weather on nodes laid for this wind and sea and what is beside them. */
export function feelOn(
  nodes: PassageNodes,
  wind: WindSampler,
  sea: SeaSampler | null,
  beside: FeltBeside = NOTHING_BESIDE,
  before: Before | null = null,
): Exposure {
  const felt = windOn(nodes, wind);
  const seas = seaOn(nodes, sea, wind);
  const columns = {
    ...felt.columns,
    ...seas.columns,
    ...besideOn(nodes, beside),
    ...sunOn(nodes, beside.facts?.approachDegTrue ?? null),
  };
  const { lacksSwell } = seas;
  return {
    ...nodes,
    ...felt,
    columns,
    whole: feelWhole(nodes, knownWhole(columns.seaHeightMetres, lacksSwell), beside.seaCovers, beside.facts, before),
    ...(lacksSwell === null ? {} : { seaLacksSwell: lacksSwell }),
  };
}

/** The same passage under another wind, for which the nodes were laid too: sun and all that the wind does not touch are shared, and so is the sea, even one raised by the wind. */
export function feelUnder(exposure: Exposure, wind: WindSampler, before: Before | null = null): Exposure {
  const felt = windOn(exposure, wind);
  return { ...exposure, ...felt, columns: { ...exposure.columns, ...felt.columns }, whole: withBefore(exposure, exposure.whole, before) };
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

function seaOn(nodes: PassageNodes, sea: SeaSampler | null, wind: WindSampler) {
  const { plane, count, atSeconds, xMetres, yMetres } = nodes;
  if (sea === null) {
    // What no source gives is the same nothing for all.
    const [nothing] = emptyColumns(count, 1) as [FeltColumn];
    return {
      columns: {
        seaHeightMetres: nothing,
        seaPeriodSeconds: nothing,
        seaSteepness: nothing,
        seaOnCurrentMetres: nothing,
        seaSecondsPerMetre: nothing,
      },
      lacksSwell: null,
    };
  }
  const [seaHeightMetres, seaPeriodSeconds, seaSteepness, seaOnCurrentMetres, seaSecondsPerMetre] = emptyColumns(count, 5) as [
    FeltColumn,
    FeltColumn,
    FeltColumn,
    FeltColumn,
    FeltColumn,
  ];
  const columns = { seaHeightMetres, seaPeriodSeconds, seaSteepness, seaOnCurrentMetres, seaSecondsPerMetre };
  const out = new Float64Array(SEA_SLOTS);
  const windOut = new Float64Array(WIND_SLOTS);
  const onStream = new SeaOnStream(sea);
  let lacksSwell: Uint8Array | null = null;
  for (let i = 0; i < count; i++) {
    const [x, y, at] = [xMetres[i] as number, yMetres[i] as number, atSeconds[i] as number];
    const coverage: Coverage = sea.readInto(out, x, y, at);
    if (coverage !== COVERED) {
      for (const column of Object.values(columns)) column.coverage[i] = coverage;
      continue;
    }
    if (out[SEA_LACKS_SWELL] === 1) {
      lacksSwell ??= new Uint8Array(count);
      lacksSwell[i] = 1;
    }
    put(columns.seaHeightMetres, i, out[SEA_HEIGHT_LOW_METRES] as number, out[SEA_HEIGHT_HIGH_METRES] as number);
    if (out[SEA_HAS_PERIOD] === 1) {
      put(columns.seaPeriodSeconds, i, out[SEA_PERIOD_LOW_SECONDS] as number, out[SEA_PERIOD_HIGH_SECONDS] as number);
    } else if (out[SEA_HEIGHT_HIGH_METRES] === 0) put(columns.seaPeriodSeconds, i, NO_SEA_PERIOD_SECONDS, NO_SEA_PERIOD_SECONDS);
    if ((nodes.answeredBy[i] as number) < 0) {
      for (const column of [seaSteepness, seaOnCurrentMetres, seaSecondsPerMetre]) column.coverage[i] = NO_PLACE;
      continue;
    }
    const here = {
      xMetres: x,
      yMetres: y,
      at,
      eastMps: nodes.currentEastMps[i] as number,
      northMps: nodes.currentNorthMps[i] as number,
      convergenceDeg: plane.convergenceDegAt(x, y),
    };
    const windHere = wind.readInto(windOut, x, y, at) === COVERED ? windOut : null;
    if (!onStream.reckon(here, out, windHere)) continue;
    put(columns.seaSteepness, i, onStream.steepnessLow, onStream.steepnessHigh);
    put(columns.seaOnCurrentMetres, i, onStream.heightLowMetres, onStream.heightHighMetres);
    put(columns.seaSecondsPerMetre, i, onStream.secondsPerMetreLow, onStream.secondsPerMetreHigh);
  }
  return { columns, lacksSwell };
}

/** A column of the sea without what lacks its swell: for what must be on the safe side, as the water left under a keel. */
function knownWhole(column: FeltColumn, lacksSwell: Uint8Array | null): FeltColumn {
  if (lacksSwell === null) return column;
  return {
    ...column,
    coverage: column.coverage.map((coverage, i) => (lacksSwell[i] === 1 && coverage === COVERED ? NO_VARIABLE : coverage)),
  };
}

function besideOn(nodes: PassageNodes, { visibility, thunderstorms }: FeltBeside) {
  // What no source gives is the same nothing for both.
  const [first, second] = emptyColumns(nodes.count, visibility === null && thunderstorms === null ? 1 : 2) as [FeltColumn, FeltColumn?];
  return {
    visibilityMetres: rangedOn(first, nodes, visibility),
    thunderstormShare: rangedOn(second ?? first, nodes, thunderstorms),
  };
}

function rangedOn(column: FeltColumn, nodes: PassageNodes, sampler: RangedSampler | null): FeltColumn {
  if (sampler === null) return column;
  const { count, atSeconds, xMetres, yMetres } = nodes;
  const out = new Float64Array(RANGED_SLOTS);
  for (let i = 0; i < count; i++) {
    const coverage = sampler.readInto(out, xMetres[i] as number, yMetres[i] as number, atSeconds[i] as number);
    if (coverage === COVERED) put(column, i, out[RANGED_LOW] as number, out[RANGED_HIGH] as number);
    else column.coverage[i] = coverage;
  }
  return column;
}

export { OVERHEAD_SUN_DEG };

/** The sun on arrival: how high, and how far off the bow, along the way in or on the stated approach. */
function sunOn(nodes: PassageNodes, approachDegTrue: number | null) {
  const { plane, count, part, atSeconds, xMetres, yMetres } = nodes;
  const [altitude, offBow] = emptyColumns(count, 2) as [FeltColumn, FeltColumn];
  for (let i = 0; i < count; i++) {
    if (part[i] !== ARRIVAL) {
      altitude.coverage[i] = NO_PLACE;
      offBow.coverage[i] = NO_PLACE;
      continue;
    }
    const sun = sunPlace(
      epochSeconds(atSeconds[goesOnAt(nodes, i)] as number),
      plane.toPosition(xMetres[i] as number, yMetres[i] as number),
    );
    put(altitude, i, sun.altitudeDeg, sun.altitudeDeg);
    const course = approachDegTrue ?? courseAt(nodes, i);
    if (course === null) continue;
    // Below the horizon it blinds no more than overhead; that it is dark is for the limit on its height.
    const blinds = sun.altitudeDeg > 0 && sun.altitudeDeg <= OVERHEAD_SUN_DEG;
    const angle = blinds ? Math.abs(turnDeg(course, sun.azimuthDegTrue)) : 180;
    put(offBow, i, angle, angle);
  }
  return { sunAltitudeDeg: altitude, eyeballSunAltitudeDeg: altitude, sunOffBowDeg: offBow };
}

/** The node at which she goes on from where she lies at a node: while she waits before a gate no light is wanted, but when she passes it. */
function goesOnAt({ waiting, count }: PassageNodes, node: number): number {
  let last = node;
  if (waiting?.[node] === 1) while (last + 1 < count && waiting[last + 1] === 1) last++;
  return last;
}

/** The course made good on the way in from a node on, at its end the last one; null where there is no way in. */
function courseAt({ plane, count, part, xMetres, yMetres }: PassageNodes, node: number): number | null {
  const from = node + 1 < count ? node : node - 1;
  if (from < 0 || part[from] !== ARRIVAL) return null;
  const [x, y] = [xMetres[from] as number, yMetres[from] as number];
  const [dx, dy] = [(xMetres[from + 1] as number) - x, (yMetres[from + 1] as number) - y];
  return dx === 0 && dy === 0 ? null : degFromRad(Math.atan2(dx, dy)) + plane.convergenceDegAt(x, y);
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
