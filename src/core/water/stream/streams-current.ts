import type { Plane } from "../../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE } from "../../fields/index.ts";
import { radFromDeg } from "../../units/index.ts";
import { AnalyticCurrent, type CurrentSampler, type CurrentSource, isOnSheet } from "../current.ts";
import { StreamMemo } from "./stream-memo.ts";
import type { TidalStream } from "./tidal-stream.ts";

/** At the very edge of its disc a station that is alone still counts. */
const LEAST_WEIGHT = 1e-30;

/** A station laid on the plane: true vectors are turned by its own convergence, so that the stream runs parallel all over its disc. */
interface LaidStream {
  readonly memo: StreamMemo;
  readonly x: number;
  readonly y: number;
  readonly reach: number;
  readonly cos: number;
  readonly sin: number;
}

class StreamsCurrent extends AnalyticCurrent {
  private readonly laid: readonly LaidStream[];
  private readonly plane: Plane;
  private readonly own = new Float64Array(2);

  constructor(laid: readonly LaidStream[], plane: Plane) {
    super();
    this.laid = laid;
    this.plane = plane;
  }

  override sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    if (!isOnSheet(this.plane, xMetres, yMetres)) return NO_PLACE;
    let [weights, east, north] = [0, 0, 0];
    for (const one of this.laid) {
      const [dx, dy] = [xMetres - one.x, yMetres - one.y];
      const away = Math.sqrt(dx * dx + dy * dy);
      if (away > one.reach) continue;
      this.read(one, at);
      if (away < 1) {
        out[0] = this.own[0] as number;
        out[1] = this.own[1] as number;
        return COVERED;
      }
      const root = 1 / away - 1 / one.reach;
      const weight = Math.max(root * root, LEAST_WEIGHT);
      weights += weight;
      east += weight * (this.own[0] as number);
      north += weight * (this.own[1] as number);
    }
    if (weights === 0) return NO_PLACE;
    out[0] = east / weights;
    out[1] = north / weights;
    return COVERED;
  }

  /** At the edge of the disc that is nearest. */
  override nearestInto(out: Float64Array, xMetres: number, yMetres: number, at: number, withinMetres: number): boolean {
    let nearest: LaidStream | null = null;
    let least = withinMetres;
    for (const one of this.laid) {
      const off = Math.max(0, Math.hypot(xMetres - one.x, yMetres - one.y) - one.reach);
      if (off <= least) [nearest, least] = [one, off];
    }
    if (nearest === null) return false;
    this.read(nearest, at);
    out[0] = this.own[0] as number;
    out[1] = this.own[1] as number;
    return true;
  }

  override reachesPlace(xMetres: number, yMetres: number): boolean {
    return isOnSheet(this.plane, xMetres, yMetres) && this.laid.some(({ x, y, reach }) => Math.hypot(xMetres - x, yMetres - y) <= reach);
  }

  /** Reads a station's stream into `own`, in the plane's frame. */
  private read({ memo, cos, sin }: LaidStream, at: number): void {
    memo.into(this.own, at);
    const [east, north] = [this.own[0] as number, this.own[1] as number];
    this.own[0] = east * cos - north * sin;
    this.own[1] = east * sin + north * cos;
  }
}

/**
 * Tidal streams as a source of current: each holds all over the disc of its `withinMetres`, outside all of them nothing is covered. Where
 * several hold, they are joined by ((R − d)/(R·d))², R being the disc's radius and d the distance from the station (R. Franke and G. Nielson,
 * Smooth interpolation of large sets of scattered data, 1980: inverse distance that dies out at R): at a station its own figures, and no
 * step at the edge of a disc within another. Streams without a radius are left out. It covers all times.
 */
export function streamsCurrent(streams: readonly TidalStream[]): CurrentSource {
  const holding = streams.flatMap((stream) =>
    stream.withinMetres === null ? [] : [{ stream, reach: stream.withinMetres, memo: new StreamMemo(stream) }],
  );
  const names = holding.map(({ stream }) => stream.name);
  return {
    name: `tidal ${names.length === 1 ? "stream" : "streams"}: ${names.join(", ")}`,
    covers: null,
    issuedAt: null,
    heldSteady: false,
    onPlane: (plane: Plane): CurrentSampler =>
      new StreamsCurrent(
        holding.flatMap(({ stream, reach, memo }) => {
          const at = plane.toPlaneIfOn(stream.position);
          if (at === null) return [];
          const turnRad = radFromDeg(plane.convergenceDegAt(at.xMetres, at.yMetres));
          return [{ memo, x: at.xMetres, y: at.yMetres, reach, cos: Math.cos(turnRad), sin: Math.sin(turnRad) }];
        }),
        plane,
      ),
  };
}
