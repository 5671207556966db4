import { COVERED, type Coverage, NO_PLACE, NO_TIME } from "../../fields/index.ts";
import { type CurrentSampler, isOnSheet } from "../../water/index.ts";
import type { Surroundings } from "../helm.ts";
import { CubicPatch } from "./cubic-patch.ts";
import { type GreatestRates, joinRates, noRates, noteRate } from "./greatest-rates.ts";
import type { Strips } from "./time-to-go.ts";
import type { TurnedSheet } from "./turned-sheet.ts";

/** Time levels of the search's own copy of the water, seconds; they stand on whole half hours of the clock. */
export const LEVEL_SECONDS = 1800;
/** Cells of the copy to the length of the line. */
export const WATER_CELLS_TO_THE_LINE = 64;
/** How far the copy reaches beyond the line's ends, and to either side of it, in lengths of the line. */
export const REACH_BEYOND_ENDS = 0.75;
export const REACH_TO_SIDE = 1.25;

const TILE_SHIFT = 3;
const TILE = 1 << TILE_SHIFT;
/** Cells between the nodes that are read for the greatest rates, the first such node, and levels between the looks. */
const STRIP_CELLS = 8;
const FIRST_STRIP_CELL = 3;
const LEVELS_BETWEEN_LOOKS = 4;
const stripsIn = (nodes: number): number => Math.floor((nodes - 1 - FIRST_STRIP_CELL) / STRIP_CELLS) + 1;
const UNREAD = 0;
const WHOLE = 1;
const HOLED = 2;

/** Levels farther than this from the first are not kept: no passage lasts a year. */
const MOST_LEVELS = 20_000;

/** One instant of the water: rates in pairs (along, port) at the nodes; what is known of each node and of each tile of nodes. */
interface Level {
  /** When the source is asked: the level's own instant, or the end of its times where that lies within one level. */
  readonly readAt: number;
  readonly isOut: boolean;
  readonly rates: Float32Array;
  /** 0 not read yet, 1 covered, else 1 + why not. */
  readonly known: Uint8Array;
  readonly tiles: Uint8Array;
  greatest: GreatestRates | null;
}

const NOWHEN: Level = {
  readAt: Number.NaN,
  isOut: true,
  rates: new Float32Array(0),
  known: new Uint8Array(0),
  tiles: new Uint8Array(0),
  greatest: null,
};

/**
 * The search's own copy of the current, on a metric grid turned to the line and read only where and when the search looks: departures one
 * after another share it. `coarseAt` reads it by straight lines, `fineAt` by cubics with the gradient. Both leave their answer in the
 * fields named below, m/s and 1/s, in the turned sheet. The copy serves to find a way; what is reported is timed in the water itself.
 */
export class WaterGrid {
  readonly cellMetres: number;
  readonly firstAlong: number;
  readonly firstPort: number;
  readonly columns: number;
  readonly rows: number;
  alongMps = 0;
  portMps = 0;
  /** After `coarseAt`: some water hereabouts isn't known. */
  besideHole = false;
  alongByAlong = 0;
  alongByPort = 0;
  portByAlong = 0;
  portByPort = 0;

  private readonly sheet: TurnedSheet;
  private readonly around: Surroundings;
  private readonly sampler: CurrentSampler;
  private readonly tileColumns: number;
  private readonly levels: (Level | undefined)[] = [];
  private firstLevel = 0;
  private slopeAlong = 0;
  private slopePort = 0;
  private readonly out = new Float64Array(2);
  private readonly patch = new CubicPatch();

  constructor(around: Surroundings, sheet: TurnedSheet, lengthMetres: number) {
    this.around = around;
    this.sampler = around.current;
    this.sheet = sheet;
    const cell = lengthMetres / WATER_CELLS_TO_THE_LINE;
    const beyond = Math.ceil(REACH_BEYOND_ENDS * WATER_CELLS_TO_THE_LINE) + 3;
    const aside = Math.ceil(REACH_TO_SIDE * WATER_CELLS_TO_THE_LINE) + 3;
    this.cellMetres = cell;
    this.firstAlong = -beyond * cell;
    this.firstPort = -aside * cell;
    this.columns = WATER_CELLS_TO_THE_LINE + 2 * beyond + 1;
    this.rows = 2 * aside + 1;
    this.tileColumns = (this.columns >> TILE_SHIFT) + 1;
  }

  /** By straight lines in time and place; `at` UTC epoch seconds. */
  coarseAt(along: number, port: number, at: number): Coverage {
    const fi = (along - this.firstAlong) / this.cellMetres;
    const fj = (port - this.firstPort) / this.cellMetres;
    const i = Math.floor(fi);
    const j = Math.floor(fj);
    if (!(i >= 1 && j >= 1 && i < this.columns - 2 && j < this.rows - 2)) return NO_PLACE;
    const ft = at / LEVEL_SECONDS;
    const number = Math.floor(ft);
    const a = this.level(number);
    const b = this.level(number + 1);
    if (a.isOut || b.isOut) return NO_TIME;
    const tile = (j >> TILE_SHIFT) * this.tileColumns + (i >> TILE_SHIFT);
    if (a.tiles[tile] === UNREAD) this.readTile(a, tile);
    if (b.tiles[tile] === UNREAD) this.readTile(b, tile);
    const node = j * this.columns + i;
    this.besideHole = a.tiles[tile] !== WHOLE || b.tiles[tile] !== WHOLE;
    if (this.besideHole && (this.hasHole(a, node) || this.hasHole(b, node))) return this.realAt(along, port, at);
    const x = fi - i;
    const y = fj - j;
    const t = ft - number;
    const w00 = (1 - x) * (1 - y);
    const w10 = x * (1 - y);
    const w01 = (1 - x) * y;
    const w11 = x * y;
    const lower = 2 * node;
    const upper = lower + 2 * this.columns;
    const p = a.rates;
    const q = b.rates;
    this.alongMps =
      (1 - t) *
        (w00 * (p[lower] as number) + w10 * (p[lower + 2] as number) + w01 * (p[upper] as number) + w11 * (p[upper + 2] as number)) +
      t * (w00 * (q[lower] as number) + w10 * (q[lower + 2] as number) + w01 * (q[upper] as number) + w11 * (q[upper + 2] as number));
    this.portMps =
      (1 - t) *
        (w00 * (p[lower + 1] as number) +
          w10 * (p[lower + 3] as number) +
          w01 * (p[upper + 1] as number) +
          w11 * (p[upper + 3] as number)) +
      t *
        (w00 * (q[lower + 1] as number) + w10 * (q[lower + 3] as number) + w01 * (q[upper + 1] as number) + w11 * (q[upper + 3] as number));
    return COVERED;
  }

  /** By cubics (Catmull–Rom) in time and place, with the gradient; beside a hole by straight lines. */
  fineAt(along: number, port: number, at: number): Coverage {
    const fi = (along - this.firstAlong) / this.cellMetres;
    const fj = (port - this.firstPort) / this.cellMetres;
    const i = Math.floor(fi);
    const j = Math.floor(fj);
    if (!(i >= 1 && j >= 1 && i < this.columns - 2 && j < this.rows - 2)) return NO_PLACE;
    const ft = at / LEVEL_SECONDS;
    const number = Math.floor(ft);
    const tile = (j >> TILE_SHIFT) * this.tileColumns + (i >> TILE_SHIFT);
    const b = this.level(number);
    const c = this.level(number + 1);
    if (b.isOut || c.isOut) return NO_TIME;
    const a = this.level(number - 1);
    const d = this.level(number + 2);
    if (!this.isWhole(b, tile) || !this.isWhole(c, tile)) return this.straightAt(along, port, at);
    const before = !a.isOut && this.isWhole(a, tile);
    const after = !d.isOut && this.isWhole(d, tile);
    const { patch } = this;
    patch.joinInTime(
      before ? a.rates : null,
      b.rates,
      c.rates,
      after ? d.rates : null,
      ft - number,
      2 * ((j - 1) * this.columns + i - 1),
      this.columns,
    );
    patch.joinInPlace(fi - i, fj - j);
    const byCell = 1 / this.cellMetres;
    this.alongMps = patch.along;
    this.portMps = patch.port;
    this.alongByAlong = patch.alongByAlong * byCell;
    this.portByAlong = patch.portByAlong * byCell;
    this.alongByPort = patch.alongByPort * byCell;
    this.portByPort = patch.portByPort * byCell;
    return COVERED;
  }

  /**
   * The greatest rates between two instants as a coarse lattice of nodes shows them: for a bound on how fast anything can be. They are the
   * same whatever was asked before.
   */
  greatestRates(from: number, until: number): GreatestRates {
    const rates = noRates(stripsIn(this.columns), stripsIn(this.rows));
    const last = Math.ceil(until / LEVEL_SECONDS);
    for (let number = Math.floor(from / LEVEL_SECONDS); number <= last; number += LEVELS_BETWEEN_LOOKS) {
      const level = this.level(number);
      if (level.isOut) continue;
      level.greatest ??= this.greatestIn(level);
      joinRates(rates, level.greatest);
    }
    return rates;
  }

  /** Where the strips of `greatestRates` across the line and along it lie. */
  get strips(): { readonly across: Strips; readonly along: Strips } {
    const spacing = STRIP_CELLS * this.cellMetres;
    const off = FIRST_STRIP_CELL * this.cellMetres;
    return { across: { first: this.firstAlong + off, spacing }, along: { first: this.firstPort + off, spacing } };
  }

  private greatestIn(level: Level): GreatestRates {
    const rates = noRates(stripsIn(this.columns), stripsIn(this.rows));
    for (let j = FIRST_STRIP_CELL, lane = 0; j < this.rows; j += STRIP_CELLS, lane++) {
      for (let i = FIRST_STRIP_CELL, strip = 0; i < this.columns; i += STRIP_CELLS, strip++) {
        const node = j * this.columns + i;
        if (level.known[node] === UNREAD) this.readNode(level, node, i, j);
        if (level.known[node] === 1) noteRate(rates, strip, lane, level.rates[2 * node] as number, level.rates[2 * node + 1] as number);
      }
    }
    return rates;
  }

  private isWhole(level: Level, tile: number): boolean {
    if (level.tiles[tile] === UNREAD) this.readTile(level, tile);
    return level.tiles[tile] === WHOLE;
  }

  /** Straight lines with the gradient they have, where the cubic's neighbours are not all known; no gradient toward what isn't. */
  private straightAt(along: number, port: number, at: number): Coverage {
    const why = this.coarseAt(along, port, at);
    if (why !== COVERED) return why;
    const hereAlong = this.alongMps;
    const herePort = this.portMps;
    const step = this.cellMetres / 4;
    this.differ(along, port, at, step, 0);
    this.alongByAlong = this.slopeAlong;
    this.portByAlong = this.slopePort;
    this.differ(along, port, at, 0, step);
    this.alongByPort = this.slopeAlong;
    this.portByPort = this.slopePort;
    this.alongMps = hereAlong;
    this.portMps = herePort;
    return COVERED;
  }

  private differ(along: number, port: number, at: number, stepAlong: number, stepPort: number): void {
    this.slopeAlong = 0;
    this.slopePort = 0;
    if (this.coarseAt(along + stepAlong, port + stepPort, at) !== COVERED) return;
    const aheadAlong = this.alongMps;
    const aheadPort = this.portMps;
    if (this.coarseAt(along - stepAlong, port - stepPort, at) !== COVERED) return;
    this.slopeAlong = (aheadAlong - this.alongMps) / (2 * (stepAlong + stepPort));
    this.slopePort = (aheadPort - this.portMps) / (2 * (stepAlong + stepPort));
  }

  private hasHole({ known }: Level, node: number): boolean {
    const above = node + this.columns;
    return known[node] !== 1 || known[node + 1] !== 1 || known[above] !== 1 || known[above + 1] !== 1;
  }

  /** The current of the real water: asked for the nodes, and beside a hole, where what is known is only its own to say. */
  private realAt(along: number, port: number, at: number): Coverage {
    const { sheet, out } = this;
    const x = sheet.xOf(along, port);
    const y = sheet.yOf(along, port);
    const why = isOnSheet(this.around.plane, x, y) ? this.sampler.sampleInto(out, x, y, at) : NO_PLACE;
    if (why !== COVERED) return why;
    const east = out[0] as number;
    const north = out[1] as number;
    this.alongMps = east * sheet.alongX + north * sheet.alongY;
    this.portMps = north * sheet.alongX - east * sheet.alongY;
    return COVERED;
  }

  private level(number: number): Level {
    if (!(Math.abs(number - this.firstLevel) < MOST_LEVELS) && this.levels.length > 0) return NOWHEN;
    const found = this.levels[number - this.firstLevel];
    return found !== undefined && number >= this.firstLevel ? found : this.newLevel(number);
  }

  private newLevel(number: number): Level {
    if (this.levels.length === 0) this.firstLevel = number;
    while (number < this.firstLevel) {
      this.levels.unshift(undefined);
      this.firstLevel--;
    }
    while (number - this.firstLevel > this.levels.length) this.levels.push(undefined);
    const at = number * LEVEL_SECONDS;
    const covers = this.around.currentCovers;
    const isOut = covers !== null && (at <= covers.from - LEVEL_SECONDS || at >= covers.until + LEVEL_SECONDS);
    const nodes = isOut ? 0 : this.columns * this.rows;
    const level: Level = {
      readAt: covers === null ? at : Math.min(Math.max(at, covers.from), covers.until),
      isOut,
      rates: new Float32Array(2 * nodes),
      known: new Uint8Array(nodes),
      tiles: new Uint8Array(isOut ? 0 : this.tileColumns * ((this.rows >> TILE_SHIFT) + 1)),
      greatest: null,
    };
    this.levels[number - this.firstLevel] = level;
    return level;
  }

  /** Reads all nodes that the cells of a tile need, its neighbours' rims included. */
  private readTile(level: Level, tile: number): void {
    const firstRow = Math.floor(tile / this.tileColumns) * TILE;
    const firstColumn = (tile % this.tileColumns) * TILE;
    let state = WHOLE;
    for (let j = Math.max(0, firstRow - 1); j <= Math.min(this.rows - 1, firstRow + TILE + 1); j++) {
      for (let i = Math.max(0, firstColumn - 1); i <= Math.min(this.columns - 1, firstColumn + TILE + 1); i++) {
        const node = j * this.columns + i;
        if (level.known[node] === UNREAD) this.readNode(level, node, i, j);
        if (level.known[node] !== 1) state = HOLED;
      }
    }
    level.tiles[tile] = state;
  }

  private readNode(level: Level, node: number, i: number, j: number): void {
    const along = this.firstAlong + i * this.cellMetres;
    const port = this.firstPort + j * this.cellMetres;
    const why = this.realAt(along, port, level.readAt);
    level.known[node] = 1 + why;
    if (why !== COVERED) return;
    level.rates[2 * node] = this.alongMps;
    level.rates[2 * node + 1] = this.portMps;
  }
}
