import { COVERED, type Coverage, NO_PLACE, NO_TIME } from "../../fields/index.ts";
import { radFromDeg } from "../../units/index.ts";
import { isOnSheet } from "../../water/index.ts";
import { middleOf, WIND_SLOTS, type WindSampler } from "../../weather/index.ts";
import type { Surroundings } from "../helm.ts";
import type { TurnedSheet } from "./turned-sheet.ts";
import { LEVEL_SECONDS, REACH_BEYOND_ENDS, REACH_TO_SIDE } from "./water-grid.ts";

/** Cells of the search's copy of the wind to the length of the line: winds change over longer distances than streams. */
export const WIND_CELLS_TO_THE_LINE = 16;
const PARTS = 4;
/** A wind that changes by more than this share from one level to the next is taken to jump as the later begins, as a letter's winds do. */
const JUMP_SHARE = 0.25;

interface Level {
  readonly values: Float64Array;
  /** 0 not read yet, else 1 + how the wind covers the node. */
  readonly known: Uint8Array;
}

/**
 * The search's own copy of the wind, by straight lines in place, and in time at the nearest level or between two: east and north motion on the sheet,
 * the speed of a wind without direction, and the convergence, degrees. Read only where the search looks; what is reported is timed in the real
 * wind.
 */
export class WindGrid {
  readonly values = new Float64Array(PARTS);
  private readonly around: Surroundings;
  private readonly wind: WindSampler;
  private readonly sheet: TurnedSheet;
  private readonly cellMetres: number;
  private readonly columns: number;
  private readonly rows: number;
  private readonly firstAlong: number;
  private readonly firstPort: number;
  private readonly levels = new Map<number, Level>();
  private lastNumber = Number.NaN;
  private last: Level | null = null;
  private readonly before = new Float64Array(PARTS);
  private readonly out = new Float64Array(WIND_SLOTS);

  constructor(around: Surroundings, wind: WindSampler, sheet: TurnedSheet, lengthMetres: number) {
    this.around = around;
    this.wind = wind;
    this.sheet = sheet;
    this.cellMetres = lengthMetres / WIND_CELLS_TO_THE_LINE;
    const beyond = Math.ceil((REACH_BEYOND_ENDS + 0.1) * WIND_CELLS_TO_THE_LINE);
    const aside = Math.ceil((REACH_TO_SIDE + 0.1) * WIND_CELLS_TO_THE_LINE);
    this.columns = WIND_CELLS_TO_THE_LINE + 2 * beyond + 1;
    this.rows = 2 * aside + 1;
    this.firstAlong = -beyond * this.cellMetres;
    this.firstPort = -aside * this.cellMetres;
  }

  /** Writes `values` at a place and time, by the nearest level. */
  readAt(along: number, port: number, at: number): Coverage {
    return this.readLevel(along, port, Math.round(at / LEVEL_SECONDS));
  }

  /** Writes `values` at a place and time, by straight lines between the levels as well. */
  readBetween(along: number, port: number, at: number): Coverage {
    const number = Math.floor(at / LEVEL_SECONDS);
    const t = at / LEVEL_SECONDS - number;
    const { values, before } = this;
    const why = this.readLevel(along, port, number);
    if (why !== COVERED || t === 0) return why;
    for (let k = 0; k < PARTS; k++) before[k] = values[k] as number;
    const whyNext = this.readLevel(along, port, number + 1);
    const changeEast = (values[0] as number) - (before[0] as number);
    const changeNorth = (values[1] as number) - (before[1] as number);
    const square = (before[0] as number) ** 2 + (before[1] as number) ** 2;
    const jumps = changeEast * changeEast + changeNorth * changeNorth > JUMP_SHARE * JUMP_SHARE * square;
    const share = jumps ? 0 : t;
    for (let k = 0; k < PARTS; k++) values[k] = (1 - share) * (before[k] as number) + share * (values[k] as number);
    return whyNext;
  }

  private readLevel(along: number, port: number, number: number): Coverage {
    const fi = (along - this.firstAlong) / this.cellMetres;
    const fj = (port - this.firstPort) / this.cellMetres;
    const i = Math.floor(fi);
    const j = Math.floor(fj);
    if (!(i >= 0 && j >= 0 && i + 1 < this.columns && j + 1 < this.rows)) return NO_PLACE;
    const level = this.level(number);
    const node = j * this.columns + i;
    const above = node + this.columns;
    const lower = this.coverageOf(level, number, node) || this.coverageOf(level, number, node + 1);
    const why = lower || this.coverageOf(level, number, above) || this.coverageOf(level, number, above + 1);
    if (why !== COVERED) return why;
    const x = fi - i;
    const y = fj - j;
    const from = level.values;
    for (let k = 0, lower = node * PARTS, upper = lower + this.columns * PARTS; k < PARTS; k++, lower++, upper++) {
      this.values[k] =
        (1 - y) * ((1 - x) * (from[lower] as number) + x * (from[lower + PARTS] as number)) +
        y * ((1 - x) * (from[upper] as number) + x * (from[upper + PARTS] as number));
    }
    return COVERED;
  }

  private level(number: number): Level {
    if (this.last !== null && number === this.lastNumber) return this.last;
    let level = this.levels.get(number);
    if (level === undefined) {
      const nodes = this.columns * this.rows;
      level = { values: new Float64Array(nodes * PARTS), known: new Uint8Array(nodes) };
      this.levels.set(number, level);
    }
    this.lastNumber = number;
    this.last = level;
    return level;
  }

  private coverageOf(level: Level, number: number, node: number): Coverage {
    if (level.known[node] === 0) level.known[node] = 1 + this.read(level.values, number, node);
    return ((level.known[node] as number) - 1) as Coverage;
  }

  private read(values: Float64Array, number: number, node: number): Coverage {
    const along = this.firstAlong + (node % this.columns) * this.cellMetres;
    const port = this.firstPort + Math.floor(node / this.columns) * this.cellMetres;
    const x = this.sheet.xOf(along, port);
    const y = this.sheet.yOf(along, port);
    if (!isOnSheet(this.around.plane, x, y)) return NO_PLACE;
    const covers = this.around.windCovers;
    const level = number * LEVEL_SECONDS;
    // The level nearest to an instant may lie just beyond the wind's times.
    const at = covers === null ? level : Math.min(Math.max(level, covers.from), covers.until);
    if (Math.abs(at - level) > LEVEL_SECONDS) return NO_TIME;
    const coverage = this.wind.readInto(this.out, x, y, at);
    if (coverage !== COVERED) return coverage;
    const { speedMps, fromDegTrue } = middleOf(this.out);
    const convergenceDeg = this.around.plane.convergenceDegAt(x, y);
    const fromRad = radFromDeg((fromDegTrue ?? 0) - convergenceDeg);
    const first = node * PARTS;
    values[first] = fromDegTrue === null ? 0 : -speedMps * Math.sin(fromRad);
    values[first + 1] = fromDegTrue === null ? 0 : -speedMps * Math.cos(fromRad);
    values[first + 2] = fromDegTrue === null ? speedMps : 0;
    values[first + 3] = convergenceDeg;
    return COVERED;
  }
}
