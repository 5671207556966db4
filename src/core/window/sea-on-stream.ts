import { GRAVITY_MPS2 } from "../boat/index.ts";
import { POPPLE_METRES } from "../places/index.ts";
import {
  AGAINST_HEIGHT_METRES,
  AGAINST_LENGTH_METRES,
  AGAINST_SLOTS,
  AGAINST_STEEPNESS,
  seaAgainstInto,
  seaGrownInto,
  WIND_SEA_BELOW_SECONDS,
  type WindOnStream,
} from "../sea/index.ts";
import { RAD_PER_DEG } from "../units/index.ts";
import {
  middleOf,
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_HEIGHT_LOW_METRES,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_PERIOD_LOW_SECONDS,
  type SeaSampler,
  SYSTEM_HEIGHT_METRES,
  SYSTEM_PERIOD_SECONDS,
  SYSTEM_STRIDE,
  SYSTEM_TOWARD_EAST,
  SYSTEM_TOWARD_NORTH,
  SYSTEMS_SLOTS,
  strongestEndOf,
  WIND_SPEED_HIGH_MPS,
} from "../weather/index.ts";

/** Waves that run within this of where the wind blows are taken as raised by it, degrees. Ours. */
export const OF_THE_WIND_WITHIN_DEG = 60;
const COS_OF_THE_WIND = Math.cos(OF_THE_WIND_WITHIN_DEG * RAD_PER_DEG);

/** A sea of less than a popple, or one as easy as this, counts as so many seconds to the metre of its height. Ours. */
export const EASIEST_SECONDS_PER_METRE = 60;

/** A place and moment at which the current is known: metres on the plane, m/s in its frame. */
export interface StreamHere {
  readonly xMetres: number;
  readonly yMetres: number;
  readonly at: number;
  readonly eastMps: number;
  readonly northMps: number;
  readonly convergenceDeg: number;
}

/**
 * What becomes of a sea on the stream at a place. Where the source tells swell and wind sea apart, each runs its own way by itself: the
 * steepest tells, and their heights grow together by squares. Else the one height and period are run dead against the set, which is the
 * worst. A wind sea (under `WIND_SEA_BELOW_SECONDS`, running with the wind) is also told as grown on the stream itself, and the worse
 * counts. A popple is passed over. Metres; the higher and shorter end of ranges is the worse.
 */
export class SeaOnStream {
  steepnessLow = 0;
  steepnessHigh = 0;
  heightLowMetres = 0;
  heightHighMetres = 0;
  /** The period met drifting with the water over the height, of the worst system and of the whole at the highest one's period. */
  secondsPerMetreLow = 0;
  secondsPerMetreHigh = 0;
  private readonly sea: SeaSampler;
  private readonly systems = new Float64Array(SYSTEMS_SLOTS);
  private readonly against = new Float64Array(AGAINST_SLOTS);
  private readonly grown = new Float64Array(AGAINST_SLOTS);
  private readonly onStream: WindOnStream = { windMps: 0, relativeMps: 0, alongMps: 0 };
  private secondsPerMetre = 0;
  private windMps = 0;
  /** Where the wind blows in the plane's frame; (0, 0) where it is variable or a calm. */
  private windToEast = 0;
  private windToNorth = 0;

  constructor(sea: SeaSampler) {
    this.sea = sea;
  }

  /**
   * Reckons a place; false where nothing is told of a period. `read`: what the sea has just answered there; `wind`: a reading of the wind
   * there, null where it isn't known.
   */
  reckon(here: StreamHere, read: Float64Array, wind: Float64Array | null): boolean {
    const { eastMps, northMps } = here;
    const low = read[SEA_HEIGHT_LOW_METRES] as number;
    const high = read[SEA_HEIGHT_HIGH_METRES] as number;
    const count = this.sea.systemsInto?.(this.systems, here.xMetres, here.yMetres, here.at) ?? 0;
    if (count === 0 && read[SEA_HAS_PERIOD] !== 1) return this.reckonNothing(low, high);
    this.takeWind(wind, here.convergenceDeg);
    if (count > 0) this.reckonApart(count, low, high, eastMps, northMps);
    else {
      const rate = Math.sqrt(eastMps * eastMps + northMps * northMps);
      const short = read[SEA_PERIOD_LOW_SECONDS] as number;
      const long = read[SEA_PERIOD_HIGH_SECONDS] as number;
      this.run(high, short, rate, this.windMps + rate);
      this.steepnessHigh = this.against[AGAINST_STEEPNESS] as number;
      this.heightHighMetres = this.against[AGAINST_HEIGHT_METRES] as number;
      this.secondsPerMetreLow = this.secondsPerMetre;
      if (low !== high || short !== long) this.run(low, long, rate, null);
      this.steepnessLow = this.against[AGAINST_STEEPNESS] as number;
      this.heightLowMetres = this.against[AGAINST_HEIGHT_METRES] as number;
      this.secondsPerMetreHigh = this.secondsPerMetre;
    }
    return true;
  }

  /** No sea at all has no period either. */
  private reckonNothing(low: number, high: number): boolean {
    if (high > 0) return false;
    this.steepnessLow = 0;
    this.steepnessHigh = 0;
    this.heightLowMetres = low;
    this.heightHighMetres = high;
    this.secondsPerMetreLow = EASIEST_SECONDS_PER_METRE;
    this.secondsPerMetreHigh = EASIEST_SECONDS_PER_METRE;
    return true;
  }

  private takeWind(wind: Float64Array | null, convergenceDeg: number): void {
    this.windMps = 0;
    this.windToEast = 0;
    this.windToNorth = 0;
    if (wind === null) return;
    const end = strongestEndOf(wind);
    this.windMps = end[WIND_SPEED_HIGH_MPS] as number;
    const { fromDegTrue } = middleOf(end);
    if (fromDegTrue === null) return;
    const towardRad = (fromDegTrue + 180 - convergenceDeg) * RAD_PER_DEG;
    this.windToEast = Math.sin(towardRad);
    this.windToNorth = Math.cos(towardRad);
  }

  private reckonApart(count: number, low: number, high: number, east: number, north: number): void {
    const { systems, against } = this;
    let steepest = 0;
    let before = 0;
    let after = 0;
    let uneasiest = EASIEST_SECONDS_PER_METRE;
    let [highest, ofHighest] = [0, 0];
    for (let k = 0; k < count; k++) {
      const slot = k * SYSTEM_STRIDE;
      const [towardEast, towardNorth] = [systems[slot + SYSTEM_TOWARD_EAST] as number, systems[slot + SYSTEM_TOWARD_NORTH] as number];
      const isKnown = towardEast !== 0 || towardNorth !== 0;
      const rate = isKnown ? -(towardEast * east + towardNorth * north) : Math.sqrt(east * east + north * north);
      const height = systems[slot + SYSTEM_HEIGHT_METRES] as number;
      const relative = isKnown ? this.relativeWind(towardEast, towardNorth, east, north) : this.windMps + rate;
      this.run(height, systems[slot + SYSTEM_PERIOD_SECONDS] as number, rate, relative);
      steepest = Math.max(steepest, against[AGAINST_STEEPNESS] as number);
      before += height * height;
      after += (against[AGAINST_HEIGHT_METRES] as number) ** 2;
      uneasiest = Math.min(uneasiest, this.secondsPerMetre);
      if ((against[AGAINST_HEIGHT_METRES] as number) <= highest) continue;
      highest = against[AGAINST_HEIGHT_METRES] as number;
      ofHighest = this.secondsPerMetre;
    }
    // The whole sea grows as its systems do together: a source's parts need not make up its whole.
    const grows = before > 0 ? Math.sqrt(after / before) : 1;
    this.steepnessLow = steepest;
    this.steepnessHigh = steepest;
    this.heightLowMetres = low * grows;
    this.heightHighMetres = high * grows;
    const whole = this.heightHighMetres > 0 ? (ofHighest * highest) / this.heightHighMetres : EASIEST_SECONDS_PER_METRE;
    this.secondsPerMetreLow = Math.min(uneasiest, whole);
    this.secondsPerMetreHigh = this.secondsPerMetreLow;
  }

  /** The wind over the water, m/s; null where these waves aren't the wind's. A variable wind is taken to blow with them. */
  private relativeWind(towardEast: number, towardNorth: number, east: number, north: number): number | null {
    const { windMps, windToEast, windToNorth } = this;
    const isVariable = windToEast === 0 && windToNorth === 0;
    if (!isVariable && windToEast * towardEast + windToNorth * towardNorth < COS_OF_THE_WIND) return null;
    const overEast = windMps * (isVariable ? towardEast : windToEast) - east;
    const overNorth = windMps * (isVariable ? towardNorth : windToNorth) - north;
    return Math.sqrt(overEast * overEast + overNorth * overNorth);
  }

  /** One system into `against`; `relativeMps` null: not as grown on the stream. */
  private run(heightMetres: number, periodSeconds: number, rateMps: number, relativeMps: number | null): void {
    const { against, grown, onStream } = this;
    if (heightMetres < POPPLE_METRES) {
      against[AGAINST_STEEPNESS] = 0;
      against[AGAINST_HEIGHT_METRES] = heightMetres;
      this.secondsPerMetre = EASIEST_SECONDS_PER_METRE;
      return;
    }
    seaAgainstInto(against, heightMetres, periodSeconds, rateMps);
    this.secondsPerMetre = secondsPerMetreOf(against);
    if (relativeMps === null || rateMps === 0 || this.windMps === 0 || periodSeconds >= WIND_SEA_BELOW_SECONDS) return;
    onStream.windMps = this.windMps;
    onStream.relativeMps = relativeMps;
    onStream.alongMps = -rateMps;
    seaGrownInto(grown, heightMetres, periodSeconds, onStream);
    this.secondsPerMetre = Math.min(this.secondsPerMetre, secondsPerMetreOf(grown));
    against[AGAINST_STEEPNESS] = Math.max(against[AGAINST_STEEPNESS] as number, grown[AGAINST_STEEPNESS] as number);
    against[AGAINST_HEIGHT_METRES] = Math.max(against[AGAINST_HEIGHT_METRES] as number, grown[AGAINST_HEIGHT_METRES] as number);
  }
}

/** By the length that stands on the water: T = √(2π L / g). */
function secondsPerMetreOf(system: Float64Array): number {
  const height = system[AGAINST_HEIGHT_METRES] as number;
  if (!(height > 0)) return EASIEST_SECONDS_PER_METRE;
  const periodSeconds = Math.sqrt((2 * Math.PI * (system[AGAINST_LENGTH_METRES] as number)) / GRAVITY_MPS2);
  return Math.min(EASIEST_SECONDS_PER_METRE, periodSeconds / height);
}
