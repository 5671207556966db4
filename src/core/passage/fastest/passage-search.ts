import { radFromDeg } from "../../units/index.ts";
import type { Crossing } from "../crossing.ts";
import { STALL_SECONDS } from "../simulate.ts";
import { BentLine, divided } from "./bent-line.ts";
import { CornerSearch } from "./corner-search.ts";
import { CourseHolder } from "./course-holder.ts";
import { ExtremalRunner } from "./extremal.ts";
import { type Fineness, LabelSearch, type RoughWay, type RoughWays } from "./label-search.ts";
import { LandAhead } from "./land-ahead.ts";
import { speedOverOf } from "./propelled-speed.ts";
import { CLOSELY_SETTLED_SHARE, SETTLED_SHARE, WayRelaxer } from "./relaxed-way.ts";
import { finely, LandRounder, type LeggedWay, type WayLeg } from "./round-land.ts";
import { FreeTacker } from "./sail/free-tacker.ts";
import { goesUnderSail } from "./sail/free-tacking.ts";
import { MostMadeGood } from "./sail/most-made-good.ts";
import { SailedSpeed } from "./sail/sailed-speed.ts";
import { TubeRelaxer } from "./sail/tube-relaxer.ts";
import type { SpeedOver } from "./speed-over.ts";
import { TurnedSheet } from "./turned-sheet.ts";
import { WaterGrid } from "./water-grid.ts";
import { WayTimer } from "./way-timer.ts";

/** Pieces of a way while it is relaxed: few, then many. */
const FEW_PIECES = 16;
const MANY_PIECES = 40;
/** The few are settled when a round gains less than this share of the time. */
const FEW_SETTLED_SHARE = 1e-4;
/** Ways that run farther apart than this many cells of the search, somewhere on the way, are followed up apart; at most so many. */
const APART_CELLS = 1.5;
const MOST_WAYS = 4;
/** Under sail many ways up the wind take nearly the same time, and all are drawn to nearly the same line. */
const MOST_WAYS_UNDER_SAIL = 2;
/** Ways that take longer than so many times what the line takes in still water, and a tide, are not sought. */
const GIVE_UP_TIMES = 6;

/** Drawn with few pieces, ways later than the soonest by more than this share are not drawn with more. */
const STILL_WITHIN_SHARE = 5e-3;

/** A rough way drawn tight in few pieces. */
interface BegunWay {
  readonly rough: RoughWay;
  readonly few: WayLeg;
  readonly seconds: number;
}

/** What one crossing's searches share: the copied water, the grids, scratch. Departures one after another are quick. */
export class PassageSearch {
  readonly crossing: Crossing;
  readonly sheet: TurnedSheet;
  readonly water: WaterGrid;
  readonly boat: SpeedOver;
  readonly land: LandAhead | null;
  readonly timer: WayTimer;
  /** The timer's holder for a boat under sail; null for any other. */
  readonly tacker: FreeTacker | null;
  /** Null for a boat whose speed changes. */
  readonly extremals: ExtremalRunner | null;
  /** Null for a boat that does not sail. */
  private readonly mostMadeGood: MostMadeGood | null;
  private readonly relaxer: WayRelaxer;
  /** A way that can't be brought onto an extremal afterwards is settled more closely. */
  private readonly settledShare: number;
  private corners: CornerSearch | null = null;
  private readonly searches = new Map<Fineness, LabelSearch>();

  constructor(crossing: Crossing) {
    const { line, around, boat } = crossing;
    this.crossing = crossing;
    this.sheet = new TurnedSheet(line);
    this.water = new WaterGrid(around, this.sheet, line.lengthMetres);
    this.boat = speedOverOf(around, boat, this.sheet, line.lengthMetres);
    this.land = around.land == null ? null : new LandAhead(around.land, this.sheet);
    this.tacker = goesUnderSail(boat) ? new FreeTacker(around, boat) : null;
    const jumps = this.tacker === null ? null : around.wind;
    this.timer = new WayTimer(around, this.tacker ?? new CourseHolder(around, boat), this.sheet, jumps);
    const { boat: sailed } = this;
    const sails = sailed instanceof SailedSpeed;
    this.relaxer = sails ? new TubeRelaxer(this.water, sailed) : new WayRelaxer(this.water, sailed);
    this.mostMadeGood = sails ? new MostMadeGood(this.water, sailed, line.lengthMetres) : null;
    const { constantMps } = this.boat;
    this.settledShare = constantMps === null ? CLOSELY_SETTLED_SHARE : SETTLED_SHARE;
    this.extremals = constantMps === null ? null : new ExtremalRunner(around, this.water, this.sheet, constantMps);
  }

  rough(departAt: number, fineness: Fineness, withLand = true): RoughWays {
    const { lengthMetres } = this.crossing.line;
    const likely = lengthMetres / this.boat.fastestMps;
    const rates = this.water.greatestRates(departAt, departAt + 1.5 * likely);
    let search = withLand ? this.searches.get(fineness) : undefined;
    if (search === undefined) {
      search = new LabelSearch(this.water, this.boat, withLand ? this.land : null, lengthMetres, fineness);
      if (withLand) this.searches.set(fineness, search);
    }
    if (fineness.bySimpleBound) return search.search(departAt, rates, GIVE_UP_TIMES * likely + STALL_SECONDS);
    this.mostMadeGood?.lookAt(departAt, departAt + 1.5 * likely);
    return search.search(departAt, rates, GIVE_UP_TIMES * likely + STALL_SECONDS, this.mostMadeGood);
  }

  /** The earliest way from corner to corner of the land; null where there is no land, or no such way. */
  roughByCorners(departAt: number): RoughWay | null {
    if (this.land === null) return null;
    this.corners ??= new CornerSearch(this.water, this.boat, this.land, this.crossing.line.lengthMetres);
    return this.corners.search(departAt);
  }

  /** Draws rough ways tight, those apart from each other each by itself; the earliest first. `timesFiner`: of the pieces. */
  drawn(ways: readonly RoughWay[], departAt: number, fineness: Fineness, timesFiner = 1): readonly LeggedWay[] {
    const apart = (APART_CELLS * this.crossing.line.lengthMetres) / fineness.cells;
    const chosen: RoughWay[] = [];
    for (const way of ways) {
      if (chosen.length === (this.mostMadeGood === null ? MOST_WAYS : MOST_WAYS_UNDER_SAIL) * timesFiner) break;
      if (chosen.every((other) => areApart(way, other, apart))) chosen.push(way);
    }
    const begun = chosen.map((rough) => this.begin(rough, departAt, timesFiner));
    // Under sail the rest is dear: what is clearly later already is left, where no land makes it so.
    const soonest = Math.min(...begun.map(({ seconds }) => seconds));
    const latest = this.mostMadeGood === null || this.land !== null ? Number.POSITIVE_INFINITY : soonest * (1 + STILL_WITHIN_SHARE);
    const drawn = begun.filter(({ seconds }) => seconds <= latest).map((one) => this.draw(one, departAt, timesFiner));
    return drawn.filter((way) => way.seconds < Number.POSITIVE_INFINITY).sort((a, b) => a.seconds - b.seconds);
  }

  private begin(rough: RoughWay, departAt: number, timesFiner: number): BegunWay {
    const few = divided(rough.along, rough.port, FEW_PIECES * timesFiner, false);
    return { rough, few, seconds: this.relaxer.relax(few.along, few.port, departAt, FEW_SETTLED_SHARE) };
  }

  private draw({ rough, few }: BegunWay, departAt: number, timesFiner: number): LeggedWay {
    const free = this.relaxed(few, departAt, MANY_PIECES * timesFiner);
    const { land } = this;
    // A line of few pieces may cut across water that isn't known or too strong: then all the places found are kept.
    if (free.seconds === Number.POSITIVE_INFINITY) {
      const leg = finely(rough, MANY_PIECES * timesFiner);
      return { legs: [leg], seconds: this.relaxer.relax(leg.along, leg.port, departAt, CLOSELY_SETTLED_SHARE, land) };
    }
    if (land === null || !land.crossesAny(free.leg.along, free.leg.port, 0, free.leg.along.length - 1)) {
      return { legs: [free.leg], seconds: free.seconds };
    }
    const rounder = new LandRounder(land, this.relaxer, this.crossing.line, MANY_PIECES * timesFiner);
    return rounder.round(rough, free.leg, departAt);
  }

  private relaxed(few: WayLeg, departAt: number, pieces: number): { readonly leg: WayLeg; readonly seconds: number } {
    if (this.relaxer instanceof TubeRelaxer) {
      const once = this.relaxer.halved(few.along, few.port, departAt);
      const twice = this.relaxer.halved(once.along, once.port, departAt);
      return { leg: twice, seconds: twice.seconds };
    }
    const leg = divided(few.along, few.port, pieces, true);
    const seconds = this.relaxer.relax(leg.along, leg.port, departAt, this.settledShare);
    return { leg, seconds };
  }

  /** The lines of a way, bent or, where a bend would touch land, straight from place to place. */
  linesOf(way: LeggedWay): readonly BentLine[] {
    return way.legs.map((leg) => {
      const bent = new BentLine(leg.along, leg.port, this.mostMadeGood !== null ? "kinked" : "bent");
      return this.land === null || this.isClear(bent, this.land) ? bent : new BentLine(leg.along, leg.port, "straight");
    });
  }

  /** The heading at a line's beginning in the real water, from `along` toward `port`, radians; null where it can't be gone. */
  headingRadAtStart(line: BentLine, at: number): number | null {
    const slowness = this.timer.slowness(line, 0, 0, at);
    if (slowness < 0) return null;
    const { plane, fromX, fromY, sheetDeg } = this.crossing.line;
    return radFromDeg(sheetDeg - (this.timer.holder.headingDegTrue - plane.convergenceDegAt(fromX, fromY)));
  }

  private isClear(line: BentLine, land: LandAhead): boolean {
    let x = line.along[0] as number;
    let y = line.port[0] as number;
    for (let piece = 0; piece < line.pieces; piece++) {
      for (let part = 1; part <= STEPS_A_PIECE; part++) {
        line.moveTo(piece, part / STEPS_A_PIECE);
        if (land.crosses(x, y, line.atAlong, line.atPort)) return false;
        x = line.atAlong;
        y = line.atPort;
      }
    }
    return true;
  }
}

/** Steps of the timing to a piece of a way: each a node of the track. */
export const STEPS_A_PIECE = 4;

const kept = new WeakMap<Crossing, PassageSearch>();

/** The search of a crossing: made once, kept as long as the crossing is. */
export function searchOf(crossing: Crossing): PassageSearch {
  let search = kept.get(crossing);
  if (search === undefined) {
    search = new PassageSearch(crossing);
    kept.set(crossing, search);
  }
  return search;
}

/** Whether two ways are somewhere farther apart than `metres` at equal shares of their time. */
function areApart(one: RoughWay, other: RoughWay, metres: number): boolean {
  for (let k = 1; k < 8; k++) {
    const a = placeAtShare(one, k / 8);
    const b = placeAtShare(other, k / 8);
    if (Math.hypot(a.along - b.along, a.port - b.port) > metres) return true;
  }
  return false;
}

function placeAtShare(way: RoughWay, share: number): { readonly along: number; readonly port: number } {
  const last = way.seconds.length - 1;
  const wanted = share * (way.seconds[last] as number);
  let i = 0;
  while (i + 2 <= last && (way.seconds[i + 1] as number) < wanted) i++;
  const from = way.seconds[i] as number;
  const part = (wanted - from) / ((way.seconds[i + 1] as number) - from);
  return {
    along: (way.along[i] as number) + part * ((way.along[i + 1] as number) - (way.along[i] as number)),
    port: (way.port[i] as number) + part * ((way.port[i + 1] as number) - (way.port[i] as number)),
  };
}
