import { COVERED } from "../../../fields/index.ts";
import { degFromRad } from "../../../units/index.ts";
import { LEVEL_SECONDS, REACH_BEYOND_ENDS, REACH_TO_SIDE, type WaterGrid } from "../water-grid.ts";
import { HEADINGS } from "./free-tacking.ts";
import type { SailedSpeed } from "./sailed-speed.ts";

/** Directions in which it is told how fast anything can get, all round. */
const DIRECTIONS = 72;
/** Places to the length of the line, and levels of the clock, at which water and wind are looked at. */
const LOOKS_TO_THE_LINE = 6;
const LEVELS_BETWEEN_LOOKS = 4;
/** What lies between the looks may be more by these shares, and so many m/s. */
const SAIL_MARGIN = 1.03;
const CURRENT_MARGIN = 1.15;
const MARGIN_MPS = 0.05;

/**
 * How fast a boat under sail gets in every direction at the very most, wherever and whenever she may be on a passage: the greatest support
 * of all hulls, their currents in them. To windward that is far less than her greatest speed, and a search that knows it looks less far about.
 */
export class MostMadeGood {
  private readonly lengthMetres: number;
  private readonly water: WaterGrid;
  private readonly boat: SailedSpeed;
  private readonly byLevel = new Map<number, Float64Array>();
  private readonly bySupport = new Map<number, Float64Array>();
  private readonly cosines = Float64Array.from({ length: DIRECTIONS }, (_, i) => Math.cos((2 * Math.PI * i) / DIRECTIONS));
  private readonly sines = Float64Array.from({ length: DIRECTIONS }, (_, i) => Math.sin((2 * Math.PI * i) / DIRECTIONS));
  /** Seconds a metre in each direction at the least; 0 where that is not known. */
  private readonly slowness = new Float64Array(DIRECTIONS);

  constructor(water: WaterGrid, boat: SailedSpeed, lengthMetres: number) {
    this.water = water;
    this.boat = boat;
    this.lengthMetres = lengthMetres;
  }

  /** Looks over the water and wind between two instants. */
  lookAt(from: number, until: number): void {
    const most = new Float64Array(DIRECTIONS);
    const last = Math.ceil(until / (LEVELS_BETWEEN_LOOKS * LEVEL_SECONDS));
    for (let number = Math.floor(from / (LEVELS_BETWEEN_LOOKS * LEVEL_SECONDS)); number <= last; number++) {
      let level = this.byLevel.get(number);
      if (level === undefined) {
        level = this.mostAt(number * LEVELS_BETWEEN_LOOKS * LEVEL_SECONDS);
        this.byLevel.set(number, level);
      }
      for (let i = 0; i < DIRECTIONS; i++) most[i] = Math.max(most[i], level[i]);
    }
    for (let i = 0; i < DIRECTIONS; i++) this.slowness[i] = most[i] > 0 ? 1 / most[i] : 0;
  }

  /** No way of so many metres along and to port takes fewer seconds. */
  leastSeconds(along: number, port: number): number {
    const { cosines, sines, slowness } = this;
    let least = 0;
    for (let i = 0; i < DIRECTIONS; i++) {
      const seconds = (along * cosines[i] + port * sines[i]) * slowness[i];
      if (seconds > least) least = seconds;
    }
    return least;
  }

  private mostAt(at: number): Float64Array {
    const most = new Float64Array(DIRECTIONS);
    const cell = this.lengthMetres / LOOKS_TO_THE_LINE;
    const beyond = Math.floor(REACH_BEYOND_ENDS * LOOKS_TO_THE_LINE);
    const aside = Math.floor(REACH_TO_SIDE * LOOKS_TO_THE_LINE);
    for (let i = -beyond; i <= LOOKS_TO_THE_LINE + beyond; i++) {
      for (let j = -aside; j <= aside; j++) this.raiseAt(most, i * cell, j * cell, at);
    }
    return most;
  }

  private raiseAt(most: Float64Array, along: number, port: number, at: number): void {
    const { water, boat } = this;
    if (water.coarseAt(along, port, at) !== COVERED || boat.readWind(along, port, at) !== COVERED) return;
    const wx = boat.windAlongMps - water.alongMps;
    const wy = boat.windPortMps - water.portMps;
    const supports = this.supportsIn(Math.sqrt(wx * wx + wy * wy));
    const towardWindDeg = degFromRad(Math.atan2(-wy, -wx));
    for (let i = 0; i < DIRECTIONS; i++) {
      const offWind = Math.round((i * 360) / DIRECTIONS - towardWindDeg);
      const current = this.cosines[i] * water.alongMps + this.sines[i] * water.portMps;
      const sailed = supports[((offWind % HEADINGS) + HEADINGS) % HEADINGS];
      const made = SAIL_MARGIN * sailed + (current > 0 ? current * CURRENT_MARGIN : current / CURRENT_MARGIN) + MARGIN_MPS;
      if (made > most[i]) most[i] = made;
    }
  }

  /** Supports in the wind next above, told apart by half a metre a second. */
  private supportsIn(windMps: number): Float64Array {
    const step = Math.ceil(2 * windMps);
    let supports = this.bySupport.get(step);
    if (supports === undefined) {
      supports = this.boat.hull.supports(step / 2);
      this.bySupport.set(step, supports);
    }
    return supports;
  }
}
