import { COVERED } from "../../fields/index.ts";
import type { WindSampler } from "../../weather/index.ts";
import type { Surroundings } from "../helm.ts";
import type { TrackRecorder } from "../track.ts";
import type { BentLine } from "./bent-line.ts";
import type { CourseHolder } from "./course-holder.ts";
import type { TurnedSheet } from "./turned-sheet.ts";

/** A step before a jump of the wind ends so long before it, found in so many rounds. */
const BEFORE_JUMP_SECONDS = 1e-3;
const JUMP_ROUNDS = 3;

/**
 * Times a way in the real water and wind, apart from the search and its copy of them: the boat is held on the line and its length is
 * integrated against the speed made good (Runge–Kutta 4 by the line's parameter). This is the number reported.
 */
export class WayTimer {
  readonly holder: CourseHolder;
  /** Where and why a line could not be gone, after `run` gave null: a coverage code, plus 10 for the wind's, or `NOT_THAT_WAY`. */
  stoppedBy = COVERED as number;
  stoppedX = 0;
  stoppedY = 0;
  stoppedAt = 0;
  private readonly around: Surroundings;
  private readonly sheet: TurnedSheet;
  private readonly jumps: WindSampler | null;

  /** `jumps`: the wind whose jumps no step goes over; null where she does not go by the wind. */
  constructor(around: Surroundings, holder: CourseHolder, sheet: TurnedSheet, jumps: WindSampler | null) {
    this.jumps = jumps;
    this.around = around;
    this.sheet = sheet;
    this.holder = holder;
  }

  /** The instant of arrival at the line's end when it is begun `at`, in so many steps a piece; null where it can't be gone. */
  run(line: BentLine, at: number, stepsAPiece: number, record: TrackRecorder | null): number | null {
    return this.runSteps(line, 0, line.pieces * stepsAPiece, at, stepsAPiece, record);
  }

  /** The same over some steps of the line alone. */
  runSteps(line: BentLine, from: number, until: number, at: number, stepsAPiece: number, record: TrackRecorder | null): number | null {
    const h = 1 / stepsAPiece;
    let since = 0;
    for (let step = from; step < until; step++) {
      const piece = Math.floor(step / stepsAPiece);
      const s = (step % stepsAPiece) * h;
      if (record !== null) {
        if (this.slowness(line, piece, s, at + since) < 0) return null;
        this.note(record, at + since);
      }
      const took = this.splitStep(line, piece, s, h, at + since);
      if (took < 0) return null;
      since += took;
    }
    if (record !== null) {
      const piece = Math.floor((until - 1) / stepsAPiece);
      if (this.slowness(line, piece, until * h - piece, at + since) < 0) return null;
      this.note(record, at + since);
    }
    return at + since;
  }

  /** One step, cut where the wind jumps on the way; seconds, −1 where she can't go on. */
  private splitStep(line: BentLine, piece: number, s: number, h: number, at: number): number {
    let took = this.step(line, piece, s, h, at);
    if (took < 0 || this.jumps === null) return took;
    let since = 0;
    let gone = 0;
    for (const jumpAt of this.jumps.breaksWithin(at, at + took)) {
      const left = jumpAt - at - since;
      if (left < 2 * BEFORE_JUMP_SECONDS || took <= since) continue;
      let part = (h - gone) * (left / (took - since));
      for (let round = 0; round < JUMP_ROUNDS; round++) {
        const there = this.step(line, piece, s + gone, part, at + since);
        if (there < 0) return there;
        part = Math.min(h - gone, part * ((left - BEFORE_JUMP_SECONDS) / there));
      }
      gone += part;
      since = jumpAt - at;
      const rest = this.step(line, piece, s + gone, h - gone, jumpAt);
      if (rest < 0) return rest;
      took = since + rest;
    }
    return took;
  }

  private step(line: BentLine, piece: number, s: number, h: number, at: number): number {
    const k1 = this.slowness(line, piece, s, at);
    if (k1 < 0) return -1;
    const k2 = this.slowness(line, piece, s + h / 2, at + (h / 2) * k1);
    if (k2 < 0) return -1;
    const k3 = this.slowness(line, piece, s + h / 2, at + (h / 2) * k2);
    if (k3 < 0) return -1;
    const k4 = this.slowness(line, piece, s + h, at + h * k3);
    return k4 < 0 ? -1 : (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
  }

  /** Seconds by the line's parameter; −1 where she can't go on. */
  slowness(line: BentLine, piece: number, s: number, at: number): number {
    line.moveTo(piece, s);
    const { sheet, holder } = this;
    const length = Math.sqrt(line.byAlong * line.byAlong + line.byPort * line.byPort);
    const x = sheet.xOf(line.atAlong, line.atPort);
    const y = sheet.yOf(line.atAlong, line.atPort);
    const east = (line.byAlong * sheet.alongX - line.byPort * sheet.alongY) / length;
    const north = (line.byAlong * sheet.alongY + line.byPort * sheet.alongX) / length;
    this.stoppedX = x;
    this.stoppedY = y;
    this.stoppedBy = holder.goAlong(east, north, x, y, at);
    this.stoppedAt = at;
    return this.stoppedBy === COVERED ? length / holder.madeGoodMps : -1;
  }

  private note(record: TrackRecorder, at: number): void {
    const { holder } = this;
    record.add(
      at,
      this.stoppedX,
      this.stoppedY,
      holder.headingDegTrue,
      holder.eastMps,
      holder.northMps,
      holder.propulsion.speedThroughWaterMps,
      holder.propulsion.burnLitresPerHour,
      holder.propulsion.engineOn,
      this.around.current.answeredBy,
    );
  }
}
