import type { NoAnswer } from "../../../answers/index.ts";
import { turnDeg } from "../../../units/index.ts";
import { nodeAt, sumsOf, type Track, TrackRecorder } from "../../track.ts";
import type { BentLine } from "../bent-line.ts";
import { stopOf } from "../lack-of-way.ts";
import { type PassageSearch, STEPS_A_PIECE } from "../passage-search.ts";
import { WayTimer } from "../way-timer.ts";
import { AirAndWater } from "./air-and-water.ts";
import { BoardSailer, type Side } from "./board-sailer.ts";
import { type Boards, boardsFor, ledTo, type Mark, sailBoards, secondsAbout, sideOfBoard } from "./boards.ts";
import { FreeTacker } from "./free-tacker.ts";
import type { Board, SailHandling, SailPlan } from "./sail-plan.ts";
import { nextStretch, type Stretch } from "./stretches.ts";

/** Steps by which boards are tried, and by which those chosen are timed, seconds. */
const TRYING_STEP_SECONDS = 600;
const TIMING_STEP_SECONDS = 60;

type Start = Mark & { readonly at: number };
type Begun = Pick<Board, "sailed" | "windOver" | "fromAt" | "after">;

/**
 * Makes the fastest way of a boat under sail into one that can be carried out: where it beats, or gybes down wind, it is sailed in boards; else the
 * line itself is held. One instance plans one way.
 */
export class WayPlanner {
  private readonly search: PassageSearch;
  private readonly handling: SailHandling;
  private readonly tacker: FreeTacker;
  private readonly sailer: BoardSailer;
  /** Holds the line, where there are no boards one heading at a time. */
  private readonly holder: FreeTacker;
  private readonly timer: WayTimer;
  private readonly record = new TrackRecorder();
  private readonly begun: Begun[] = [];
  private side: Side | 0 = 0;
  private at: number;
  private why: NoAnswer | null = null;

  constructor(search: PassageSearch, tacker: FreeTacker, departAt: number, handling: SailHandling) {
    this.handling = handling;
    const { around, boat } = search.crossing;
    this.search = search;
    this.tacker = tacker;
    this.at = departAt;
    this.sailer = new BoardSailer(around, boat, tacker.hull);
    this.holder = new FreeTacker(around, boat, tacker.hull, true);
    this.timer = new WayTimer(around, this.holder, search.sheet, around.wind);
  }

  /** The plan along the lines of a fastest way, one after another. */
  plan(lines: readonly BentLine[]): SailPlan {
    const { search, tacker } = this;
    for (const line of lines) {
      // Each stretch as it is when she is there, later than the bound by what went before.
      for (let step = 0; step < line.pieces * STEPS_A_PIECE; ) {
        const stretch = nextStretch(search.timer, tacker, line, step, this.at, STEPS_A_PIECE);
        if (stretch === null) return { kind: "fails", why: stopOf(search) };
        if (!this.goOn(line, stretch)) return { kind: "fails", why: this.why ?? stopOf(search, this.timer) };
        step = stretch.until;
      }
    }
    const track = this.record.finish(this.search.crossing.line.plane);
    const boards = this.boardsOn(track);
    const count = (after: Board["after"]): number => boards.filter((board) => board.after === after).length;
    return { kind: "arrives", arrivalAt: this.at, boards, tacks: count("tack"), gybes: count("gybe"), track, ...sumsOf(track) };
  }

  /** Goes on along a stretch: by the earliest of all boards that can be kept, or with the line held where that is earlier. */
  private goOn(line: BentLine, stretch: Stretch): boolean {
    // On a course a moment of luffing, as where the wind jumps, is no board.
    this.holder.mayMix = stretch.kind === "course";
    const heldAt = this.timer.runSteps(line, stretch.from, stretch.until, this.at, STEPS_A_PIECE, null);
    const { kind } = stretch;
    if (kind === "course") return heldAt !== null && this.holdLine(line, stretch);
    const from = { ...this.placeOn(line, stretch.from), at: this.at };
    const mark = this.placeOn(line, stretch.until);
    const best = this.earliestBoards(boardsFor({ ...stretch, kind }, this.handling), from, mark);
    if (best !== null && (heldAt === null || best.arrivalAt < heldAt)) return this.keepBoards(best.boards, from, mark);
    return heldAt !== null && this.holdLine(line, stretch);
  }

  private earliestBoards(
    tried: readonly Boards[],
    from: Start,
    mark: Mark,
  ): { readonly boards: Boards; readonly arrivalAt: number } | null {
    let best: { readonly boards: Boards; readonly arrivalAt: number; readonly isKept: boolean } | null = null;
    for (const boards of tried) {
      const first = sideOfBoard(boards, 0);
      const start = { ...from, at: from.at + (this.side === 0 || this.side === first ? 0 : boards.aboutSeconds) };
      const led = ledTo(this.sailer, start, boards, mark, TRYING_STEP_SECONDS);
      if (led === null) continue;
      const arrivalAt = this.sailer.at;
      // The last board ends at the mark; with one tack there may be no choice, where the mark lies hard by the lay line.
      const isKept = Math.min(...led.seconds) >= this.handling.leastBoardSeconds;
      if (!isKept && (led.seconds.length > 2 || best?.isKept === true)) continue;
      if (best !== null && best.isKept === isKept && best.arrivalAt <= arrivalAt) continue;
      if (!this.crossesLand(led, start, mark)) best = { boards: led, arrivalAt, isKept };
    }
    return best;
  }

  private crossesLand(boards: Boards, from: Start, mark: Mark): boolean {
    const { around, line } = this.search.crossing;
    const land = around.land ?? null;
    if (land === null) return false;
    const record = new TrackRecorder();
    this.sailer.startAt(from.xMetres, from.yMetres, from.at);
    if (!sailBoards(this.sailer, boards, mark, TIMING_STEP_SECONDS, record)) return true;
    const { xMetres: x, yMetres: y, count } = record.finish(line.plane);
    for (let i = 0; i + 1 < count; i++) {
      if (!land.crosses(x[i], y[i], x[i + 1], y[i + 1])) continue;
      const touched = land.firstTouched(x[i], y[i], x[i + 1], y[i + 1]);
      const where = line.plane.toPosition(x[i], y[i]);
      if (touched !== undefined)
        this.why = { kind: "noAnswer", code: "across-land", at: from.at, where, area: { kind: touched.kind, name: touched.name } };
      return true;
    }
    return false;
  }

  private keepBoards(tried: Boards, from: Start, mark: Mark): boolean {
    const { sailer, record } = this;
    const after = this.onto(sideOfBoard(tried, 0), tried.kind === "beat");
    const start = { ...from, at: this.at };
    // By finer steps the last tack comes a little otherwise.
    const boards = ledTo(sailer, start, tried, mark, TIMING_STEP_SECONDS) ?? tried;
    if (record.length > 0) record.dropLast();
    sailer.startAt(start.xMetres, start.yMetres, start.at);
    const sailed = sailBoards(sailer, boards, mark, TIMING_STEP_SECONDS, record, (side, isFirst) => {
      this.side = side;
      const about = boards.kind === "beat" ? "tack" : "gybe";
      this.begin(boards.kind === "beat" ? "closeHauled" : "running", side, sailer.at, isFirst ? after : about);
    });
    this.at = sailer.at;
    if (sailed) return true;
    const { stoppedBy, xMetres: stoppedX, yMetres: stoppedY, at: stoppedAt } = sailer;
    this.why = stopOf(this.search, { stoppedBy, stoppedX, stoppedY, stoppedAt });
    return false;
  }

  /** Holds the line, with the wind over one side after the other as the bound has it. */
  private holdLine(line: BentLine, { from, starboardShares }: Stretch): boolean {
    let begin = 0;
    for (let i = 1; i <= starboardShares.length; i++) {
      if (i < starboardShares.length && starboardShares[i] > 0.5 === starboardShares[begin] > 0.5) continue;
      if (!this.holdSteps(line, from + begin, from + i)) return false;
      begin = i;
    }
    return true;
  }

  private holdSteps(line: BentLine, from: number, until: number): boolean {
    const { record, timer, holder } = this;
    const piece = Math.floor(from / STEPS_A_PIECE);
    // Half a step on she has turned, if she turns there.
    if (timer.slowness(line, piece, (from + 0.5) / STEPS_A_PIECE - piece, this.at) < 0) return false;
    const side: Side = holder.angleDeg > 0 ? 1 : -1;
    const after = this.onto(side, Math.abs(holder.angleDeg) < 90);
    this.begin("course", side, this.at, after);
    if (record.length > 0) record.dropLast();
    const there = timer.runSteps(line, from, until, this.at, STEPS_A_PIECE, record);
    if (there === null) return false;
    this.at = there;
    return true;
  }

  /** Brings the wind over a side: what that takes is lost on the spot. */
  private onto(side: Side, isThroughTheWind: boolean): Board["after"] {
    const isOver = this.side === 0 || this.side === side;
    this.side = side;
    if (isOver) return null;
    this.at += secondsAbout(isThroughTheWind ? "beat" : "run", this.handling);
    return isThroughTheWind ? "tack" : "gybe";
  }

  private begin(sailed: Board["sailed"], side: Side, fromAt: number, after: Board["after"]): void {
    const last = this.begun.at(-1);
    if (after === null && last?.sailed === sailed && last.windOver === (side === 1 ? "starboard" : "port")) return;
    this.begun.push({ sailed, windOver: side === 1 ? "starboard" : "port", fromAt, after });
  }

  private boardsOn(track: Track): Board[] {
    const { around, line } = this.search.crossing;
    const here = new AirAndWater(around);
    return this.begun.map((one, i): Board => {
      const untilAt = this.begun[i + 1]?.fromAt ?? this.at;
      const first = nodeAt(track, one.fromAt);
      const last = Math.max(first, nodeAt(track, untilAt - 1));
      here.readAt(track.xMetres[first], track.yMetres[first], one.fromAt);
      const headingDegTrue = track.headingDegTrue[first];
      return {
        ...one,
        untilAt,
        xMetres: track.xMetres[first],
        yMetres: track.yMetres[first],
        alongMetres: (track.xMetres[first] - line.fromX) * line.alongX + (track.yMetres[first] - line.fromY) * line.alongY,
        headingDegTrue,
        lastHeadingDegTrue: track.headingDegTrue[last],
        trueWindAngleDeg: Math.abs(turnDeg(headingDegTrue, here.windFromDegTrue)),
      };
    });
  }

  private placeOn(line: BentLine, step: number): Mark {
    const piece = Math.min(line.pieces - 1, Math.floor(step / STEPS_A_PIECE));
    line.moveTo(piece, step / STEPS_A_PIECE - piece);
    const { sheet } = this.search;
    return { xMetres: sheet.xOf(line.atAlong, line.atPort), yMetres: sheet.yOf(line.atAlong, line.atPort) };
  }
}
