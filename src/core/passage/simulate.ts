import type { NoAnswer } from "../answers/index.ts";
import type { BoatModel, HeadSeaRule, Propulsion } from "../boat/index.ts";
import type { Land } from "../coast/index.ts";
import { COVERED, NO_PLACE } from "../fields/index.ts";
import { degFromRad, mpsFromKnots, radFromDeg, wrap360Deg } from "../units/index.ts";
import { isOnSheet } from "../water/index.ts";
import { middleOf, WIND_SLOTS } from "../weather/index.ts";
import { HeadSeas } from "./head-seas.ts";
import type { BoatState, Helm, Surroundings, Until } from "./helm.ts";
import { landAhead, landBeyond } from "./land-ahead.ts";
import { alongOf } from "./line.ts";
import { CANNOT_HOLD, CARRIED_AWAY, NO_WAY, noWayOn, OF_THE_WIND, STALLED } from "./no-way-on.ts";
import type { TrackRecorder } from "./track.ts";

/** Steps of the simulation, seconds: 300 unless the cross-current is strong, then half of it. */
export const DEFAULT_STEP_SECONDS = 300;
/** Share of the boat's speed beyond which a current across the line halves the step. */
export const STRONG_CROSS_CURRENT_SHARE = 0.8;
/** A boat that makes no way toward the end of its leg for longer than a tide is stalled, seconds, unless the leg ends at some time anyhow. */
export const STALL_SECONDS = 13 * 3600;
/** A boat slower through the water than this makes no way; for so long, and she has no passage: in irons or becalmed. m/s, seconds. */
const NO_WAY_MPS = 0.05;
export const NO_WAY_SECONDS = 900;
/** "At a place" means within this, metres; the rest is added at the closing speed. */
const CLOSE_METRES = 5;
const SHORTEST_STEP_SECONDS = 0.5;
/** So near to its end a leg has ended, metres or seconds: a step this short would be lost in rounding. */
const AT_THE_END = 1e-6;
/** Way made toward the end of a leg that counts as making way, metres. */
const LEAST_WAY_METRES = 500;

export type LegEnd = ({ readonly kind: "reached" } & BoatState) | NoAnswer;

/**
 * Moves a boat through moving water: midpoint rule (Runge–Kutta 2) at `stepSeconds` or better, each step split at whole hours of the
 * clock and at the leg's end, and shortened toward the edge of what is covered. A boat that is carried off the plane is carried away. One
 * simulator serves many runs; it holds only scratch.
 */
export class Simulator {
  private readonly around: Surroundings;
  private readonly propulsion: Propulsion = { speedThroughWaterMps: 0, leewayDeg: 0, engineOn: false, burnLitresPerHour: 0 };
  private readonly currentOut = new Float64Array(2);
  private readonly windOut = new Float64Array(WIND_SLOTS);
  private vx = 0;
  private vy = 0;
  private headingDegTrue = 0;
  /** The wind over the water; a variable one has no direction (null), and its speed is that over the ground. */
  private windMps = 0;
  private windFromDegTrue: number | null = 0;
  private readonly seas: HeadSeas | null;
  /** Null where head seas don't slow the boat that is run, or no sea is known. */
  private seaRule: HeadSeaRule | null = null;

  constructor(around: Surroundings) {
    this.around = around;
    this.seas = around.sea == null ? null : new HeadSeas(around.sea);
  }

  /**
   * Runs one leg. Writes nodes into `record` when given, the first and last included. A boat that is not there by `giveUpAt` is told as
   * stalled: for looking only at what can still be of use. Unless `heedLand` is false, no step leads
   * across land.
   */
  run(
    boat: BoatModel,
    helm: Helm,
    until: Until,
    start: BoatState,
    stepSeconds: number,
    record: TrackRecorder | null,
    giveUpAt: number = Number.POSITIVE_INFINITY,
    heedLand = true,
  ): LegEnd {
    const { plane } = this.around;
    const land = heedLand ? (this.around.land ?? null) : null;
    let { xMetres: x, yMetres: y, at: t, engineOn } = start;
    let stallFrom = t;
    let leastToGo = this.toGo(until, x, y);
    const byAt = until.byAt ?? Number.POSITIVE_INFINITY;
    let wayAt = t;
    this.vx = 0;
    this.vy = 0;
    for (;;) {
      const why = this.flow(boat, helm, x, y, t, engineOn);
      if (why !== COVERED) return this.stopped(why, land, helm, x, y, t, stepSeconds);
      engineOn = this.propulsion.engineOn;
      this.note(record, x, y, t);
      const toGo = this.toGo(until, x, y);
      if (toGo <= AT_THE_END || byAt - t <= AT_THE_END) return { kind: "reached", xMetres: x, yMetres: y, at: t, engineOn };
      if (toGo < leastToGo - LEAST_WAY_METRES) {
        leastToGo = toGo;
        stallFrom = t;
      } else if (until.byAt === undefined && t - stallFrom > STALL_SECONDS) return this.noAnswer(STALLED, x, y, stallFrom);
      if (this.propulsion.speedThroughWaterMps > NO_WAY_MPS) wayAt = t;
      else if (until.byAt === undefined && t - wayAt >= NO_WAY_SECONDS) return this.noAnswer(NO_WAY, x, y, wayAt);
      if (t > giveUpAt) return this.noAnswer(STALLED, x, y, t);
      if (until.kind === "at" && toGo <= CLOSE_METRES) return this.closeIn(until, x, y, t, engineOn, record, land);
      const vx = this.vx;
      const vy = this.vy;
      let step = this.stepFor(helm, until, stepSeconds, toGo);
      const hour = (Math.floor(t / 3600 + 1e-9) + 1) * 3600;
      if (t + step > hour) step = hour - t;
      if (t + step > byAt) step = byAt - t;
      // Near the edge of what is covered the step shrinks until the boat stands at the edge.
      let bad = this.tryStep(boat, helm, x, y, t, engineOn, vx, vy, step);
      while (bad !== COVERED && step > SHORTEST_STEP_SECONDS) {
        step /= 2;
        bad = this.tryStep(boat, helm, x, y, t, engineOn, vx, vy, step);
      }
      if (bad !== COVERED) {
        this.vx = vx;
        this.vy = vy;
        return this.stopped(bad, land, helm, x, y, t, stepSeconds);
      }
      if (until.kind === "along" && this.toGo(until, x + this.vx * step, y + this.vy * step) <= 0) {
        step = this.splitAt(boat, helm, until, x, y, t, engineOn, vx, vy, step);
      }
      const nextX = x + this.vx * step;
      const nextY = y + this.vy * step;
      if (land?.crosses(x, y, nextX, nextY)) {
        const ahead = landAhead(land, plane, x, y, nextX, nextY, t, step);
        if (ahead !== null) return ahead;
      }
      x = nextX;
      y = nextY;
      t += step;
    }
  }

  /** The flow at a step's middle, into `vx`, `vy`; `CARRIED_AWAY` when the step would leave the plane. */
  private tryStep(
    boat: BoatModel,
    helm: Helm,
    x: number,
    y: number,
    t: number,
    engineOn: boolean,
    vx: number,
    vy: number,
    step: number,
  ): number {
    const bad = this.flow(boat, helm, x + (vx * step) / 2, y + (vy * step) / 2, t + step / 2, engineOn);
    if (bad !== COVERED) return bad;
    return isOnSheet(this.around.plane, x + this.vx * step, y + this.vy * step) ? COVERED : CARRIED_AWAY;
  }

  /** The length of the step that ends just on the leg's end: regula falsi with the Illinois rule on whole re-taken steps. */
  private splitAt(
    boat: BoatModel,
    helm: Helm,
    until: Until,
    x: number,
    y: number,
    t: number,
    engineOn: boolean,
    vx: number,
    vy: number,
    whole: number,
  ): number {
    let low = 0;
    let atLow = this.toGo(until, x, y);
    let high = whole;
    let atHigh = this.toGo(until, x + this.vx * whole, y + this.vy * whole);
    for (let i = 0; i < 60 && high - low > 1e-7; i++) {
      const step = low + ((high - low) * atLow) / (atLow - atHigh);
      if (this.tryStep(boat, helm, x, y, t, engineOn, vx, vy, step) !== COVERED) break;
      const toGo = this.toGo(until, x + this.vx * step, y + this.vy * step);
      if (Math.abs(toGo) < 1e-7) return step;
      if (toGo > 0) {
        low = step;
        atLow = toGo;
        atHigh /= 2;
      } else {
        high = step;
        atHigh = toGo;
        atLow /= 2;
      }
    }
    this.flow(boat, helm, x + (vx * high) / 2, y + (vy * high) / 2, t + high / 2, engineOn);
    return high;
  }

  private stepFor(helm: Helm, until: Until, stepSeconds: number, toGo: number): number {
    let step = stepSeconds;
    const line = helm.kind === "track" ? helm.line : until.kind === "along" ? until.line : null;
    const east = this.currentOut[0] as number;
    const north = this.currentOut[1] as number;
    const cross = line === null ? Math.sqrt(east * east + north * north) : Math.abs(east * line.alongY - north * line.alongX);
    if (cross > STRONG_CROSS_CURRENT_SHARE * this.propulsion.speedThroughWaterMps) step /= 2;
    if (until.kind === "at") {
      // A bow kept on a near mark swings ever faster: the step shrinks with the distance.
      const fastest = this.propulsion.speedThroughWaterMps + Math.sqrt(east * east + north * north);
      step = Math.min(step, Math.max(SHORTEST_STEP_SECONDS, (0.1 * toGo) / Math.max(fastest, 0.01)));
    }
    return step;
  }

  private closeIn(
    until: { readonly xMetres: number; readonly yMetres: number },
    x: number,
    y: number,
    t: number,
    engineOn: boolean,
    record: TrackRecorder | null,
    land: Land | null,
  ): LegEnd {
    const dx = until.xMetres - x;
    const dy = until.yMetres - y;
    const toGo = Math.sqrt(dx * dx + dy * dy);
    const east = this.currentOut[0] as number;
    const north = this.currentOut[1] as number;
    const speed = this.propulsion.speedThroughWaterMps;
    const room = speed * speed - east * east - north * north;
    // With the bow on a mark at r in a uniform current w, S|r| − r·w falls at the steady rate S² − w². A boat weaker than the current is
    // taken to close as she does now.
    const closing = (this.vx * dx + this.vy * dy) / toGo;
    if (!(room > 0) && !(closing > 0)) return this.noAnswer(STALLED, x, y, t);
    const at = t + (room > 0 ? (speed * toGo - dx * east - dy * north) / room : toGo / closing);
    const ahead = land === null ? null : landAhead(land, this.around.plane, x, y, until.xMetres, until.yMetres, t, at - t);
    if (ahead !== null) return ahead;
    this.note(record, until.xMetres, until.yMetres, at);
    return { kind: "reached", xMetres: until.xMetres, yMetres: until.yMetres, at, engineOn };
  }

  private toGo(until: Until, x: number, y: number): number {
    if (until.kind === "along") return until.metres - alongOf(until.line, x, y);
    const dx = until.xMetres - x;
    const dy = until.yMetres - y;
    return Math.sqrt(dx * dx + dy * dy);
  }

  private note(record: TrackRecorder | null, x: number, y: number, t: number): void {
    record?.add(
      t,
      x,
      y,
      wrap360Deg(this.headingDegTrue),
      this.currentOut[0] as number,
      this.currentOut[1] as number,
      this.propulsion.speedThroughWaterMps,
      this.propulsion.burnLitresPerHour,
      this.propulsion.engineOn,
      this.around.current.answeredBy,
    );
  }

  /** Velocity over the ground at a place and time, into `vx`, `vy`; returns what stands in the way, or `COVERED`. */
  private flow(boat: BoatModel, helm: Helm, x: number, y: number, t: number, engineWasOn: boolean): number {
    const { plane, current } = this.around;
    if (!isOnSheet(plane, x, y)) return CARRIED_AWAY;
    const coverage = current.sampleInto(this.currentOut, x, y, t);
    if (coverage !== COVERED) return coverage;
    const east = this.currentOut[0] as number;
    const north = this.currentOut[1] as number;
    const convergenceDeg = plane.convergenceDegAt(x, y);
    this.windMps = 0;
    this.windFromDegTrue = 0;
    if (boat.dependsOnWind) {
      if (this.around.wind === null) throw new Error("this boat needs a wind to be run");
      const windCoverage = this.around.wind.readInto(this.windOut, x, y, t);
      if (windCoverage !== COVERED) return windCoverage + OF_THE_WIND;
      const wind = middleOf(this.windOut);
      if (wind.fromDegTrue === null && wind.speedMps > 0) {
        this.windMps = wind.speedMps;
        this.windFromDegTrue = null;
      } else {
        const fromRad = radFromDeg((wind.fromDegTrue ?? 0) - convergenceDeg);
        // Wind over the water = ground wind less current; both as motions on the plane.
        const overEast = -wind.speedMps * Math.sin(fromRad) - east;
        const overNorth = -wind.speedMps * Math.cos(fromRad) - north;
        this.windMps = Math.sqrt(overEast * overEast + overNorth * overNorth);
        this.windFromDegTrue = wrap360Deg(degFromRad(Math.atan2(-overEast, -overNorth)) + convergenceDeg);
      }
    }
    this.seaRule = this.seas === null ? null : (boat.headSeas ?? null);
    if (this.seaRule !== null) this.lookAtSeas(this.seaRule, x, y, t, convergenceDeg);
    const p = this.propulsion;
    let sheetDeg: number;
    if (helm.kind === "heading") {
      sheetDeg = helm.headingDegTrue - convergenceDeg;
      this.propel(boat, helm.headingDegTrue, sheetDeg, engineWasOn);
    } else if (helm.kind === "bowOn") {
      sheetDeg = degFromRad(Math.atan2(helm.xMetres - x, helm.yMetres - y));
      this.propel(boat, wrap360Deg(sheetDeg + convergenceDeg), sheetDeg, engineWasOn);
    } else {
      const { line } = helm;
      const crossMps = east * line.alongY - north * line.alongX;
      sheetDeg = line.sheetDeg;
      // The way through the water leans up-stream by asin(cross-current / speed); the heading is less the leeway. With the wind in it,
      // speed and leeway follow the heading: a few rounds settle it.
      for (let round = 0; round < (boat.dependsOnWind ? 25 : 1); round++) {
        this.propel(boat, wrap360Deg(sheetDeg + convergenceDeg), sheetDeg, engineWasOn);
        if (!(Math.abs(crossMps) < p.speedThroughWaterMps)) return CANNOT_HOLD;
        const next = line.sheetDeg - degFromRad(Math.asin(crossMps / p.speedThroughWaterMps)) - p.leewayDeg;
        const change = Math.abs(next - sheetDeg);
        sheetDeg = next;
        if (change < 1e-9) break;
      }
    }
    const wayRad = radFromDeg(sheetDeg + p.leewayDeg);
    this.vx = p.speedThroughWaterMps * Math.sin(wayRad) + east;
    this.vy = p.speedThroughWaterMps * Math.cos(wayRad) + north;
    this.headingDegTrue = sheetDeg + convergenceDeg;
    return COVERED;
  }

  /** What the boat does on a heading, given true and on the plane, in the wind and water last read. */
  private propel(boat: BoatModel, headingDegTrue: number, sheetDeg: number, engineWasOn: boolean): void {
    this.propelInWind(boat, headingDegTrue, sheetDeg, engineWasOn);
    if (this.seaRule !== null && this.seas !== null) this.propulsion.speedThroughWaterMps *= this.seas.leftOn(this.seaRule, sheetDeg);
  }

  private lookAtSeas(rule: HeadSeaRule, x: number, y: number, t: number, convergenceDeg: number): void {
    const [east, north] = [this.currentOut[0] as number, this.currentOut[1] as number];
    // The sea comes with the wind over the ground, not over the water.
    const blows = this.windFromDegTrue !== null && this.windMps > 0;
    const towardRad = blows ? radFromDeg((this.windFromDegTrue as number) + 180 - convergenceDeg) : 0;
    const windEast = blows ? this.windMps * Math.sin(towardRad) + east : 0;
    const windNorth = blows ? this.windMps * Math.cos(towardRad) + north : 0;
    this.seas?.lookAt(rule, x, y, t, east, north, windEast, windNorth);
  }

  private propelInWind(boat: BoatModel, headingDegTrue: number, sheetDeg: number, engineWasOn: boolean): void {
    if (this.windFromDegTrue !== null) {
      boat.propelInto(this.propulsion, headingDegTrue, this.windMps, this.windFromDegTrue, engineWasOn);
      return;
    }
    // A variable wind blows from dead ahead; over the water it is as much more as the current sets the boat into it.
    const headingRad = radFromDeg(sheetDeg);
    const into = (this.currentOut[0] as number) * Math.sin(headingRad) + (this.currentOut[1] as number) * Math.cos(headingRad);
    boat.propelInto(this.propulsion, headingDegTrue, Math.max(0, this.windMps + into), headingDegTrue, engineWasOn);
  }

  /** Why she can't go on: where no current is known, the land that lies ahead at her last speed, if any. */
  private stopped(why: number, land: Land | null, helm: Helm, x: number, y: number, t: number, stepSeconds: number): NoAnswer {
    const { plane } = this.around;
    const beyond = land !== null && why === NO_PLACE ? landBeyond(land, plane, helm, x, y, t, this.vx, this.vy, stepSeconds) : null;
    return beyond ?? this.noAnswer(why, x, y, t);
  }

  private noAnswer(why: number, x: number, y: number, t: number): NoAnswer {
    return noWayOn(why, this.around, x, y, t);
  }
}

/** Rate below which the boat is clear of the stream, m/s: half a knot (common practice; on a bell-shaped jet about two half-widths out). */
export const CLEAR_RATE_MPS = mpsFromKnots(0.5);
