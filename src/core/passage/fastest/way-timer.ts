import type { BoatModel } from "../../boat/index.ts";
import { COVERED } from "../../fields/index.ts";
import type { Surroundings } from "../helm.ts";
import type { TrackRecorder } from "../track.ts";
import type { BentLine } from "./bent-line.ts";
import { CourseHolder } from "./course-holder.ts";
import type { TurnedSheet } from "./turned-sheet.ts";

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

  constructor(around: Surroundings, boat: BoatModel, sheet: TurnedSheet) {
    this.around = around;
    this.sheet = sheet;
    this.holder = new CourseHolder(around, boat);
  }

  /** The instant of arrival at the line's end when it is begun `at`, in so many steps a piece; null where it can't be gone. */
  run(line: BentLine, at: number, stepsAPiece: number, record: TrackRecorder | null): number | null {
    const h = 1 / stepsAPiece;
    let since = 0;
    for (let piece = 0; piece < line.pieces; piece++) {
      for (let step = 0; step < stepsAPiece; step++) {
        const s = step * h;
        const k1 = this.slowness(line, piece, s, at + since);
        if (k1 < 0) return null;
        if (record !== null) this.note(record, at + since);
        const k2 = this.slowness(line, piece, s + h / 2, at + since + (h / 2) * k1);
        if (k2 < 0) return null;
        const k3 = this.slowness(line, piece, s + h / 2, at + since + (h / 2) * k2);
        if (k3 < 0) return null;
        const k4 = this.slowness(line, piece, s + h, at + since + h * k3);
        if (k4 < 0) return null;
        since += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
      }
    }
    if (record !== null) {
      if (this.slowness(line, line.pieces - 1, 1, at + since) < 0) return null;
      this.note(record, at + since);
    }
    return at + since;
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
