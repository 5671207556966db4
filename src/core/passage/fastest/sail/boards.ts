import type { TrackRecorder } from "../../track.ts";
import type { BoardSailer, Side } from "./board-sailer.ts";
import type { SailHandling } from "./sail-plan.ts";
import type { Stretch } from "./stretches.ts";

/** Sub-divisions of a stretch tried, each sailed as a board on either side: no more tacks than these are worth trying. */
const MOST_DIVISIONS = 12;
/** The last tack is settled when the last board leads to within so many metres. */
const CLOSE_ENOUGH_METRES = 0.3;
const MOST_ROUNDS = 12;
/** A first change of the last tack, seconds. */
const FEEL_SECONDS = 300;
/** Boards shorter than this are none. */
const NO_BOARD_SECONDS = 5;
/** No board lasts longer than this. */
const LONGEST_BOARD_SECONDS = 48 * 3600;

export interface Mark {
  readonly xMetres: number;
  readonly yMetres: number;
}

/** Boards on either side of the wind in turn: how long each is kept, the last until the mark is there, and how long going about takes. */
export interface Boards {
  readonly aboutSeconds: number;
  readonly kind: "beat" | "run";
  readonly first: Side;
  readonly seconds: readonly number[];
}

const sideAcross = (side: Side): Side => (side === 1 ? -1 : 1);
export const sideOfBoard = ({ first }: Boards, i: number): Side => (i % 2 === 0 ? first : sideAcross(first));
export const secondsAbout = (kind: "beat" | "run", { tackSeconds, gybeSeconds }: SailHandling): number =>
  kind === "beat" ? tackSeconds : gybeSeconds;

/**
 * The boards to be tried for a stretch: it is cut into so many parts of equal time, each sailed on one side and then on the other as long
 * as the fastest way has it on each, the sides in turn so that boards meet (a b, b a, a b): the line of the fastest way is left no farther
 * than one part takes.
 */
export function boardsFor(stretch: Stretch & { readonly kind: "beat" | "run" }, handling: SailHandling): Boards[] {
  const found: Boards[] = [];
  const whole = stretch.seconds.reduce((sum, one) => sum + one, 0);
  for (let parts = 1; parts <= MOST_DIVISIONS && (parts === 1 || whole >= parts * handling.leastBoardSeconds); parts++) {
    for (const first of [1, -1] as const) {
      const boards = alternating(stretch, whole / parts, parts, first);
      if (boards.seconds.length >= 2) found.push({ kind: stretch.kind, aboutSeconds: secondsAbout(stretch.kind, handling), ...boards });
    }
  }
  return found;
}

function alternating(
  stretch: Stretch,
  partSeconds: number,
  parts: number,
  first: Side,
): { readonly first: Side; readonly seconds: readonly number[] } {
  const starboard = new Float64Array(parts);
  const port = new Float64Array(parts);
  let since = 0;
  stretch.seconds.forEach((seconds, i) => {
    // A step belongs to the part in which its middle lies.
    const part = Math.min(parts - 1, Math.floor((since + seconds / 2) / partSeconds));
    starboard[part] += seconds * stretch.starboardShares[i];
    port[part] += seconds * (1 - stretch.starboardShares[i]);
    since += seconds;
  });
  const list: number[] = [];
  let begun: Side = first;
  let last: Side | 0 = 0;
  for (let part = 0; part < parts; part++) {
    const leading: Side = part % 2 === 0 ? first : sideAcross(first);
    const order: readonly Side[] = [leading, sideAcross(leading)];
    for (const side of order) {
      const seconds = side === 1 ? starboard[part] : port[part];
      if (seconds < NO_BOARD_SECONDS) continue;
      if (side === last) list[list.length - 1] += seconds;
      else {
        if (last === 0) begun = side;
        list.push(seconds);
        last = side;
      }
    }
  }
  return { first: begun, seconds: list };
}

/** Sails boards one after another from where the sailer is, the last until the mark is abeam; false where she can't. Drifts as she goes about. */
export function sailBoards(
  sailer: BoardSailer,
  boards: Boards,
  mark: Mark,
  stepSeconds: number,
  record: TrackRecorder | null,
  begun: ((side: Side, isFirst: boolean) => void) | null = null,
): boolean {
  for (let i = 0; i < boards.seconds.length; i++) {
    const side = sideOfBoard(boards, i);
    if (i > 0 && !sailer.drift(boards.aboutSeconds, record)) return false;
    begun?.(side, i === 0);
    const isLast = i + 1 === boards.seconds.length;
    const untilAt = sailer.at + (isLast ? LONGEST_BOARD_SECONDS : (boards.seconds[i] as number));
    if (!sailer.board(boards.kind, side, untilAt, isLast ? mark : null, stepSeconds, record)) return false;
  }
  return true;
}

/** The same boards with the last tack moved so that the last board leads to the mark; null where it can't be. */
export function ledTo(
  sailer: BoardSailer,
  from: Mark & { readonly at: number },
  boards: Boards,
  mark: Mark,
  stepSeconds: number,
): Boards | null {
  const n = boards.seconds.length;
  const fixed = boards.seconds.slice(0, n - 2);
  sailer.startAt(from.xMetres, from.yMetres, from.at);
  for (let i = 0; i < fixed.length; i++) {
    if (!sailer.board(boards.kind, sideOfBoard(boards, i), sailer.at + (fixed[i] as number), null, stepSeconds, null)) return null;
    if (!sailer.drift(boards.aboutSeconds, null)) return null;
  }
  const { xMetres, yMetres, at } = sailer;
  const last: Boards = { ...boards, first: sideOfBoard(boards, n - 2), seconds: [] };
  let lastSeconds = 0;
  const miss = (seconds: number): number => {
    sailer.startAt(xMetres, yMetres, at);
    const done = sailBoards(sailer, { ...last, seconds: [seconds, 0] }, mark, stepSeconds, null);
    lastSeconds = sailer.at - at - seconds - boards.aboutSeconds;
    return done ? sailer.leftOf(mark) : Number.NaN;
  };
  let before = boards.seconds[n - 2] as number;
  let missBefore = miss(before);
  let seconds = before + FEEL_SECONDS;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const missed = miss(seconds);
    if (Number.isNaN(missed) || Number.isNaN(missBefore)) return null;
    if (Math.abs(missed) < CLOSE_ENOUGH_METRES) {
      const isThere = Math.abs(sailer.aheadOf(mark)) < 1;
      return isThere && seconds > 0 && lastSeconds > 0 ? { ...boards, seconds: [...fixed, seconds, lastSeconds] } : null;
    }
    if (missed === missBefore) return null;
    const next = seconds - (missed * (seconds - before)) / (missed - missBefore);
    before = seconds;
    missBefore = missed;
    seconds = Math.max(0, next);
  }
  return null;
}
