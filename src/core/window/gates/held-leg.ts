import { COVERED } from "../../fields/index.ts";
import type { PilotageRun, Track } from "../../passage/index.ts";
import type { CurrentSampler } from "../../water/index.ts";

/** A wait on the way: where the boat is at `fromAt` she still is at `untilAt`. */
export interface Hold {
  readonly fromAt: number;
  readonly untilAt: number;
}

/** Nodes at least this often while she waits, seconds, so that wind and sea are felt there. */
const NODE_EVERY_SECONDS = 600;
/** Closer than this a wait begins at a node itself, seconds. */
const SAME_SECONDS = 1e-3;
/** What answers for water that no source knows. */
const UNKNOWN_WATER = -100;

/** A fixed track with waits on it, in order of time. Each lengthens all that follows; she lies still meanwhile. */
export function withHolds(run: PilotageRun, holds: readonly Hold[]): PilotageRun {
  if (holds.length === 0) return run;
  const rows: { at: number; x: number; y: number; waiting: number }[] = [];
  let late = 0;
  let next = 0;
  const holdFrom = (): number => {
    const hold = holds[next];
    return hold === undefined ? Number.POSITIVE_INFINITY : hold.fromAt - late;
  };
  const lie = (x: number, y: number): void => {
    const { fromAt, untilAt } = holds[next++] as Hold;
    for (const at of momentsBetween(fromAt, untilAt)) rows.push({ at, x, y, waiting: 1 });
    late += untilAt - fromAt;
  };
  for (let i = 0; i < run.count; i++) {
    const at = run.atSeconds[i] as number;
    const [x, y] = [run.xMetres[i] as number, run.yMetres[i] as number];
    while (i > 0 && holdFrom() < at - SAME_SECONDS) {
      const before = run.atSeconds[i - 1] as number;
      const share = Math.max(0, (holdFrom() - before) / (at - before));
      const [x0, y0] = [run.xMetres[i - 1] as number, run.yMetres[i - 1] as number];
      const here = { x: x0 + share * (x - x0), y: y0 + share * (y - y0) };
      if (share > 0) rows.push({ at: holdFrom() + late, ...here, waiting: 0 });
      lie(here.x, here.y);
    }
    rows.push({ at: at + late, x, y, waiting: 0 });
    while (holdFrom() <= at + SAME_SECONDS || (i === run.count - 1 && next < holds.length)) lie(x, y);
  }
  return {
    count: rows.length,
    atSeconds: Float64Array.from(rows, (row) => row.at),
    xMetres: Float64Array.from(rows, (row) => row.x),
    yMetres: Float64Array.from(rows, (row) => row.y),
    lengthMetres: run.lengthMetres,
    waiting: Uint8Array.from(rows, (row) => row.waiting),
  };
}

/**
 * A track over open water and a wait at its end: hove to or at anchor off the entrance, her place kept, the engine off. The current there
 * is read as time goes on, so that the wind against it is felt.
 */
export function lyingOffAtEnd(track: Track, untilAt: number, current: CurrentSampler): Track {
  const last = track.count - 1;
  const moments = momentsBetween(track.atSeconds[last] as number, untilAt);
  if (moments.length === 0) return track;
  const [x, y] = [track.xMetres[last] as number, track.yMetres[last] as number];
  const water = moments.map((at) => {
    const out = new Float64Array(2);
    const covered = current.sampleInto(out, x, y, at) === COVERED;
    return {
      east: covered ? (out[0] as number) : 0,
      north: covered ? (out[1] as number) : 0,
      by: covered ? current.answeredBy : UNKNOWN_WATER,
    };
  });
  const longer = (column: Float64Array, of: (k: number) => number): Float64Array =>
    Float64Array.from([...column, ...moments.map((_, k) => of(k))]);
  /** What moves her from a node on ends where she begins to lie. */
  const stopped = (column: Float64Array): Float64Array => {
    const made = longer(column, () => 0);
    made[last] = 0;
    return made;
  };
  const engineOn = Uint8Array.from([...track.engineOn, ...moments.map(() => 0)]);
  engineOn[last] = 0;
  return {
    plane: track.plane,
    count: track.count + moments.length,
    atSeconds: longer(track.atSeconds, (k) => moments[k] as number),
    xMetres: longer(track.xMetres, () => x),
    yMetres: longer(track.yMetres, () => y),
    headingDegTrue: longer(track.headingDegTrue, () => track.headingDegTrue[last] as number),
    currentEastMps: longer(track.currentEastMps, (k) => water[k]?.east ?? 0),
    currentNorthMps: longer(track.currentNorthMps, (k) => water[k]?.north ?? 0),
    throughWaterMps: stopped(track.throughWaterMps),
    burnLitresPerHour: stopped(track.burnLitresPerHour),
    engineOn,
    answeredBy: Int16Array.from([...track.answeredBy, ...water.map((one) => one.by)]),
  };
}

/** Even moments after `fromAt` until `untilAt`, that included; none where there is no time between. */
function momentsBetween(fromAt: number, untilAt: number): readonly number[] {
  const seconds = untilAt - fromAt;
  if (!(seconds > SAME_SECONDS)) return [];
  const pieces = Math.ceil(seconds / NODE_EVERY_SECONDS);
  return Array.from({ length: pieces }, (_, k) => fromAt + (seconds * (k + 1)) / pieces);
}
