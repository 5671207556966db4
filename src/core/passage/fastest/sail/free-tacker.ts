import type { BoatModel } from "../../../boat/index.ts";
import { COVERED } from "../../../fields/index.ts";
import { degFromRad, RAD_PER_DEG, wrap360Deg } from "../../../units/index.ts";
import type { Surroundings } from "../../helm.ts";
import { CourseHolder, NOT_THAT_WAY } from "../course-holder.ts";
import { CURRENT_AHEAD, CURRENT_ASIDE, ENGINE_LEFT_ON, FreeTacking, HEADINGS, RAY_AHEAD, RAY_ASIDE, WIND } from "./free-tacking.ts";

/** The heading between two samples is sought from so far outside them, degrees, widened so many times. */
const BEYOND_DEG = 0.6;
const MOST_WIDENINGS = 5;
const SETTLED_DEG = 1e-8;
const MOST_ROUNDS = 40;
/** A mixture with no more than this share of its lesser heading is one heading that is luffed and borne away from. */
export const LUFFED_SHARE = 0.05;
/** A heading amid a facet that makes this share of what mixing makes is that mixture itself, reckoned by the boat's own model. */
const IS_THE_MIXTURE = 1 - 1e-6;

/**
 * A boat under sail that is to go over the ground in a given direction, in the real water and wind: what she makes good where tacking and gybing
 * are free. Where a mixture of two headings is the fastest, the heading told is that held for longer.
 */
export class FreeTacker extends CourseHolder {
  /** After a call: the angle sailed, degrees counter-clockwise off the wind, −180 to 180; of a mixture, the one held for longer. */
  angleDeg = 0;
  /** Of a mixture: the angles, degrees counter-clockwise off the wind, and the share of the time for the second; no mixture: NaN. */
  mixedFromDeg = Number.NaN;
  mixedUntilDeg = Number.NaN;
  mixedShare = Number.NaN;
  windOverWaterMps = 0;
  /** Off: she holds one heading, as well as she can. */
  mayMix = true;
  readonly hull: FreeTacking;
  private readonly model: BoatModel;
  private ahead = 0;
  private aside = 0;
  private windFromDegTrue = 0;
  private convergenceDeg = 0;

  /** `heedsSeas`: head seas slow her, as a plan has it; in the bound they don't, for no sea makes her faster. */
  constructor(around: Surroundings, boat: BoatModel, hull: FreeTacking = new FreeTacking(boat), heedsSeas = false) {
    super(around, boat);
    if (!heedsSeas) this.seas = null;
    this.model = boat;
    this.hull = hull;
  }

  override holdIn(
    eastShare: number,
    northShare: number,
    windEastMps: number,
    windNorthMps: number,
    variableWindMps: number,
    convergenceDeg: number,
  ): number {
    this.mixedShare = Number.NaN;
    this.convergenceDeg = convergenceDeg;
    const overEast = windEastMps - this.eastMps;
    const overNorth = windNorthMps - this.northMps;
    const windMps = Math.sqrt(overEast * overEast + overNorth * overNorth);
    if (variableWindMps > 0 || windMps === 0) {
      return super.holdIn(eastShare, northShare, windEastMps, windNorthMps, variableWindMps, convergenceDeg);
    }
    const fx = -overEast / windMps;
    const fy = -overNorth / windMps;
    this.windOverWaterMps = windMps;
    this.windFromDegTrue = wrap360Deg(degFromRad(Math.atan2(fx, fy)) + convergenceDeg);
    const ex = eastShare * fx + northShare * fy;
    const ey = northShare * fx - eastShare * fy;
    const ux = this.eastMps * fx + this.northMps * fy;
    const uy = this.northMps * fx - this.eastMps * fy;
    const { asked } = this.hull;
    asked[RAY_AHEAD] = ex;
    asked[RAY_ASIDE] = ey;
    asked[CURRENT_AHEAD] = ux;
    asked[CURRENT_ASIDE] = uy;
    asked[WIND] = windMps;
    if (this.hull.reachMps() === 0) return NOT_THAT_WAY;
    let low = (this.hull.piece * 360) / HEADINGS;
    let high = low + 360 / HEADINGS;
    const facet = this.hull.facetOver(this.hull.piece, windMps);
    if (facet !== null) {
      const atFrom = this.sideOf(facet.fromDeg, ex, ey, ux, uy);
      const atUntil = this.sideOf(facet.untilDeg, ex, ey, ux, uy);
      if (atFrom <= 0 && atUntil > 0) {
        const made = this.settle(facet.fromDeg, facet.untilDeg, atFrom, atUntil, ex, ey, ux, uy);
        const share = -atFrom / (atUntil - atFrom);
        if (!this.mayMix && Math.min(share, 1 - share) > LUFFED_SHARE) {
          return this.holdOne(made, eastShare, northShare, windEastMps, windNorthMps, convergenceDeg);
        }
        this.mixedFromDeg = facet.fromDeg;
        this.mixedUntilDeg = facet.untilDeg;
        this.mixedShare = share;
        return made > 0 ? COVERED : NOT_THAT_WAY;
      }
      if (atFrom > 0) high = facet.fromDeg;
      else low = facet.untilDeg;
      if (atFrom > 0) low = high - 360 / HEADINGS;
      else high = low + 360 / HEADINGS;
    }
    return this.holdBetween(low, high, ex, ey, ux, uy);
  }

  /** The one heading in a bracket that leads in the direction. */
  private holdBetween(fromDeg: number, untilDeg: number, ex: number, ey: number, ux: number, uy: number): number {
    let low = fromDeg;
    let high = untilDeg;
    let atLow = this.sideOf(low, ex, ey, ux, uy);
    let atHigh = this.sideOf(high, ex, ey, ux, uy);
    for (let widening = 0; widening < MOST_WIDENINGS && !(atLow <= 0 && atHigh > 0); widening++) {
      if (atLow > 0) {
        low -= BEYOND_DEG;
        atLow = this.sideOf(low, ex, ey, ux, uy);
      }
      if (atHigh <= 0) {
        high += BEYOND_DEG;
        atHigh = this.sideOf(high, ex, ey, ux, uy);
      }
    }
    if (!(atLow <= 0 && atHigh > 0)) return NOT_THAT_WAY;
    // Regula falsi with the Illinois rule.
    let weightLow = atLow;
    let weightHigh = atHigh;
    for (let round = 0; round < MOST_ROUNDS && high - low > SETTLED_DEG; round++) {
      const middle = low + ((high - low) * weightLow) / (weightLow - weightHigh);
      const at = this.sideOf(middle, ex, ey, ux, uy);
      if (Math.abs(at) < 1e-12) {
        low = middle;
        high = middle;
        break;
      }
      if (at <= 0) {
        low = middle;
        atLow = at;
        weightLow = at;
        weightHigh /= 2;
      } else {
        high = middle;
        atHigh = at;
        weightHigh = at;
        weightLow /= 2;
      }
    }
    if (low === high) {
      this.sideOf(low, ex, ey, ux, uy);
      this.sailing(low, ex * (this.ahead + ux) + ey * (this.aside + uy));
    } else this.settle(low, high, this.sideOf(low, ex, ey, ux, uy), this.sideOf(high, ex, ey, ux, uy), ex, ey, ux, uy);
    return this.madeGoodMps > 0 ? COVERED : NOT_THAT_WAY;
  }

  /** Mixes two headings, on either side of the direction, so that she goes along it; returns and leaves what she makes good. */
  private settle(
    fromDeg: number,
    untilDeg: number,
    atFrom: number,
    atUntil: number,
    ex: number,
    ey: number,
    ux: number,
    uy: number,
  ): number {
    const share = -atFrom / (atUntil - atFrom);
    this.sideOf(fromDeg, ex, ey, ux, uy);
    let made = (1 - share) * (ex * (this.ahead + ux) + ey * (this.aside + uy));
    this.sideOf(untilDeg, ex, ey, ux, uy);
    made += share * (ex * (this.ahead + ux) + ey * (this.aside + uy));
    this.sailing(share > 0.5 ? untilDeg : fromDeg, made);
    return made;
  }

  /** One heading where a mixture would be faster; none where her model's speed on it is that of the mixture, which is no one heading. */
  private holdOne(
    mixedMps: number,
    eastShare: number,
    northShare: number,
    windEastMps: number,
    windNorthMps: number,
    convergenceDeg: number,
  ): number {
    const held = super.holdIn(eastShare, northShare, windEastMps, windNorthMps, 0, convergenceDeg);
    if (held !== COVERED) return held;
    this.angleDeg = wrap180(this.windFromDegTrue - this.headingDegTrue);
    return this.madeGoodMps > IS_THE_MIXTURE * mixedMps ? NOT_THAT_WAY : COVERED;
  }

  /** As the seas slow her on an angle off the wind, counter-clockwise. */
  private slowInSeas(angleDeg: number): void {
    const rule = this.model.headSeas ?? null;
    if (rule === null || this.seas === null) return;
    this.propulsion.speedThroughWaterMps *= this.seas.leftOn(rule, this.windFromDegTrue - angleDeg - this.convergenceDeg);
  }

  private sailing(angleDeg: number, madeGoodMps: number): void {
    this.model.propelInto(
      this.propulsion,
      wrap360Deg(this.windFromDegTrue - angleDeg),
      this.windOverWaterMps,
      this.windFromDegTrue,
      ENGINE_LEFT_ON,
    );
    this.slowInSeas(angleDeg);
    this.angleDeg = wrap180(angleDeg);
    this.headingDegTrue = wrap360Deg(this.windFromDegTrue - angleDeg);
    this.madeGoodMps = madeGoodMps;
  }

  /** Sails an angle off the wind, counter-clockwise; positive where she then goes to the left of the direction. Leaves her velocity. */
  private sideOf(angleDeg: number, ex: number, ey: number, ux: number, uy: number): number {
    const p = this.propulsion;
    this.model.propelInto(p, wrap360Deg(this.windFromDegTrue - angleDeg), this.windOverWaterMps, this.windFromDegTrue, ENGINE_LEFT_ON);
    this.slowInSeas(angleDeg);
    const wayRad = (angleDeg - p.leewayDeg) * RAD_PER_DEG;
    this.ahead = p.speedThroughWaterMps * Math.cos(wayRad);
    this.aside = p.speedThroughWaterMps * Math.sin(wayRad);
    return ex * (this.aside + uy) - ey * (this.ahead + ux);
  }
}

const wrap180 = (deg: number): number => {
  const turned = wrap360Deg(deg);
  return turned > 180 ? turned - 360 : turned;
};
