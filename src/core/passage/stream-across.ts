import { COVERED } from "../fields/index.ts";
import type { CurrentSampler } from "../water/index.ts";
import { alongOf, type Line, offOf, pointAt } from "./line.ts";
import { CLEAR_RATE_MPS } from "./simulate.ts";
import { rateAtNode, type Track } from "./track.ts";

/** What the stream looks like along the straight line, met at the boat's speed. */
export interface StreamAcross {
  /** Where the rate is greatest: miles across, metres; the rate and the bearing on the plane toward which it sets. */
  readonly axisAlongMetres: number;
  readonly axisRateMps: number;
  readonly axisSheetDeg: number;
  /** +1 when the stream sets to starboard of the line, −1 to port: down-stream is that side. */
  readonly downStreamSide: 1 | -1;
  /** The stream's total across the line: the integral of the cross-component over the distance, m²/s. */
  readonly totalMetres2ps: number;
  /** The share of the line on which the current is known. */
  readonly coveredShare: number;
}

const SAMPLES = 200;

/** Looks along the straight line from its start at `departAt` with speed made good `speedMps`. Null when nothing of it is covered. */
export function lookAcross(current: CurrentSampler, line: Line, departAt: number, speedMps: number): StreamAcross | null {
  const out = new Float64Array(2);
  let best = -1;
  let axisAlongMetres = 0;
  let axisEast = 0;
  let axisNorth = 0;
  let cross = 0;
  let covered = 0;
  for (let i = 0; i <= SAMPLES; i++) {
    const alongMetres = (line.lengthMetres * i) / SAMPLES;
    const { xMetres, yMetres } = pointAt(line, alongMetres, 0);
    if (current.sampleInto(out, xMetres, yMetres, departAt + alongMetres / speedMps) !== COVERED) continue;
    const east = out[0] as number;
    const north = out[1] as number;
    covered++;
    cross += east * line.alongY - north * line.alongX;
    const rate = Math.sqrt(east * east + north * north);
    if (rate > best) {
      best = rate;
      axisAlongMetres = alongMetres;
      axisEast = east;
      axisNorth = north;
    }
  }
  if (covered === 0) return null;
  return {
    axisAlongMetres,
    axisRateMps: best,
    axisSheetDeg: (Math.atan2(axisEast, axisNorth) * 180) / Math.PI,
    downStreamSide: cross >= 0 ? 1 : -1,
    totalMetres2ps: (cross / covered) * line.lengthMetres,
    coveredShare: covered / (SAMPLES + 1),
  };
}

/** Where along a track the stream is strongest and where it is left for good. */
export interface StreamOnTrack {
  readonly axis: { readonly at: number; readonly alongMetres: number; readonly rateMps: number };
  /** First place after the axis from which the rate stays below half a knot; null when that never comes, or the whole way is below it. */
  readonly clear: { readonly at: number; readonly alongMetres: number } | null;
}

/** The axis and the clearing place of a track; the instant of clearing is found between nodes to a second on the sampler itself. */
export function streamOnTrack(track: Track, line: Line, current: CurrentSampler): StreamOnTrack {
  let strongest = 0;
  for (let i = 1; i < track.count; i++) if (rateAtNode(track, i) > rateAtNode(track, strongest)) strongest = i;
  const axis = {
    at: track.atSeconds[strongest] as number,
    alongMetres: alongOf(line, track.xMetres[strongest] as number, track.yMetres[strongest] as number),
    rateMps: rateAtNode(track, strongest),
  };
  if (axis.rateMps < CLEAR_RATE_MPS) return { axis, clear: null };
  let last = track.count - 1;
  while (last >= 0 && rateAtNode(track, last) < CLEAR_RATE_MPS) last--;
  if (last >= track.count - 1) return { axis, clear: null };
  return { axis, clear: clearBetween(track, last, line, current) };
}

function clearBetween(track: Track, node: number, line: Line, current: CurrentSampler): { at: number; alongMetres: number } {
  const out = new Float64Array(2);
  const from = track.atSeconds[node] as number;
  const until = track.atSeconds[node + 1] as number;
  const x0 = track.xMetres[node] as number;
  const y0 = track.yMetres[node] as number;
  const dx = (track.xMetres[node + 1] as number) - x0;
  const dy = (track.yMetres[node + 1] as number) - y0;
  let low = 0;
  let high = 1;
  while ((high - low) * (until - from) > 1) {
    const share = (low + high) / 2;
    const covered = current.sampleInto(out, x0 + share * dx, y0 + share * dy, from + share * (until - from)) === COVERED;
    if (covered && Math.hypot(out[0] as number, out[1] as number) < CLEAR_RATE_MPS) high = share;
    else low = share;
  }
  return { at: from + high * (until - from), alongMetres: alongOf(line, x0 + high * dx, y0 + high * dy) };
}

/** The side toward which the stream sets a boat on this track on the whole: +1 to starboard of the line, −1 to port. */
export function downStreamSideOf(track: Track, line: Line): 1 | -1 {
  let cross = 0;
  for (let i = 0; i + 1 < track.count; i++) {
    const seconds = (track.atSeconds[i + 1] as number) - (track.atSeconds[i] as number);
    cross += seconds * ((track.currentEastMps[i] as number) * line.alongY - (track.currentNorthMps[i] as number) * line.alongX);
  }
  return cross >= 0 ? 1 : -1;
}

/** How far a track strays off the line to either side, metres, both positive. */
export function strayOf(track: Track, line: Line, downStreamSide: 1 | -1): { readonly upMetres: number; readonly downMetres: number } {
  let upMetres = 0;
  let downMetres = 0;
  for (let i = 0; i < track.count; i++) {
    const down = offOf(line, track.xMetres[i] as number, track.yMetres[i] as number) * downStreamSide;
    if (down > downMetres) downMetres = down;
    if (-down > upMetres) upMetres = -down;
  }
  return { upMetres, downMetres };
}

/** Whether the current sets a boat to either side in turn, the lesser side by more than a tenth of the greater: such a stream has no total to speak of. */
export function turnsAcross(track: Track, line: Line): boolean {
  let starboard = 0;
  let port = 0;
  for (let i = 0; i < track.count; i++) {
    const cross = (track.currentEastMps[i] as number) * line.alongY - (track.currentNorthMps[i] as number) * line.alongX;
    starboard = Math.max(starboard, cross);
    port = Math.max(port, -cross);
  }
  return Math.min(starboard, port) > 0.1 * Math.max(starboard, port);
}
