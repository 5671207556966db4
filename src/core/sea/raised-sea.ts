import type { Land } from "../coast/index.ts";
import type { Plane } from "../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_TIME, type Span } from "../fields/index.ts";
import {
  LEAST_AGREEMENT,
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_HEIGHT_LOW_METRES,
  SEA_LACKS_SWELL,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_PERIOD_LOW_SECONDS,
  SEA_SOURCE,
  type SeaSampler,
  type SeaSource,
  SYSTEM_HEIGHT_METRES,
  SYSTEM_PERIOD_SECONDS,
  SYSTEM_STRIDE,
  SYSTEM_TOWARD_EAST,
  SYSTEM_TOWARD_NORTH,
  WIND_SLOTS,
  type WindSampler,
  type WindSource,
} from "../weather/index.ts";
import { combinedHeightMetres } from "./combined-sea.ts";
import {
  RAISED_APART_METRES,
  RAISED_EVERY_SECONDS,
  RAISED_NUMBERS,
  type RaisedPlace,
  RaisedPlaces,
  SYSTEM_NUMBERS,
} from "./raised-places.ts";

/** The swell as a skipper states it for want of a forecast. */
export interface StatedSwell {
  readonly heightMetres: number;
  readonly periodSeconds: number;
}

/**
 * The sea that the wind raises, for where no source gives one: by its fetch to the coast, its growth hour by hour, and what earlier winds
 * left (`StandingSea`). Of a range of winds the upper end; deep and still water. What swell there is the wind doesn't tell: "none" or as
 * stated, or it is lacking (null), and readings say so. `land` null: none is known. Covers what the wind does.
 */
export function raisedSea(wind: WindSource, land: Land | null, swell: StatedSwell | "none" | null): SeaSource {
  return {
    name: "raised by the wind",
    issuedAt: wind.issuedAt,
    covers: wind.covers,
    ...(wind.runsFor === undefined ? {} : { runsFor: (passage: Span) => wind.runsFor?.(passage) ?? "" }),
    onPlane: (plane, passage) => new RaisedSea(wind.onPlane(plane, 0, passage), wind.covers, plane, land, swell),
  };
}

class RaisedSea implements SeaSampler {
  private readonly wind: WindSampler;
  private readonly swell: StatedSwell | null;
  private readonly lacksSwell: boolean;
  private readonly places: RaisedPlaces;
  private readonly reading = new Float64Array(WIND_SLOTS);
  /** The two systems where `readInto` last answered. */
  private readonly here = new Float64Array(RAISED_NUMBERS);
  private readonly around: RaisedPlace[] = [];
  private readonly best = new Float64Array(RAISED_NUMBERS);
  private isPlain = true;
  private column = Number.NaN;
  private row = Number.NaN;

  constructor(
    wind: WindSampler,
    covers: { readonly from: number; readonly until: number },
    plane: Plane,
    land: Land | null,
    swell: StatedSwell | "none" | null,
  ) {
    this.wind = wind;
    this.swell = swell === "none" ? null : swell;
    this.lacksSwell = swell === null;
    this.places = new RaisedPlaces(wind, covers, plane, land);
  }

  /** Runs are split at the whole hours anyway. */
  breaksWithin(): readonly number[] {
    return [];
  }

  readInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    const { places } = this;
    const late = (at - places.firstAt) / RAISED_EVERY_SECONDS;
    // Before the first and after the last whole hour the wind itself tells whether it reaches so far.
    const within = late >= 0 && late <= places.hourCount - 1;
    if (!within || !this.gather(xMetres, yMetres, late)) {
      const coverage = this.wind.readInto(this.reading, xMetres, yMetres, at);
      if (coverage !== COVERED) return coverage;
      if (within || !this.gather(xMetres, yMetres, Math.min(Math.max(0, late), places.hourCount - 1)))
        return this.whyNot(xMetres, yMetres, late);
    }
    const { here, swell } = this;
    const [windSea, old] = [here[0] as number, here[SYSTEM_NUMBERS] as number];
    const heightMetres = combinedHeightMetres(windSea, old, swell?.heightMetres ?? 0);
    const ofHighest =
      swell !== null && swell.heightMetres >= Math.max(windSea, old)
        ? swell.periodSeconds
        : (here[windSea >= old ? 1 : SYSTEM_NUMBERS + 1] as number);
    out[SEA_HEIGHT_LOW_METRES] = heightMetres;
    out[SEA_HEIGHT_HIGH_METRES] = heightMetres;
    out[SEA_HAS_PERIOD] = ofHighest > 0 ? 1 : 0;
    out[SEA_PERIOD_LOW_SECONDS] = ofHighest;
    out[SEA_PERIOD_HIGH_SECONDS] = ofHighest;
    out[SEA_SOURCE] = 0;
    out[SEA_LACKS_SWELL] = this.lacksSwell ? 1 : 0;
    return COVERED;
  }

  systemsInto(out: Float64Array): number {
    const { here, swell } = this;
    let count = 0;
    for (let k = 0; k < 2; k++) {
      const of = k * SYSTEM_NUMBERS;
      if (!((here[of] as number) > 0 && (here[of + 1] as number) > 0)) continue;
      const slot = count++ * SYSTEM_STRIDE;
      out[slot + SYSTEM_HEIGHT_METRES] = here[of] as number;
      out[slot + SYSTEM_PERIOD_SECONDS] = here[of + 1] as number;
      out[slot + SYSTEM_TOWARD_EAST] = here[of + 2] as number;
      out[slot + SYSTEM_TOWARD_NORTH] = here[of + 3] as number;
    }
    if (swell !== null) {
      const slot = count++ * SYSTEM_STRIDE;
      out[slot + SYSTEM_HEIGHT_METRES] = swell.heightMetres;
      out[slot + SYSTEM_PERIOD_SECONDS] = swell.periodSeconds;
      out[slot + SYSTEM_TOWARD_EAST] = 0;
      out[slot + SYSTEM_TOWARD_NORTH] = 0;
    }
    return count;
  }

  /** Why nothing is raised where the wind itself is known: an hour beside is lacking there, or all places around lie beyond it. */
  private whyNot(xMetres: number, yMetres: number, late: number): Coverage {
    for (const hour of [Math.floor(late), Math.ceil(late)]) {
      const at = this.places.firstAt + hour * RAISED_EVERY_SECONDS;
      if (this.wind.readInto(this.reading, xMetres, yMetres, at) !== COVERED) return NO_TIME;
    }
    return NO_PLACE;
  }

  /**
   * Fills `here` from the places around and the hours before and after; false where the wind is not known for any of them. In open water by
   * straight lines between the four around; near land the highest of those and of the place itself.
   */
  private gather(xMetres: number, yMetres: number, late: number): boolean {
    const { here } = this;
    here.fill(0);
    const column = Math.floor(xMetres / RAISED_APART_METRES);
    const row = Math.floor(yMetres / RAISED_APART_METRES);
    if (column !== this.column || row !== this.row) this.lookAround(column, row);
    const weighed = this.isPlain ? this.between(xMetres, yMetres, late) : this.highest(xMetres, yMetres, late);
    if (weighed === 0) return false;
    straighten(here, 0, weighed);
    straighten(here, SYSTEM_NUMBERS, weighed);
    return true;
  }

  private between(xMetres: number, yMetres: number, late: number): number {
    const shareX = xMetres / RAISED_APART_METRES - this.column;
    const shareY = yMetres / RAISED_APART_METRES - this.row;
    let weighed = 0;
    for (let k = 0; k < 4; k++) {
      const place = this.around[k] as RaisedPlace;
      const weight = ((k & 1) === 1 ? shareX : 1 - shareX) * (k >> 1 === 1 ? shareY : 1 - shareY);
      if (!place.isAshore && weight > 0 && this.add(place, late, weight)) weighed += weight;
    }
    return weighed;
  }

  private highest(xMetres: number, yMetres: number, late: number): number {
    const { here, best } = this;
    const near = this.places.near(xMetres, yMetres);
    const afloat = this.around.filter(({ isAshore }) => !isAshore);
    let most = -1;
    for (const place of [...near, ...afloat]) {
      here.fill(0);
      if (!this.add(place, late, 1)) continue;
      const height = combinedHeightMetres(here[0] as number, here[SYSTEM_NUMBERS] as number);
      if (height <= most) continue;
      most = height;
      best.set(here);
    }
    here.set(best);
    if (most >= 0) return 1;
    // Deep inland no sea is raised.
    here.fill(0);
    return near.length + afloat.length === 0 ? 1 : 0;
  }

  private lookAround(column: number, row: number): void {
    for (let k = 0; k < 4; k++) this.around[k] = this.places.atCorner(column + (k & 1), row + (k >> 1));
    this.isPlain = this.places.isPlain(column, row);
    this.column = column;
    this.row = row;
  }

  private add({ hours, covered }: RaisedPlace, late: number, weight: number): boolean {
    const { here } = this;
    const before = Math.floor(late);
    const share = late - before;
    const after = share === 0 ? before : before + 1;
    if (covered[before] !== 1 || covered[after] !== 1) return false;
    const [ofBefore, ofAfter] = [before * RAISED_NUMBERS, after * RAISED_NUMBERS];
    const [own, next] = [weight * (1 - share), weight * share];
    for (let k = 0; k < RAISED_NUMBERS; k++) {
      here[k] = (here[k] as number) + own * (hours[ofBefore + k] as number) + next * (hours[ofAfter + k] as number);
    }
    return true;
  }
}

/** From sums over places to a height, a period and a unit vector. */
function straighten(here: Float64Array, of: number, weighed: number): void {
  const sum = here[of] as number;
  if (!(sum > 0)) {
    here.fill(0, of, of + SYSTEM_NUMBERS);
    return;
  }
  here[of] = sum / weighed;
  here[of + 1] = (here[of + 1] as number) / sum;
  const [east, north] = [(here[of + 2] as number) / sum, (here[of + 3] as number) / sum];
  const agrees = Math.sqrt(east * east + north * north);
  here[of + 2] = agrees < LEAST_AGREEMENT ? 0 : east / agrees;
  here[of + 3] = agrees < LEAST_AGREEMENT ? 0 : north / agrees;
}
