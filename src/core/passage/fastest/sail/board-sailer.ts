import type { BoatModel } from "../../../boat/index.ts";
import { COVERED } from "../../../fields/index.ts";
import { radFromDeg, wrap360Deg } from "../../../units/index.ts";
import { HeadSeas } from "../../head-seas.ts";
import type { Surroundings } from "../../helm.ts";
import type { TrackRecorder } from "../../track.ts";
import { NOT_THAT_WAY } from "../course-holder.ts";
import { AirAndWater } from "./air-and-water.ts";
import { ENGINE_LEFT_ON, type FreeTacking, newPropulsion } from "./free-tacking.ts";

/** +1 with the wind over the starboard side, −1 over the port. */
export type Side = 1 | -1;

/** A step that ends where a place is abeam is found in so many tries, to so many metres. */
const MOST_TRIES = 12;
const ABEAM_METRES = 0.05;

/**
 * Sails boards through the real water and wind: the best angle on the wind held as the wind goes, or drifting while she goes about. Midpoint
 * rule, its steps ending on the clock, so that what changes by the hour changes between them. Where she is stands in the fields.
 */
export class BoardSailer {
  xMetres = 0;
  yMetres = 0;
  at = 0;
  headingDegTrue = 0;
  angleDeg = 0;
  /** Why she could not go on: a coverage code, plus 10 for the wind's, or `NOT_THAT_WAY`. */
  stoppedBy: number = COVERED;
  private readonly boat: BoatModel;
  private readonly hull: FreeTacking;
  private readonly here: AirAndWater;
  private readonly seas: HeadSeas | null;
  private readonly p = newPropulsion();
  private vx = 0;
  private vy = 0;

  constructor(around: Surroundings, boat: BoatModel, hull: FreeTacking) {
    this.boat = boat;
    this.hull = hull;
    this.here = new AirAndWater(around);
    this.seas = boat.headSeas == null || around.sea == null ? null : new HeadSeas(around.sea);
  }

  startAt(xMetres: number, yMetres: number, at: number): void {
    this.xMetres = xMetres;
    this.yMetres = yMetres;
    this.at = at;
  }

  /** Sails on one side of the wind until an instant, or until a place is abeam; false where she can't, the fields then tell where. */
  board(
    kind: "beat" | "run",
    side: Side,
    untilAt: number,
    mark: { readonly xMetres: number; readonly yMetres: number } | null,
    stepSeconds: number,
    record: TrackRecorder | null,
  ): boolean {
    for (;;) {
      if (!this.sail(kind, side, this.xMetres, this.yMetres, this.at)) return false;
      if (record !== null) this.note(record);
      const { xMetres: x, yMetres: y, at, vx, vy } = this;
      const ahead = mark === null ? Number.POSITIVE_INFINITY : this.aheadOf(mark);
      if (ahead <= ABEAM_METRES || untilAt - at <= 1e-6) return true;
      let step = Math.min(untilAt, (Math.floor(at / stepSeconds + 1e-9) + 1) * stepSeconds) - at;
      for (let tries = 0; tries < MOST_TRIES; tries++) {
        if (!this.sail(kind, side, x + (step / 2) * vx, y + (step / 2) * vy, at + step / 2)) return false;
        this.startAt(x + step * this.vx, y + step * this.vy, at + step);
        const after = mark === null ? Number.POSITIVE_INFINITY : this.aheadOf(mark);
        if (after >= -ABEAM_METRES) break;
        step *= ahead / (ahead - after);
      }
    }
  }

  /** Lies without way through the water for so many seconds, as while going about. */
  drift(seconds: number, record: TrackRecorder | null): boolean {
    const { xMetres: x, yMetres: y, at } = this;
    if (!this.look(x, y, at)) return false;
    this.p.speedThroughWaterMps = 0;
    if (record !== null) this.note(record);
    if (!this.look(x + (seconds / 2) * this.here.eastMps, y + (seconds / 2) * this.here.northMps, at + seconds / 2)) return false;
    this.startAt(x + seconds * this.here.eastMps, y + seconds * this.here.northMps, at + seconds);
    return true;
  }

  /** How far ahead a place lies along her way over the ground, metres. */
  aheadOf({ xMetres, yMetres }: { readonly xMetres: number; readonly yMetres: number }): number {
    const speed = Math.sqrt(this.vx * this.vx + this.vy * this.vy);
    return speed > 0 ? (this.vx * (xMetres - this.xMetres) + this.vy * (yMetres - this.yMetres)) / speed : 0;
  }

  /** How far to the left of her way over the ground a place lies, metres. */
  leftOf({ xMetres, yMetres }: { readonly xMetres: number; readonly yMetres: number }): number {
    const speed = Math.sqrt(this.vx * this.vx + this.vy * this.vy);
    return speed > 0 ? (this.vx * (yMetres - this.yMetres) - this.vy * (xMetres - this.xMetres)) / speed : 0;
  }

  /** Her velocity over the ground on the best angle of one side. */
  private sail(kind: "beat" | "run", side: Side, x: number, y: number, at: number): boolean {
    if (!this.look(x, y, at)) return false;
    const { here, p } = this;
    const best = this.hull.bestDeg(kind, here.windMps);
    // In a wind in which she needs no boards she goes as near as she can.
    this.angleDeg = side * (Number.isNaN(best) ? (kind === "beat" ? 0 : 180) : best);
    this.headingDegTrue = wrap360Deg(here.windFromDegTrue - this.angleDeg);
    this.boat.propelInto(p, this.headingDegTrue, here.windMps, here.windFromDegTrue, ENGINE_LEFT_ON);
    this.slowInSeas(x, y, at);
    const wayRad = radFromDeg(this.headingDegTrue + p.leewayDeg - here.convergenceDeg);
    this.vx = p.speedThroughWaterMps * Math.sin(wayRad) + here.eastMps;
    this.vy = p.speedThroughWaterMps * Math.cos(wayRad) + here.northMps;
    if (p.speedThroughWaterMps > 0) return true;
    this.stoppedBy = NOT_THAT_WAY;
    return false;
  }

  private slowInSeas(x: number, y: number, at: number): void {
    const { here, seas } = this;
    const rule = this.boat.headSeas ?? null;
    if (rule === null || seas === null) return;
    seas.lookAt(rule, x, y, at, here.eastMps, here.northMps, here.windEastMps, here.windNorthMps);
    this.p.speedThroughWaterMps *= seas.leftOn(rule, this.headingDegTrue - here.convergenceDeg);
  }

  private look(x: number, y: number, at: number): boolean {
    this.stoppedBy = this.here.readAt(x, y, at);
    return this.stoppedBy === COVERED;
  }

  private note(record: TrackRecorder): void {
    const { here, p } = this;
    record.add(
      this.at,
      this.xMetres,
      this.yMetres,
      this.headingDegTrue,
      here.eastMps,
      here.northMps,
      p.speedThroughWaterMps,
      p.burnLitresPerHour,
      p.engineOn,
      here.answeredBy,
    );
  }
}
