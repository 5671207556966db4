import { COVERED } from "../../../fields/index.ts";
import { divided } from "../bent-line.ts";
import type { LandAhead } from "../land-ahead.ts";
import { SETTLED_SHARE, WayRelaxer } from "../relaxed-way.ts";
import type { WayLeg } from "../round-land.ts";
import type { WaterGrid } from "../water-grid.ts";
import { CURRENT_ALONG, CURRENT_PORT, type SailedSpeed, TOWARD_ALONG, TOWARD_PORT } from "./sailed-speed.ts";

/** Newton's method ends when a round gains less than this share of the time: the lattice does the rest. */
const NEWTON_SETTLED_SHARE = 1e-4;
/** Places tried to either side of the line at each of its own. */
const TO_EITHER_SIDE = 2;
const PLACES = 2 * TO_EITHER_SIDE + 1;
/** How far they lie apart, as a share of a piece: at first, and when it ends. */
const FIRST_APART = 0.4;
const LAST_APART = 2e-3;
/** At one distance it is gone on with while a round gains this share of the time, and so many rounds at most. */
const GAINS_SHARE = 5e-6;
const MOST_ROUNDS = 4;

/**
 * Pulls a line straight in time for a boat under sail. Her best lines run along the very edges of what she can lay, where the time has
 * kinks that stop Newton's method; so after that the line is searched through a narrow lattice around it (the earliest at each place from
 * the earliest at those before: Bellman), again and again, ever narrower.
 */
export class TubeRelaxer extends WayRelaxer {
  private readonly sailed: SailedSpeed;
  private room = 0;
  private labels = new Float64Array(0);
  private from = new Int8Array(0);
  private wayAlong = new Float64Array(0);
  private wayPort = new Float64Array(0);
  /** Current and wind (along, port; along, port) to starboard, in the middle and to port of a piece's middle. */
  private readonly read = new Float64Array(12);
  /** And at each place between that pieces may have their middles at. */
  private readonly middles = new Float64Array(4 * (4 * TO_EITHER_SIDE + 1));
  private isVariable = false;

  constructor(water: WaterGrid, boat: SailedSpeed) {
    super(water, boat);
    this.sailed = boat;
  }

  override relax(along: Float64Array, port: Float64Array, at: number, settledShare = SETTLED_SHARE, land: LandAhead | null = null): number {
    // How a piece's time goes with its beginning is left there by Newton's method.
    this.byStart.fill(0);
    const seconds = super.relax(along, port, at, Math.max(settledShare, NEWTON_SETTLED_SHARE), land);
    return this.tighten(along, port, at, seconds, land);
  }

  /** A line that takes so many seconds and is known to be good, cut into pieces half as long and tightened again. */
  halved(along: Float64Array, port: Float64Array, at: number): WayLeg & { readonly seconds: number } {
    const leg = divided(along, port, 2 * (along.length - 1), false);
    this.byStart.fill(0);
    const seconds = super.relax(leg.along, leg.port, at, NEWTON_SETTLED_SHARE);
    return { ...leg, seconds: this.tighten(leg.along, leg.port, at, seconds, null) };
  }

  private tighten(along: Float64Array, port: Float64Array, at: number, before: number, land: LandAhead | null): number {
    let seconds = before;
    if (seconds === Number.POSITIVE_INFINITY || along.length < 3) return seconds;
    const count = along.length;
    this.makePlaces(count);
    const wayAlong = this.wayAlong.subarray(0, count);
    const wayPort = this.wayPort.subarray(0, count);
    const piece = meanPiece(along, port);
    for (let apart = FIRST_APART; apart > LAST_APART; apart /= 2) {
      for (let round = 0; round < MOST_ROUNDS; round++) {
        this.setNormals(along, port);
        if (!this.sweep(along, port, at, apart * piece, land)) break;
        const better = this.secondsOf(wayAlong, wayPort, at);
        if (!(better < seconds)) break;
        const gained = seconds - better;
        along.set(wayAlong);
        port.set(wayPort);
        seconds = better;
        if (gained < GAINS_SHARE * seconds) break;
      }
    }
    return seconds;
  }

  /** The earliest line through the places `apart` metres from each other, into `wayAlong`, `wayPort`; false where none leads through. */
  private sweep(along: Float64Array, port: Float64Array, at: number, apart: number, land: LandAhead | null): boolean {
    const { labels, normalAlong, normalPort, sailed, middles } = this;
    const { asked } = sailed;
    const last = along.length - 1;
    labels.fill(Number.POSITIVE_INFINITY, 0, (last + 1) * PLACES);
    labels[TO_EITHER_SIDE] = 0;
    let half = 0;
    for (let i = 0; i < last; i++) {
      const earliest = this.earliestAt(i);
      if (earliest === Number.POSITIVE_INFINITY) return false;
      const dx = along[i + 1] - along[i];
      const dy = port[i + 1] - port[i];
      if (half === 0) half = (0.5 * Math.sqrt(dx * dx + dy * dy)) / sailed.fastestMps;
      const when = at + earliest + half;
      const x = along[i] + dx / 2;
      const y = port[i] + dy / 2;
      const na = (apart * (normalAlong[i] + normalAlong[i + 1])) / 4;
      const np = (apart * (normalPort[i] + normalPort[i + 1])) / 4;
      if (!this.readMiddles(x, y, na, np, when)) return false;
      const { isVariable } = this;
      const byStart = this.byStart[i];
      for (let b = -TO_EITHER_SIDE; b <= TO_EITHER_SIDE; b++) {
        if (i + 1 === last && b !== 0) continue;
        const to = (i + 1) * PLACES + b + TO_EITHER_SIDE;
        for (let a = -TO_EITHER_SIDE; a <= TO_EITHER_SIDE; a++) {
          const label = labels[i * PLACES + a + TO_EITHER_SIDE];
          if (label >= labels[to]) continue;
          const ex = dx + apart * (b * normalAlong[i + 1] - a * normalAlong[i]);
          const ey = dy + apart * (b * normalPort[i + 1] - a * normalPort[i]);
          const mx = x + (a + b) * na;
          const my = y + (a + b) * np;
          const length = Math.sqrt(ex * ex + ey * ey);
          asked[TOWARD_ALONG] = ex / length;
          asked[TOWARD_PORT] = ey / length;
          for (let k = 0; k < 4; k++) asked[CURRENT_ALONG + k] = middles[4 * (a + b + 2 * TO_EITHER_SIDE) + k];
          const made = isVariable
            ? sailed.madeGoodMps(ex / length, ey / length, asked[CURRENT_ALONG], asked[CURRENT_PORT], mx, my, when)
            : sailed.reachMps();
          const there = label + length / made + byStart * (label - earliest);
          if (!(made > 0) || there >= labels[to]) continue;
          if (land?.crosses(mx - ex / 2, my - ey / 2, mx + ex / 2, my + ey / 2) === true) continue;
          labels[to] = there;
          this.from[to] = a;
        }
      }
      half = (this.earliestAt(i + 1) - earliest) / 2;
    }
    this.followBack(along, port, apart);
    return true;
  }

  /** Water and wind in the middle of a piece and to either side of it; what lies between goes by the parabola through them. */
  private readMiddles(x: number, y: number, na: number, np: number, when: number): boolean {
    const { water, sailed, read, middles } = this;
    this.isVariable = false;
    for (let k = 0; k < 3; k++) {
      const mx = x + 2 * TO_EITHER_SIDE * (k - 1) * na;
      const my = y + 2 * TO_EITHER_SIDE * (k - 1) * np;
      if (water.fineAt(mx, my, when) !== COVERED || sailed.readWind(mx, my, when) !== COVERED) return false;
      read[4 * k] = water.alongMps;
      read[4 * k + 1] = water.portMps;
      read[4 * k + 2] = sailed.windAlongMps;
      read[4 * k + 3] = sailed.windPortMps;
      this.isVariable ||= sailed.windIsVariable;
    }
    for (let i = 0; i <= 4 * TO_EITHER_SIDE; i++) {
      const q = i / (2 * TO_EITHER_SIDE) - 1;
      const w0 = (q * (q - 1)) / 2;
      const w1 = 1 - q * q;
      const w2 = (q * (q + 1)) / 2;
      for (let k = 0; k < 4; k++) middles[4 * i + k] = w0 * read[k] + w1 * read[4 + k] + w2 * read[8 + k];
    }
    return true;
  }

  private followBack(along: Float64Array, port: Float64Array, apart: number): void {
    let place = 0;
    for (let i = along.length - 1; i >= 0; i--) {
      this.wayAlong[i] = along[i] + place * apart * this.normalAlong[i];
      this.wayPort[i] = port[i] + place * apart * this.normalPort[i];
      place = this.from[i * PLACES + place + TO_EITHER_SIDE];
    }
  }

  private earliestAt(i: number): number {
    let earliest = Number.POSITIVE_INFINITY;
    for (let k = i * PLACES; k < (i + 1) * PLACES; k++) if (this.labels[k] < earliest) earliest = this.labels[k];
    return earliest;
  }

  private makePlaces(count: number): void {
    if (count <= this.room) return;
    this.room = count;
    this.labels = new Float64Array(count * PLACES);
    this.from = new Int8Array(count * PLACES);
    this.wayAlong = new Float64Array(count);
    this.wayPort = new Float64Array(count);
  }
}

function meanPiece(along: Float64Array, port: Float64Array): number {
  let length = 0;
  for (let i = 0; i + 1 < along.length; i++) {
    const dx = along[i + 1] - along[i];
    const dy = port[i + 1] - port[i];
    length += Math.sqrt(dx * dx + dy * dy);
  }
  return length / (along.length - 1);
}
