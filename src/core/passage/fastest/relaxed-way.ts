import { COVERED } from "../../fields/index.ts";
import { keepOff, takeBack } from "./kept-off.ts";
import type { LandAhead } from "./land-ahead.ts";
import type { SpeedOver } from "./speed-over.ts";
import type { WaterGrid } from "./water-grid.ts";

/** How far a place is shifted to feel how the time goes, as a share of the piece's length. */
const FEEL_SHARE = 0.05;
/** And a time, seconds. */
const FEEL_SECONDS = 600;
/** No place moves farther in one round than this share of a piece. */
const MOST_MOVE_SHARE = 1;
const MOST_ROUNDS = 30;
/** Settled when a round gains less than this share of the time: what it still misses of the place costs far less. */
export const SETTLED_SHARE = 3e-6;
export const CLOSELY_SETTLED_SHARE = 1e-7;

/**
 * Pulls a line of places straight in time: each place between the ends moves along the line's normal there so that the whole takes the
 * least time (Newton's method; a piece's time depends on its two ends alone, so that the second derivatives stand in three diagonals, and on
 * when it begins, whose later cost is carried back from the end as a weight). Steps that don't shorten the time are halved.
 */
export class WayRelaxer {
  protected readonly water: WaterGrid;
  protected readonly boat: SpeedOver;
  /** The piece that `secondsOf` could not get over. */
  private stuckAt = 0;
  private size = 0;
  protected normalAlong = new Float64Array(0);
  protected normalPort = new Float64Array(0);
  private took = new Float64Array(0);
  protected byStart = new Float64Array(0);
  private byFirst = new Float64Array(0);
  private byLast = new Float64Array(0);
  private byFirstTwice = new Float64Array(0);
  private byLastTwice = new Float64Array(0);
  private byBoth = new Float64Array(0);
  private gradient = new Float64Array(0);
  private diagonal = new Float64Array(0);
  private beside = new Float64Array(0);
  private pivots = new Float64Array(0);
  private move = new Float64Array(0);
  private tryAlong = new Float64Array(0);
  private tryPort = new Float64Array(0);
  /** Currents in the middle of a piece shifted by −1, 0, 1 steps of feeling. */
  private readonly middleAlong = new Float64Array(3);
  private readonly middlePort = new Float64Array(3);
  private readonly isCovered = new Uint8Array(3);
  private readonly nine = new Float64Array(9);

  constructor(water: WaterGrid, boat: SpeedOver) {
    this.water = water;
    this.boat = boat;
  }

  /**
   * Moves the places, in their arrays, until settled; returns the seconds it takes from `at`, Infinity where the line as given can't be
   * gone. With land, no piece is moved onto it.
   */
  relax(along: Float64Array, port: Float64Array, at: number, settledShare = SETTLED_SHARE, land: LandAhead | null = null): number {
    const last = along.length - 1;
    this.makeRoom(last + 1);
    let seconds = this.secondsOf(along, port, at);
    if (seconds === Number.POSITIVE_INFINITY) return seconds;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      this.setNormals(along, port);
      if (!this.feelAll(along, port, at)) return seconds;
      const promised = this.solve(last);
      if (!(promised > settledShare * seconds)) return seconds;
      const better = this.stepAlong(along, port, at, seconds, land);
      if (better === null) return seconds;
      const gained = seconds - better;
      seconds = better;
      if (gained < settledShare * seconds) return seconds;
    }
    return seconds;
  }

  /** Seconds of the line of straight pieces, each by the current in its middle. */
  secondsOf(along: Float64Array, port: Float64Array, at: number): number {
    let seconds = 0;
    let half = 0;
    for (let i = 0; i + 1 < along.length; i++) {
      const dx = (along[i + 1] as number) - (along[i] as number);
      const dy = (port[i + 1] as number) - (port[i] as number);
      const length = Math.sqrt(dx * dx + dy * dy);
      if (half === 0) half = (0.5 * length) / this.boat.fastestMps;
      const x = (along[i] as number) + dx / 2;
      const y = (port[i] as number) + dy / 2;
      this.stuckAt = i;
      if (this.water.fineAt(x, y, at + seconds + half) !== COVERED) return Number.POSITIVE_INFINITY;
      const made = this.boat.madeGoodMps(dx / length, dy / length, this.water.alongMps, this.water.portMps, x, y, at + seconds + half);
      if (!(made > 0)) return Number.POSITIVE_INFINITY;
      const took = length / made;
      seconds += took;
      half = took / 2;
    }
    return seconds;
  }

  protected setNormals(along: Float64Array, port: Float64Array): void {
    const last = along.length - 1;
    for (let i = 0; i <= last; i++) {
      const before = Math.max(0, i - 1);
      const after = Math.min(last, i + 1);
      const dx = (along[after] as number) - (along[before] as number);
      const dy = (port[after] as number) - (port[before] as number);
      const length = Math.sqrt(dx * dx + dy * dy);
      this.normalAlong[i] = length > 0 ? -dy / length : 0;
      this.normalPort[i] = length > 0 ? dx / length : 0;
    }
  }

  /** The times of all pieces and how they go with their ends and their start; false where something near can't be gone. */
  private feelAll(along: Float64Array, port: Float64Array, at: number): boolean {
    let seconds = 0;
    let half = 0;
    for (let i = 0; i + 1 < along.length; i++) {
      // Near the edge of where she can go at all the feeling must be finer.
      let took = this.feel(along, port, i, at + seconds, half, FEEL_SHARE);
      for (let finer = FEEL_SHARE / 8; !Number.isFinite(took) && finer > FEEL_SHARE / 1000; finer /= 8) {
        took = this.feel(along, port, i, at + seconds, half, finer);
      }
      if (!Number.isFinite(took)) return false;
      seconds += took;
      half = took / 2;
    }
    return true;
  }

  private feel(along: Float64Array, port: Float64Array, i: number, at: number, halfBefore: number, share: number): number {
    const { water, boat, middleAlong, middlePort, isCovered, nine } = this;
    const x0 = along[i] as number;
    const y0 = port[i] as number;
    const dx = (along[i + 1] as number) - x0;
    const dy = (port[i + 1] as number) - y0;
    const length = Math.sqrt(dx * dx + dy * dy);
    const h = share * length;
    const na0 = this.normalAlong[i] as number;
    const np0 = this.normalPort[i] as number;
    const na1 = this.normalAlong[i + 1] as number;
    const np1 = this.normalPort[i + 1] as number;
    const x = x0 + dx / 2;
    const y = y0 + dy / 2;
    const when = at + (halfBefore === 0 ? (0.5 * length) / boat.fastestMps : halfBefore);
    for (let k = 0; k < 3; k++) {
      const shift = (k - 1) * h;
      isCovered[k] = water.fineAt(x + (shift * (na0 + na1)) / 2, y + (shift * (np0 + np1)) / 2, when) === COVERED ? 1 : 0;
      middleAlong[k] = water.alongMps;
      middlePort[k] = water.portMps;
    }
    if (isCovered[1] === 0) return Number.POSITIVE_INFINITY;
    for (let k = 0; k < 3; k += 2) {
      // Beside water that isn't known it is felt as if it ran there as it does here; it isn't gone into for that.
      if (isCovered[k] === 1) continue;
      middleAlong[k] = middleAlong[1] as number;
      middlePort[k] = middlePort[1] as number;
    }
    for (let first = -1; first <= 1; first++) {
      for (let last = -1; last <= 1; last++) {
        const ex = dx + h * (last * na1 - first * na0);
        const ey = dy + h * (last * np1 - first * np0);
        const q = (first + last) / 2;
        // The parabola through the three readings.
        const w0 = (q * (q - 1)) / 2;
        const w1 = 1 - q * q;
        const w2 = (q * (q + 1)) / 2;
        const u = w0 * (middleAlong[0] as number) + w1 * (middleAlong[1] as number) + w2 * (middleAlong[2] as number);
        const v = w0 * (middlePort[0] as number) + w1 * (middlePort[1] as number) + w2 * (middlePort[2] as number);
        const long = Math.sqrt(ex * ex + ey * ey);
        const mx = x + (h * (first * na0 + last * na1)) / 2;
        const my = y + (h * (first * np0 + last * np1)) / 2;
        nine[3 * first + last + 4] = long / boat.madeGoodMps(ex / long, ey / long, u, v, mx, my, when);
      }
    }
    for (let k = 0; k < 9; k++) if (!Number.isFinite(nine[k] as number)) return Number.POSITIVE_INFINITY;
    const now = nine[4] as number;
    this.took[i] = now;
    this.byFirst[i] = ((nine[7] as number) - (nine[1] as number)) / (2 * h);
    this.byLast[i] = ((nine[5] as number) - (nine[3] as number)) / (2 * h);
    this.byFirstTwice[i] = ((nine[7] as number) - 2 * now + (nine[1] as number)) / (h * h);
    this.byLastTwice[i] = ((nine[5] as number) - 2 * now + (nine[3] as number)) / (h * h);
    this.byBoth[i] = ((nine[8] as number) - (nine[6] as number) - (nine[2] as number) + (nine[0] as number)) / (4 * h * h);
    this.byStart[i] = 0;
    if (water.fineAt(x, y, when + FEEL_SECONDS) === COVERED) {
      const made = boat.madeGoodMps(dx / length, dy / length, water.alongMps, water.portMps, x, y, when + FEEL_SECONDS);
      if (made > 0) this.byStart[i] = Math.max(-0.9, (length / made - now) / FEEL_SECONDS);
    }
    return now;
  }

  /** Solves for the moves, into `move`; returns the seconds that a parabola promises to be saved. */
  private solve(last: number): number {
    const { gradient, diagonal, beside, pivots, move } = this;
    let weight = 1;
    for (let i = last - 1; i >= 0; i--) {
      // `weight` is what a second at the end of piece i costs at the end of all.
      if (i + 1 < last) {
        gradient[i + 1] = (gradient[i + 1] as number) + weight * (this.byLast[i] as number);
        diagonal[i + 1] = (diagonal[i + 1] as number) + weight * (this.byLastTwice[i] as number);
      }
      gradient[i] = weight * (this.byFirst[i] as number);
      diagonal[i] = weight * (this.byFirstTwice[i] as number);
      beside[i] = weight * (this.byBoth[i] as number);
      weight *= 1 + (this.byStart[i] as number);
    }
    let greatest = 0;
    for (let i = 1; i < last; i++) greatest = Math.max(greatest, Math.abs(diagonal[i] as number));
    for (let lift = 0, tries = 0; tries < 12; lift = lift === 0 ? 1e-3 * greatest : 4 * lift, tries++) {
      if (!factorised(diagonal, beside, pivots, last, lift, 1e-6 * greatest)) continue;
      for (let i = 1; i < last; i++) {
        move[i] =
          -(gradient[i] as number) - (i > 1 ? ((beside[i - 1] as number) / (pivots[i - 1] as number)) * (move[i - 1] as number) : 0);
      }
      for (let i = last - 1; i >= 1; i--) {
        move[i] = ((move[i] as number) - (i + 1 < last ? (beside[i] as number) * (move[i + 1] as number) : 0)) / (pivots[i] as number);
      }
      let promised = 0;
      for (let i = 1; i < last; i++) promised -= 0.5 * (gradient[i] as number) * (move[i] as number);
      return promised;
    }
    return 0;
  }

  private stepAlong(along: Float64Array, port: Float64Array, at: number, before: number, land: LandAhead | null): number | null {
    const { move, tryAlong, tryPort } = this;
    const last = along.length - 1;
    const dx = (along[last] as number) - (along[0] as number);
    const dy = (port[last] as number) - (port[0] as number);
    const piece = Math.max(Math.sqrt(dx * dx + dy * dy) / last, 1);
    let greatest = 0;
    for (let i = 1; i < last; i++) greatest = Math.max(greatest, Math.abs(move[i] as number));
    let share = Math.min(1, (MOST_MOVE_SHARE * piece) / greatest);
    const triedAlong = tryAlong.subarray(0, last + 1);
    const triedPort = tryPort.subarray(0, last + 1);
    for (let halving = 0; halving < 8; halving++, share /= 2) {
      triedAlong.set(along);
      triedPort.set(port);
      for (let i = 1; i < last; i++) {
        triedAlong[i] = (along[i] as number) + share * (move[i] as number) * (this.normalAlong[i] as number);
        triedPort[i] = (port[i] as number) + share * (move[i] as number) * (this.normalPort[i] as number);
      }
      if (land !== null) keepOff(land, along, port, triedAlong, triedPort);
      let seconds = this.secondsOf(triedAlong, triedPort, at);
      // What can't be gone is left out of the move, at last wholly; the rest goes on.
      for (let tries = 0; seconds === Number.POSITIVE_INFINITY && tries < 2 * last; tries++) {
        const keep = tries < last ? 0.5 : 0;
        takeBack(this.stuckAt, keep, along, port, triedAlong, triedPort);
        takeBack(this.stuckAt + 1, keep, along, port, triedAlong, triedPort);
        if (land !== null) keepOff(land, along, port, triedAlong, triedPort);
        seconds = this.secondsOf(triedAlong, triedPort, at);
      }
      if (seconds < before) {
        along.set(triedAlong);
        port.set(triedPort);
        return seconds;
      }
    }
    return null;
  }

  private makeRoom(size: number): void {
    if (size <= this.size) return;
    this.size = size;
    const room = () => new Float64Array(size);
    this.normalAlong = room();
    this.normalPort = room();
    this.took = room();
    this.byStart = room();
    this.byFirst = room();
    this.byLast = room();
    this.byFirstTwice = room();
    this.byLastTwice = room();
    this.byBoth = room();
    this.gradient = room();
    this.diagonal = room();
    this.beside = room();
    this.pivots = room();
    this.move = room();
    this.tryAlong = room();
    this.tryPort = room();
  }
}

/** Pivots of the three diagonals lifted by `lift`; false where they are not all positive. */
function factorised(
  diagonal: Float64Array,
  beside: Float64Array,
  pivots: Float64Array,
  last: number,
  lift: number,
  least: number,
): boolean {
  for (let i = 1; i < last; i++) {
    const b = i > 1 ? (beside[i - 1] as number) : 0;
    pivots[i] = (diagonal[i] as number) + lift - (i > 1 ? (b * b) / (pivots[i - 1] as number) : 0);
    if (!((pivots[i] as number) > least)) return false;
  }
  return true;
}
