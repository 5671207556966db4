import { GRAVITY_MPS2 } from "../boat/index.ts";
import { combinedHeightMetres } from "./combined-sea.ts";
import { type GrowthLaw, SHORE_MANUAL_GROWTH } from "./growth-law.ts";
import { seaLeftMetres } from "./lying-down.ts";
import { LEAST_WIND_MPS } from "./wind-sea.ts";

/** A wind that has turned by more than this raises a new sea; the old one runs on and lies down. Ours: half of a right angle. */
export const NEW_SEA_BEYOND_DEG = 45;
const COS_NEW_SEA = Math.cos((NEW_SEA_BEYOND_DEG * Math.PI) / 180);
/** An old sea lower than this is forgotten, metres. */
const FORGOTTEN_METRES = 0.02;

/** One system of a standing sea as numbers: where it runs as a unit vector, (0, 0) where that isn't known; period 0 where there is none. */
export interface StandingSystem {
  heightMetres: number;
  periodSeconds: number;
  towardEast: number;
  towardNorth: number;
}

/**
 * The sea at one place as its wind goes through the hours: it grows from what stands already, as long as fetch and wind allow; a wind too
 * weak to hold it lets it lie down (`seaLeftMetres`); one that turns leaves it to run on as an old sea and begins anew. Deep water, still.
 *
 * Growth is by the fetch that a steady wind would need for the height that stands (the usual way of carrying a sea from one wind to the
 * next: Shore Protection Manual, 1984, ch. 3, from memory).
 */
export class StandingSea {
  readonly wind: StandingSystem = { heightMetres: 0, periodSeconds: 0, towardEast: 0, towardNorth: 0 };
  readonly old: StandingSystem = { heightMetres: 0, periodSeconds: 0, towardEast: 0, towardNorth: 0 };
  private readonly law: GrowthLaw;

  constructor(law: GrowthLaw = SHORE_MANUAL_GROWTH) {
    this.law = law;
  }

  /** Nothing stands. */
  clear(): void {
    for (const one of [this.wind, this.old]) {
      one.heightMetres = 0;
      one.periodSeconds = 0;
      one.towardEast = 0;
      one.towardNorth = 0;
    }
  }

  /**
   * So many seconds of a wind at 10 m, m/s, that blows toward a unit vector; (0, 0): a variable one, which goes on from where the last
   * blew. `fetchMetres`: the shore's distance up-wind.
   */
  blow(windMps: number, towardEast: number, towardNorth: number, fetchMetres: number, seconds: number): void {
    const { wind, old } = this;
    if (old.heightMetres > 0) {
      old.heightMetres = seaLeftMetres(old.heightMetres, seconds);
      if (old.heightMetres < FORGOTTEN_METRES) old.heightMetres = 0;
    }
    const isVariable = towardEast === 0 && towardNorth === 0;
    const lies = wind.towardEast === 0 && wind.towardNorth === 0;
    const turned = !isVariable && !lies && wind.towardEast * towardEast + wind.towardNorth * towardNorth < COS_NEW_SEA;
    if (turned && wind.heightMetres > 0) this.leaveToRunOn();
    this.grow(windMps, fetchMetres, seconds);
    if (!isVariable && (turned || lies || wind.heightMetres === 0 || this.isHeldByWind)) {
      wind.towardEast = towardEast;
      wind.towardNorth = towardNorth;
    }
  }

  private isHeldByWind = true;

  private grow(windMps: number, fetchMetres: number, seconds: number): void {
    const { wind, law } = this;
    const u = windMps < LEAST_WIND_MPS ? 0 : law.windScaleMps(windMps);
    const square = (u * u) / GRAVITY_MPS2;
    const most = u === 0 ? 0 : Math.min(fetchMetres / square, (law.greatestHeight / law.height) ** 2);
    const mostMetres = law.height * Math.sqrt(most) * square;
    this.isHeldByWind = wind.heightMetres <= mostMetres;
    if (!this.isHeldByWind) {
      const left = seaLeftMetres(wind.heightMetres, seconds);
      if (left > mostMetres) {
        wind.heightMetres = left < FORGOTTEN_METRES ? 0 : left;
        if (wind.heightMetres === 0) wind.periodSeconds = 0;
        return;
      }
      this.isHeldByWind = true;
    }
    if (mostMetres === 0) {
      wind.heightMetres = 0;
      wind.periodSeconds = 0;
      return;
    }
    const stood = (Math.min(wind.heightMetres, mostMetres) / (law.height * square)) ** 2;
    const blown = law.duration * Math.cbrt(stood) ** 2 + (GRAVITY_MPS2 * seconds) / u;
    const grown = Math.min((blown / law.duration) ** 1.5, most);
    wind.heightMetres = law.height * Math.sqrt(grown) * square;
    wind.periodSeconds = (Math.min(law.period * Math.cbrt(grown), law.greatestPeriod) * u) / GRAVITY_MPS2;
  }

  /** The wind's sea joins the old one: by squares, running as the higher of them does. */
  private leaveToRunOn(): void {
    const { wind, old } = this;
    const together = combinedHeightMetres(wind.heightMetres, old.heightMetres);
    if (wind.heightMetres >= old.heightMetres) Object.assign(old, wind);
    old.heightMetres = together;
    wind.heightMetres = 0;
    wind.periodSeconds = 0;
  }
}
