import type { Plane } from "../earth/index.ts";
import { ASSUMED_STILL, NEAREST_KNOWN } from "../water/index.ts";

/**
 * Where a boat was and what moved her, node by node, as the simulation went. All arrays have `count` entries.
 *
 * `atSeconds`: UTC epoch. `xMetres`, `yMetres`: on the plane. `headingDegTrue`: where the bow points from this node on.
 * `currentEastMps`, `currentNorthMps`: in the plane's frame, toward. `throughWaterMps`: speed through the water.
 * `burnLitresPerHour` and `engineOn` (1 or 0) from this node on. `answeredBy`: which source gave the current (negative: assumed).
 */
export interface Track {
  readonly plane: Plane;
  readonly count: number;
  readonly atSeconds: Float64Array;
  readonly xMetres: Float64Array;
  readonly yMetres: Float64Array;
  readonly headingDegTrue: Float64Array;
  readonly currentEastMps: Float64Array;
  readonly currentNorthMps: Float64Array;
  readonly throughWaterMps: Float64Array;
  readonly burnLitresPerHour: Float64Array;
  readonly engineOn: Uint8Array;
  readonly answeredBy: Int16Array;
}

const NUMBERS = 8;
/** So many buffers wait to be used again: runs lie one within another, but not deeply. */
const MOST_SPARE = 8;

interface Buffers {
  readonly numbers: Float64Array;
  readonly flags: Int16Array;
}

const NONE = new Float64Array(0);
const NO_FLAGS = new Int16Array(0);

/** Buffers of recorders that have finished: a week's board records thousands of runs, and fresh memory costs more than what is written into it. */
const spare: Buffers[] = [];

/** Collects nodes while a simulation runs; `finish` cuts a `Track` of just the right size, after which nothing may be added. */
export class TrackRecorder {
  private numbers: Float64Array = NONE;
  private flags: Int16Array = NO_FLAGS;
  private count = 0;
  private hasFinished = false;

  add(
    at: number,
    x: number,
    y: number,
    headingDegTrue: number,
    currentEastMps: number,
    currentNorthMps: number,
    throughWaterMps: number,
    burnLitresPerHour: number,
    engineOn: boolean,
    answeredBy: number,
  ): void {
    if ((this.count + 1) * NUMBERS > this.numbers.length) this.grow();
    const i = this.count * NUMBERS;
    const numbers = this.numbers;
    numbers[i] = at;
    numbers[i + 1] = x;
    numbers[i + 2] = y;
    numbers[i + 3] = headingDegTrue;
    numbers[i + 4] = currentEastMps;
    numbers[i + 5] = currentNorthMps;
    numbers[i + 6] = throughWaterMps;
    numbers[i + 7] = burnLitresPerHour;
    this.flags[this.count * 2] = engineOn ? 1 : 0;
    this.flags[this.count * 2 + 1] = answeredBy;
    this.count++;
  }

  /** Takes back the last node: a leg's first node replaces the last of the leg before, which stands at the same place and time. */
  dropLast(): void {
    if (this.count > 0) this.count--;
  }

  get length(): number {
    return this.count;
  }

  private grow(): void {
    if (this.hasFinished) throw new Error("a track that was finished goes on");
    if (this.numbers === NONE) {
      const { numbers, flags } = spare.pop() ?? { numbers: new Float64Array(256 * NUMBERS), flags: new Int16Array(256 * 2) };
      this.numbers = numbers;
      this.flags = flags;
      return;
    }
    const numbers = new Float64Array(this.numbers.length * 2);
    numbers.set(this.numbers);
    this.numbers = numbers;
    const flags = new Int16Array(this.flags.length * 2);
    flags.set(this.flags);
    this.flags = flags;
  }

  finish(plane: Plane): Track {
    const { count, numbers, flags } = this;
    // One piece of memory for all columns: many small ones cost more than what is written into them.
    const values = new Float64Array(NUMBERS * count);
    const engineOn = new Uint8Array(count);
    const answeredBy = new Int16Array(count);
    for (let i = 0; i < count; i++) {
      for (let k = 0; k < NUMBERS; k++) values[k * count + i] = numbers[i * NUMBERS + k] as number;
      engineOn[i] = flags[i * 2] as number;
      answeredBy[i] = flags[i * 2 + 1] as number;
    }
    this.hasFinished = true;
    this.numbers = NONE;
    this.flags = NO_FLAGS;
    if (numbers !== NONE && spare.length < MOST_SPARE) spare.push({ numbers, flags });
    const column = (k: number): Float64Array => values.subarray(k * count, (k + 1) * count);
    return {
      plane,
      count,
      atSeconds: column(0),
      xMetres: column(1),
      yMetres: column(2),
      headingDegTrue: column(3),
      currentEastMps: column(4),
      currentNorthMps: column(5),
      throughWaterMps: column(6),
      burnLitresPerHour: column(7),
      engineOn,
      answeredBy,
    };
  }
}

/** Index of the node at or before an instant (the first node for anything earlier). */
export function nodeAt(track: Track, at: number): number {
  let low = 0;
  let high = track.count - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((track.atSeconds[middle] as number) <= at) low = middle;
    else high = middle;
  }
  return (track.atSeconds[high] as number) <= at ? high : low;
}

/** The place on the plane at an instant, by straight lines between nodes; held at the ends. */
export function placeAt(track: Track, at: number): { readonly xMetres: number; readonly yMetres: number } {
  const node = nodeAt(track, at);
  const next = Math.min(node + 1, track.count - 1);
  const from = track.atSeconds[node] as number;
  const until = track.atSeconds[next] as number;
  const share = until > from ? Math.min(1, Math.max(0, (at - from) / (until - from))) : 0;
  const x = track.xMetres[node] as number;
  const y = track.yMetres[node] as number;
  return {
    xMetres: x + share * ((track.xMetres[next] as number) - x),
    yMetres: y + share * ((track.yMetres[next] as number) - y),
  };
}

/** Rate of the current at a node, m/s. */
export function rateAtNode(track: Track, node: number): number {
  const east = track.currentEastMps[node] as number;
  const north = track.currentNorthMps[node] as number;
  return Math.sqrt(east * east + north * north);
}

/** What a track adds up to: distances in metres, fuel in litres, share of the time on assumed water. */
export interface TrackSums {
  readonly throughWaterMetres: number;
  readonly overGroundMetres: number;
  readonly fuelLitres: number;
  readonly engineSeconds: number;
  readonly assumedWaterShare: number;
}

const isAssumed = (answeredBy: number): boolean => answeredBy === ASSUMED_STILL || answeredBy === NEAREST_KNOWN;

/**
 * Adds a track up, node to node (trapezoids for speeds, the value from each node on for the engine). Water is assumed between two nodes
 * where it is at either.
 */
export function sumsOf(track: Track): TrackSums {
  let throughWaterMetres = 0;
  let overGroundMetres = 0;
  let fuelLitres = 0;
  let engineSeconds = 0;
  let assumedSeconds = 0;
  for (let i = 0; i + 1 < track.count; i++) {
    const seconds = (track.atSeconds[i + 1] as number) - (track.atSeconds[i] as number);
    const dx = (track.xMetres[i + 1] as number) - (track.xMetres[i] as number);
    const dy = (track.yMetres[i + 1] as number) - (track.yMetres[i] as number);
    throughWaterMetres += (seconds * ((track.throughWaterMps[i] as number) + (track.throughWaterMps[i + 1] as number))) / 2;
    overGroundMetres += Math.sqrt(dx * dx + dy * dy);
    fuelLitres += (seconds / 3600) * (track.burnLitresPerHour[i] as number);
    if (track.engineOn[i] === 1) engineSeconds += seconds;
    if (isAssumed(track.answeredBy[i] as number) || isAssumed(track.answeredBy[i + 1] as number)) assumedSeconds += seconds;
  }
  const whole = track.count > 1 ? (track.atSeconds[track.count - 1] as number) - (track.atSeconds[0] as number) : 0;
  return { throughWaterMetres, overGroundMetres, fuelLitres, engineSeconds, assumedWaterShare: whole > 0 ? assumedSeconds / whole : 0 };
}
