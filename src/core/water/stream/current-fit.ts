import type { Plane } from "../../earth/index.ts";
import { COVERED } from "../../fields/index.ts";
import { metresFromNm, mpsFromKnots, radFromDeg } from "../../units/index.ts";
import type { CurrentSource } from "../current.ts";
import { rateAlong, toAndFro } from "./stream-vector.ts";
import type { TidalStream } from "./tidal-stream.ts";

/**
 * A current is not fit where along a station's axis it differs from the station by more than the greater of these, root mean square: a
 * rate, and a share of the station's own. Ours.
 */
export const UNFIT_RMS_MPS: number = mpsFromKnots(0.3);
export const UNFIT_SHARE = 0.3;
/** Less than a tidal day, two tides of either kind, proves little: 24 h 50 min. */
export const LEAST_HELD_AGAINST_SECONDS = 24 * 3600 + 50 * 60;
/** How far from a station without a radius of its own a current found not fit there is not relied on, metres. Ours. */
export const NOT_FIT_WITHIN_METRES: number = metresFromNm(5);
/** A forecast's cells end short of the shore: so near to a station the nearest that it knows is taken for it, metres. Ours. */
const NEAREST_METRES = metresFromNm(2);
const EVERY_SECONDS = 600;
/** No more of a long forecast is held against: two fortnights have their springs and neaps. */
const LONGEST_SECONDS = 29 * 86400;

/** A source of current held against a tidal station: rates along its axis, flood positive, m/s. */
export interface CurrentFit {
  readonly stream: TidalStream;
  readonly fits: boolean;
  readonly from: number;
  readonly until: number;
  /** Less than a tidal day: what is found is told with that. */
  readonly isShort: boolean;
  readonly rmsDifferenceMps: number;
  readonly boundMps: number;
  readonly model: { readonly leastMps: number; readonly greatestMps: number };
  readonly station: { readonly leastMps: number; readonly greatestMps: number; readonly rmsMps: number };
  /** How far around the station the finding counts, metres. */
  readonly withinMetres: number;
}

/**
 * Holds a forecast's current against a tidal station along its axis, every ten minutes of the time that the forecast covers; null where it
 * doesn't reach the station, covers no time of its own, or lies off the plane.
 */
export function heldAgainst(source: CurrentSource, stream: TidalStream, plane: Plane): CurrentFit | null {
  const { covers } = source;
  const at = plane.toPlaneIfOn(stream.position);
  if (covers === null || at === null || covers.until <= covers.from) return null;
  const until = Math.min(covers.until, covers.from + LONGEST_SECONDS);
  const sampler = source.onPlane(plane, { from: covers.from, until });
  const axisDeg = axisOf(stream);
  const sheetRad = radFromDeg(axisDeg - plane.convergenceDegAt(at.xMetres, at.yMetres));
  const [axisX, axisY] = [Math.sin(sheetRad), Math.cos(sheetRad)];
  const out = new Float64Array(2);
  const [model, station] = [new Range(), new Range()];
  let [squares, first, last] = [0, Number.NaN, Number.NaN];
  for (let when = covers.from; when <= until; when += EVERY_SECONDS) {
    const reached =
      sampler.sampleInto(out, at.xMetres, at.yMetres, when) === COVERED ||
      sampler.nearestInto(out, at.xMetres, at.yMetres, when, NEAREST_METRES);
    if (!reached) continue;
    const foretold = (out[0] as number) * axisX + (out[1] as number) * axisY;
    const own = rateAlong(stream.vectorAt(when), axisDeg);
    model.take(foretold);
    station.take(own);
    squares += (foretold - own) ** 2;
    if (Number.isNaN(first)) first = when;
    last = when;
  }
  if (model.count < 2) return null;
  const rmsDifferenceMps = Math.sqrt(squares / model.count);
  const boundMps = Math.max(UNFIT_RMS_MPS, UNFIT_SHARE * station.rms);
  return {
    stream,
    fits: rmsDifferenceMps <= boundMps,
    from: first,
    until: last,
    isShort: last - first < LEAST_HELD_AGAINST_SECONDS,
    rmsDifferenceMps,
    boundMps,
    model: { leastMps: model.least, greatestMps: model.greatest },
    station: { leastMps: station.least, greatestMps: station.greatest, rmsMps: station.rms },
    withinMetres: stream.withinMetres ?? NOT_FIT_WITHIN_METRES,
  };
}

/** The line from the ebb's set to the flood's, degrees true toward the flood. */
function axisOf({ floodTowardDegTrue, ebbTowardDegTrue }: TidalStream): number {
  const { floodEast, floodNorth, ebbEast, ebbNorth } = toAndFro(floodTowardDegTrue, ebbTowardDegTrue);
  return (Math.atan2(floodEast - ebbEast, floodNorth - ebbNorth) * 180) / Math.PI;
}

class Range {
  least = Number.POSITIVE_INFINITY;
  greatest = Number.NEGATIVE_INFINITY;
  count = 0;
  private squares = 0;
  take(value: number): void {
    this.least = Math.min(this.least, value);
    this.greatest = Math.max(this.greatest, value);
    this.squares += value * value;
    this.count++;
  }
  get rms(): number {
    return Math.sqrt(this.squares / this.count);
  }
}
