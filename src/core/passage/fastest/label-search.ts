import { COVERED, type Coverage } from "../../fields/index.ts";
import { type Directions, directionsOf } from "./directions.ts";
import type { GreatestRates } from "./greatest-rates.ts";
import { KeyHeap } from "./key-heap.ts";
import type { LandAhead } from "./land-ahead.ts";
import type { MostMadeGood } from "./sail/most-made-good.ts";
import type { SpeedOver } from "./speed-over.ts";
import { TimeToGo } from "./time-to-go.ts";
import { REACH_BEYOND_ENDS, REACH_TO_SIDE, type WaterGrid } from "./water-grid.ts";

/** How fine a search is: cells to the length of the line, and directions from each node. */
export interface Fineness {
  readonly cells: number;
  readonly directionDepth: number;
  /** Bounded by the greatest current anywhere alone: slower, and apart from the finer bound by strips. */
  readonly bySimpleBound: boolean;
}

/** 24 cells to the line and 32 directions. */
export const FIRST_FINENESS: Fineness = { cells: 24, directionDepth: 2, bySimpleBound: false };
/** Half the cell and twice the directions. */
export const SECOND_FINENESS: Fineness = { cells: 48, directionDepth: 3, bySimpleBound: true };

/** Arrivals later than the best by less than this share are handed over too: the search itself is no truer than that. */
const ALSO_WITHIN_SHARE = 0.015;
/** Steps longer than this, in cells, are timed in two pieces. */
const LONG_STEP_CELLS = 2.3;
/** The time in a piece is guessed, and read again where the guess is farther off than this, seconds. */
const GUESS_MAY_MISS_SECONDS = 600;

/** A piece that takes longer than this is no way at all, seconds: five days. */
const LONGEST_PIECE_SECONDS = 432_000;

/** A way found: places along and port of the turned sheet and the seconds since departure when she is there. */
export interface RoughWay {
  readonly along: Float64Array;
  readonly port: Float64Array;
  readonly seconds: Float64Array;
}

/** Where the search was stopped on what might have been its way: what stood there, and when and where. */
export interface Stopped {
  readonly coverage: number;
  readonly along: number;
  readonly port: number;
  readonly at: number;
  /** The soonest that any way through there could arrive, seconds since departure. */
  readonly couldArriveSeconds: number;
}

export interface RoughWays {
  /** Earliest first; empty where nothing arrives. */
  readonly ways: readonly RoughWay[];
  readonly stopped: Stopped | null;
  /** The soonest that any way over the edge of the search could arrive. */
  readonly edgeSeconds: number;
  /** Whether land stood in the way of any step. */
  readonly metLand: boolean;
}

/**
 * Label setting on a grid turned to the line (Dijkstra with a bound on the time to go, as Hart, Nilsson & Raphael, 1968): the time of a step is that of holding it in the current at its middle in place and time. Steps that touch land, or water that
 * isn't known, are not taken.
 */
export class LabelSearch {
  private readonly water: WaterGrid;
  private readonly boat: SpeedOver;
  private readonly land: LandAhead | null;
  private readonly lengthMetres: number;
  private readonly cellMetres: number;
  private readonly cells: number;
  private readonly directions: Directions;
  private readonly firstColumn: number;
  private readonly firstRow: number;
  private readonly columns: number;
  private readonly rows: number;
  private readonly seconds: Float64Array;
  private readonly from: Int32Array;
  private readonly isSettled: Uint8Array;
  private readonly landBits: Uint32Array;
  private readonly landKnown: Uint8Array;
  private readonly byColumn: Float64Array;
  private readonly byRow: Float64Array;
  private readonly bySimpleBound: boolean;
  /** Seconds a metre that no step in each direction is quicker than. */
  private readonly leastSlowness: Float64Array;
  private mostMadeGood: MostMadeGood | null = null;
  private readonly heap = new KeyHeap();
  private stoppedAlong = 0;
  private stoppedPort = 0;
  private stoppedAt = 0;

  constructor(water: WaterGrid, boat: SpeedOver, land: LandAhead | null, lengthMetres: number, fineness: Fineness) {
    this.water = water;
    this.boat = boat;
    this.land = land;
    this.lengthMetres = lengthMetres;
    this.cells = fineness.cells;
    this.cellMetres = lengthMetres / fineness.cells;
    this.directions = directionsOf(fineness.directionDepth);
    const beyond = Math.floor(REACH_BEYOND_ENDS * fineness.cells);
    const aside = Math.floor(REACH_TO_SIDE * fineness.cells);
    this.firstColumn = -beyond;
    this.firstRow = -aside;
    this.columns = fineness.cells + 2 * beyond + 1;
    this.rows = 2 * aside + 1;
    this.byColumn = new Float64Array(this.columns);
    this.byRow = new Float64Array(this.rows);
    this.bySimpleBound = fineness.bySimpleBound;
    this.leastSlowness = new Float64Array(this.directions.count);
    const nodes = this.columns * this.rows;
    this.seconds = new Float64Array(nodes);
    this.from = new Int32Array(nodes);
    this.isSettled = new Uint8Array(nodes);
    this.landBits = new Uint32Array(land === null ? 0 : nodes * Math.ceil(this.directions.count / 32));
    this.landKnown = new Uint8Array(land === null ? 0 : nodes);
  }

  /**
   * Searches from a departure; the greatest rates bound how fast anything can be, under sail what she makes good at the most as well; ways
   * later than `giveUpSeconds` are not sought.
   */
  search(departAt: number, rates: GreatestRates, giveUpSeconds: number, mostMadeGood: MostMadeGood | null = null): RoughWays {
    const toGo = this.timeToGo(rates);
    this.mostMadeGood = mostMadeGood;
    const { leastSlowness } = this;
    for (let d = 0; d < leastSlowness.length; d++) {
      const { alongShare, portShare } = this.directions;
      leastSlowness[d] = mostMadeGood?.leastSeconds(alongShare[d] as number, portShare[d] as number) ?? 0;
      leastSlowness[d] = Math.max(toGo.bound, leastSlowness[d] as number);
    }
    const { heap, seconds, from, isSettled, directions, columns, rows } = this;
    const guess = 1 / this.boat.fastestMps;
    seconds.fill(Number.POSITIVE_INFINITY);
    isSettled.fill(0);
    heap.clear();
    const start = -this.firstRow * columns - this.firstColumn;
    const goal = start + this.cells;
    seconds[start] = 0;
    from[start] = -1;
    heap.push(start, 0);
    const arrivals: { readonly seconds: number; readonly from: number }[] = [];
    let best = Number.POSITIVE_INFINITY;
    let stopped: Stopped | null = null;
    let metLand = false;
    let edgeSeconds = Number.POSITIVE_INFINITY;
    while (heap.size > 0 && heap.leastKey <= best * (1 + ALSO_WITHIN_SHARE)) {
      const node = heap.pop();
      if (isSettled[node] === 1 || node === goal) continue;
      isSettled[node] = 1;
      const row = Math.floor(node / columns);
      const column = node - row * columns;
      const along = (column + this.firstColumn) * this.cellMetres;
      const port = (row + this.firstRow) * this.cellMetres;
      const since = seconds[node] as number;
      if (this.land !== null && this.landKnown[node] === 0) this.lookForLand(node, along, port);
      for (let d = 0; d < directions.count; d++) {
        const toColumn = column + (directions.columns[d] as number);
        const toRow = row + (directions.rows[d] as number);
        if (toColumn < 0 || toRow < 0 || toColumn >= columns || toRow >= rows) {
          edgeSeconds = Math.min(edgeSeconds, since + toGo.distanceSeconds(along, port));
          continue;
        }
        const to = toRow * columns + toColumn;
        if (isSettled[to] === 1) continue;
        if (this.land !== null && this.isLandward(node, d)) {
          metLand = true;
          continue;
        }
        // Not even with all the current behind her could she better what is known there.
        if (since + (directions.cells[d] as number) * this.cellMetres * (leastSlowness[d] as number) >= (seconds[to] as number)) continue;
        const took = this.stepSeconds(along, port, d, departAt + since, guess);
        if (took < 0) {
          const soonest = since + toGo.distanceSeconds(along, port);
          if (stopped === null || soonest < stopped.couldArriveSeconds) {
            stopped = {
              coverage: -took,
              along: this.stoppedAlong,
              port: this.stoppedPort,
              at: this.stoppedAt,
              couldArriveSeconds: soonest,
            };
          }
          continue;
        }
        const there = since + took;
        if (there > giveUpSeconds) continue;
        if (to === goal) {
          arrivals.push({ seconds: there, from: node });
          if (there < best) best = there;
        }
        if (there < (seconds[to] as number)) {
          seconds[to] = there;
          from[to] = node;
          if (to !== goal) heap.push(to, there + this.leastSeconds(toGo, toColumn, toRow));
        }
      }
    }
    arrivals.sort((a, b) => a.seconds - b.seconds || a.from - b.from);
    const ways: RoughWay[] = [];
    for (const arrival of arrivals) {
      if (arrival.seconds > best * (1 + ALSO_WITHIN_SHARE)) break;
      ways.push(this.wayTo(arrival.from, arrival.seconds));
    }
    return { ways, stopped, edgeSeconds, metLand };
  }

  private timeToGo(rates: GreatestRates): TimeToGo {
    const toGo = new TimeToGo(this.boat.fastestMps, rates, this.lengthMetres);
    const { across, along } = this.water.strips;
    const cell = this.cellMetres;
    toGo.fillByStrips(this.byColumn, this.firstColumn * cell, cell, this.cells - this.firstColumn, across, rates.onwardMps, rates.backMps);
    toGo.fillByStrips(this.byRow, this.firstRow * cell, cell, -this.firstRow, along, rates.portMps, rates.starboardMps);
    return toGo;
  }

  /** No way from a node can be quicker. */
  private leastSeconds(toGo: TimeToGo, column: number, row: number): number {
    const along = (column + this.firstColumn) * this.cellMetres;
    const port = (row + this.firstRow) * this.cellMetres;
    const byDistance = toGo.distanceSeconds(along, port);
    if (this.bySimpleBound) return byDistance;
    const bySail = this.mostMadeGood?.leastSeconds(this.lengthMetres - along, -port) ?? 0;
    return Math.max(byDistance, bySail, this.byColumn[column] as number, this.byRow[row] as number);
  }

  /** Seconds for a step; Infinity where she can't go that way, minus the coverage where the water isn't known. */
  private stepSeconds(along: number, port: number, direction: number, at: number, guess: number): number {
    const { water, boat, directions } = this;
    const ex = directions.alongShare[direction] as number;
    const ey = directions.portShare[direction] as number;
    const cells = directions.cells[direction] as number;
    const pieces = cells > LONG_STEP_CELLS ? 2 : 1;
    const metres = (cells * this.cellMetres) / pieces;
    let took = 0;
    for (let piece = 0; piece < pieces; piece++) {
      const x = along + (piece + 0.5) * metres * ex;
      const y = port + (piece + 0.5) * metres * ey;
      let half = 0.5 * metres * guess;
      let why = water.coarseAt(x, y, at + took + half);
      if (why !== COVERED) return this.stoppedBy(why, x, y, at + took + half);
      if (water.besideHole) {
        why = this.coverageAlong(x, y, ex, ey, metres, at + took + half);
        if (why !== COVERED) return this.stoppedBy(why, x, y, at + took + half);
      }
      let made = boat.madeGoodMps(ex, ey, water.alongMps, water.portMps, x, y, at + took + half);
      if (!(made > 0)) return this.blockedAt(x, y, at + took + half);
      if (Math.abs((0.5 * metres) / made - half) > GUESS_MAY_MISS_SECONDS) {
        half = (0.5 * metres) / made;
        if (half > LONGEST_PIECE_SECONDS) return Number.POSITIVE_INFINITY;
        why = water.coarseAt(x, y, at + took + half);
        if (why !== COVERED) return this.stoppedBy(why, x, y, at + took + half);
        made = boat.madeGoodMps(ex, ey, water.alongMps, water.portMps, x, y, at + took + half);
        if (!(made > 0)) return this.blockedAt(x, y, at + took + half);
      }
      took += metres / made;
    }
    return took;
  }

  /** Whether all the water along a piece is known, its middle given; leaves the middle's current in the water. */
  private coverageAlong(x: number, y: number, ex: number, ey: number, metres: number, at: number): Coverage {
    const { water } = this;
    const parts = Math.ceil(metres / water.cellMetres);
    for (let k = 0; k <= parts; k++) {
      const off = (k / parts - 0.5) * metres;
      const why = water.coarseAt(x + off * ex, y + off * ey, at);
      if (why !== COVERED) return why;
    }
    return water.coarseAt(x, y, at);
  }

  private blockedAt(along: number, port: number, at: number): number {
    const { lacking } = this.boat;
    return lacking === COVERED ? Number.POSITIVE_INFINITY : this.stoppedBy(lacking, along, port, at);
  }

  private stoppedBy(coverage: number, along: number, port: number, at: number): number {
    this.stoppedAlong = along;
    this.stoppedPort = port;
    this.stoppedAt = at;
    return -coverage;
  }

  private lookForLand(node: number, along: number, port: number): void {
    const { directions, land } = this;
    const words = Math.ceil(directions.count / 32);
    for (let d = 0; d < directions.count; d++) {
      const metres = (directions.cells[d] as number) * this.cellMetres;
      const toAlong = along + metres * (directions.alongShare[d] as number);
      const toPort = port + metres * (directions.portShare[d] as number);
      if (land?.crosses(along, port, toAlong, toPort) === true) {
        const word = node * words + (d >> 5);
        this.landBits[word] = (this.landBits[word] as number) | (1 << (d & 31));
      }
    }
    this.landKnown[node] = 1;
  }

  private isLandward(node: number, direction: number): boolean {
    const words = Math.ceil(this.directions.count / 32);
    return ((this.landBits[node * words + (direction >> 5)] as number) & (1 << (direction & 31))) !== 0;
  }

  private wayTo(lastNode: number, arrivalSeconds: number): RoughWay {
    const nodes: number[] = [];
    for (let node = lastNode; node >= 0; node = this.from[node] as number) nodes.push(node);
    nodes.reverse();
    const count = nodes.length + 1;
    const way = { along: new Float64Array(count), port: new Float64Array(count), seconds: new Float64Array(count) };
    nodes.forEach((node, i) => {
      const row = Math.floor(node / this.columns);
      way.along[i] = (node - row * this.columns + this.firstColumn) * this.cellMetres;
      way.port[i] = (row + this.firstRow) * this.cellMetres;
      way.seconds[i] = this.seconds[node] as number;
    });
    way.along[count - 1] = this.lengthMetres;
    way.seconds[count - 1] = arrivalSeconds;
    return way;
  }
}
