import type { BoatModel, Propulsion } from "../../../boat/index.ts";
import { RAD_PER_DEG } from "../../../units/index.ts";
import { type HulledCurve, hulled } from "./hulled-curve.ts";

/** Headings at which a boat is asked what she makes, a degree apart, and winds, m/s apart. */
export const HEADINGS = 360;
const WIND_STEP_MPS = 0.1;
/** No wind above this is told apart: no boat sails in it. */
const STRONGEST_WIND_MPS = 60;
/** Facets no wider than this are curves but for rounding, degrees. */
const LEAST_FACET_DEG = 4;
/** The best angle on the wind is sought so far to either side of the best whole degree, degrees, in so many steps of golden section. */
const SEEK_DEG = 1.5;
const SEEK_STEPS = 24;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Winds and angles at which a boat is asked whether she ever goes without her engine, m/s and degrees. */
const ASKED_WINDS_MPS = [2, 4, 6, 8, 10, 15];
const ASKED_ANGLES_DEG = [60, 90, 120, 150];

/** In the bound the engine is taken to be left on as long as its rule allows: nothing is faster, and nothing hangs on what went before. */
export const ENGINE_LEFT_ON = true;

/** Whether a boat goes under sail alone on some heading in some wind. */
export function goesUnderSail(boat: BoatModel): boolean {
  if (!boat.dependsOnWind) return false;
  const p = newPropulsion();
  return ASKED_WINDS_MPS.some((windMps) =>
    ASKED_ANGLES_DEG.some((angle) => {
      boat.propelInto(p, angle, windMps, 0, ENGINE_LEFT_ON);
      return !p.engineOn && p.speedThroughWaterMps > 0;
    }),
  );
}

export const newPropulsion = (): Propulsion => ({ speedThroughWaterMps: 0, leewayDeg: 0, engineOn: true, burnLitresPerHour: 0 });

/** Slots of `FreeTacking.asked`: numbers handed over in memory, for a call with so many makes an object of each. */
export const RAY_AHEAD = 0;
export const RAY_ASIDE = 1;
export const CURRENT_AHEAD = 2;
export const CURRENT_ASIDE = 3;
export const WIND = 4;

/** What is known of a boat in one wind. Angles off the wind, degrees; NaN where nothing is gained by beating, or by gybing. */
interface InOneWind {
  readonly curve: HulledCurve;
  readonly beatDeg: number;
  readonly runDeg: number;
}

/**
 * How fast a sailing boat makes good a direction when tacking and gybing cost nothing: the reach of the convex hull of her speeds in that
 * direction, on moving water. Directions and motions in the frame of the wind (see `HulledCurve`), m/s. What she makes is asked of her model,
 * alike on either side of the wind; between the winds asked it goes by straight lines.
 */
export class FreeTacking {
  /** What `reachMps` is asked, by the names above: the ray's unit vector, the current and the speed of the wind over the water. */
  readonly asked = new Float64Array(5);
  /** Where `reachMps` last met the hull: the sample before. The next search begins there. */
  piece = 0;
  private readonly boat: BoatModel;
  private readonly winds: (InOneWind | undefined)[] = [];
  private readonly p = newPropulsion();

  constructor(boat: BoatModel) {
    this.boat = boat;
  }

  /** The greatest speed over the ground along the ray of `asked`; 0 where she can't go that way. */
  reachMps(): number {
    const { asked } = this;
    const steps = Math.min(asked[WIND], STRONGEST_WIND_MPS) / WIND_STEP_MPS;
    const below = Math.floor(steps);
    const t = steps - below;
    const lower = this.winds[below]?.curve ?? this.inWind(below).curve;
    const upper = this.winds[below + 1]?.curve ?? this.inWind(below + 1).curve;
    if (!lower.isConvex || !upper.isConvex) return this.farthest(lower, upper, t);
    const { ahead: x0, aside: y0 } = lower;
    const { ahead: x1, aside: y1 } = upper;
    const ex = asked[RAY_AHEAD];
    const ey = asked[RAY_ASIDE];
    const ux = asked[CURRENT_AHEAD];
    const uy = asked[CURRENT_ASIDE];
    const off = ex * uy - ey * ux;
    let j = this.piece;
    let k = j;
    // On the left of the ray (c > 0) the hull is walked back, on its right on, to where it crosses from right to left.
    let c = off + ex * (y0[j] + t * (y1[j] - y0[j])) - ey * (x0[j] + t * (x1[j] - x0[j]));
    let next = c;
    let walked = 0;
    if (c > 0) {
      while (c > 0) {
        if (++walked > HEADINGS) return 0;
        k = j;
        j = j === 0 ? HEADINGS - 1 : j - 1;
        next = c;
        c = off + ex * (y0[j] + t * (y1[j] - y0[j])) - ey * (x0[j] + t * (x1[j] - x0[j]));
      }
    } else {
      for (;;) {
        if (++walked > HEADINGS) return 0;
        k = j + 1 === HEADINGS ? 0 : j + 1;
        next = off + ex * (y0[k] + t * (y1[k] - y0[k])) - ey * (x0[k] + t * (x1[k] - x0[k]));
        if (next > 0) break;
        j = k;
        c = next;
      }
    }
    this.piece = j;
    const share = -c / (next - c);
    const xj = x0[j] + t * (x1[j] - x0[j]);
    const yj = y0[j] + t * (y1[j] - y0[j]);
    const x = xj + share * (x0[k] + t * (x1[k] - x0[k]) - xj);
    const y = yj + share * (y0[k] + t * (y1[k] - y0[k]) - yj);
    return Math.max(0, ex * (x + ux) + ey * (y + uy));
  }

  /** The same over curves that are not convex throughout: of all places where the ray leaves them the farthest. */
  private farthest({ ahead: x0, aside: y0 }: HulledCurve, { ahead: x1, aside: y1 }: HulledCurve, t: number): number {
    const [ex, ey, ux, uy] = this.asked;
    let best = 0;
    let xj = x0[0] + t * (x1[0] - x0[0]) + ux;
    let yj = y0[0] + t * (y1[0] - y0[0]) + uy;
    let c = ex * yj - ey * xj;
    for (let j = 0; j < HEADINGS; j++) {
      const k = j + 1 === HEADINGS ? 0 : j + 1;
      const xk = x0[k] + t * (x1[k] - x0[k]) + ux;
      const yk = y0[k] + t * (y1[k] - y0[k]) + uy;
      const next = ex * yk - ey * xk;
      if (c <= 0 && next > 0) {
        const share = -c / (next - c);
        const reach = ex * (xj + share * (xk - xj)) + ey * (yj + share * (yk - yj));
        if (reach > best) {
          best = reach;
          this.piece = j;
        }
      }
      xj = xk;
      yj = yk;
      c = next;
    }
    return best;
  }

  /** Where the facet over a piece begins and ends, degrees counter-clockwise off the wind; null where the piece is the curve itself. */
  facetOver(piece: number, windMps: number): { readonly fromDeg: number; readonly untilDeg: number } | null {
    const { curve, beatDeg, runDeg } = this.inWind(Math.round(Math.min(windMps, STRONGEST_WIND_MPS) / WIND_STEP_MPS));
    const from = curve.from[piece];
    const until = curve.until[piece];
    const wide = until > from ? until - from : until + HEADINGS - from;
    if (wide < LEAST_FACET_DEG) return null;
    if (from + until === HEADINGS)
      return from > until ? { fromDeg: -beatDeg, untilDeg: beatDeg } : { fromDeg: runDeg, untilDeg: 360 - runDeg };
    return { fromDeg: from, untilDeg: from + wide };
  }

  /** The angle off the wind at which she makes most to windward, or to leeward; NaN where that is dead into it, or before it. */
  bestDeg(kind: "beat" | "run", windMps: number): number {
    const wind = this.inWind(Math.round(Math.min(windMps, STRONGEST_WIND_MPS) / WIND_STEP_MPS));
    return kind === "beat" ? wind.beatDeg : wind.runDeg;
  }

  /** How far the hull reaches in each of `HEADINGS` directions (its support), m/s, in a wind. */
  supports(windMps: number): Float64Array {
    const { ahead, aside } = this.inWind(Math.round(Math.min(windMps, STRONGEST_WIND_MPS) / WIND_STEP_MPS)).curve;
    return Float64Array.from({ length: HEADINGS }, (_, i) => {
      const nx = Math.cos(i * RAD_PER_DEG);
      const ny = Math.sin(i * RAD_PER_DEG);
      let most = 0;
      for (let j = 0; j < HEADINGS; j++) most = Math.max(most, nx * ahead[j] + ny * aside[j]);
      return most;
    });
  }

  private inWind(step: number): InOneWind {
    let wind = this.winds[step];
    if (wind === undefined) {
      wind = this.ask(step * WIND_STEP_MPS);
      this.winds[step] = wind;
    }
    return wind;
  }

  private ask(windMps: number): InOneWind {
    const ahead = new Float64Array(HEADINGS);
    const aside = new Float64Array(HEADINGS);
    const isSailed = new Uint8Array(HEADINGS);
    const { p } = this;
    for (let j = 0; j <= HEADINGS / 2; j++) {
      this.boat.propelInto(p, j, windMps, 0, ENGINE_LEFT_ON);
      const wayRad = (j + p.leewayDeg) * RAD_PER_DEG;
      const mirrored = (HEADINGS - j) % HEADINGS;
      ahead[j] = p.speedThroughWaterMps * Math.cos(wayRad);
      aside[j] = mirrored === j ? 0 : p.speedThroughWaterMps * Math.sin(wayRad);
      ahead[mirrored] = ahead[j];
      aside[mirrored] = -aside[j];
      isSailed[j] = p.engineOn ? 0 : 1;
      isSailed[mirrored] = isSailed[j];
    }
    const curve = hulled(ahead, aside, isSailed);
    return {
      curve,
      beatDeg: this.seekBest(curve.until[0], curve.from[0], windMps, 1),
      runDeg: this.seekBest(curve.from[HEADINGS / 2], curve.until[HEADINGS / 2], windMps, -1),
    };
  }

  /** The very best angle near a whole degree, where a facet stands square to the wind between that and its mirror image; else NaN. */
  private seekBest(degree: number, mirrored: number, windMps: number, sense: 1 | -1): number {
    if (degree + mirrored !== HEADINGS || Math.abs(mirrored - degree) % HEADINGS === 0) return Number.NaN;
    const { p } = this;
    let best = degree;
    let most = Number.NEGATIVE_INFINITY;
    const made = (angle: number): number => {
      this.boat.propelInto(p, angle, windMps, 0, ENGINE_LEFT_ON);
      const mps = sense * p.speedThroughWaterMps * Math.cos((angle + p.leewayDeg) * RAD_PER_DEG);
      if (mps > most) {
        most = mps;
        best = angle;
      }
      return mps;
    };
    let low = Math.max(0, degree - SEEK_DEG);
    let high = Math.min(180, degree + SEEK_DEG);
    made(degree);
    let left = high - GOLDEN * (high - low);
    let right = low + GOLDEN * (high - low);
    let atLeft = made(left);
    let atRight = made(right);
    for (let step = 0; step < SEEK_STEPS; step++) {
      if (atLeft > atRight) {
        high = right;
        right = left;
        atRight = atLeft;
        left = high - GOLDEN * (high - low);
        atLeft = made(left);
      } else {
        low = left;
        left = right;
        atLeft = atRight;
        right = low + GOLDEN * (high - low);
        atRight = made(right);
      }
    }
    return best;
  }
}
