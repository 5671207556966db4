import type { Line } from "../line.ts";
import { divided } from "./bent-line.ts";
import type { RoughWay } from "./label-search.ts";
import type { LandAhead } from "./land-ahead.ts";
import { CLOSELY_SETTLED_SHARE, type WayRelaxer } from "./relaxed-way.ts";

/** A way turns this far off a corner of the land, metres: only so that rounding does not put it ashore. No clearance: that is the skipper's. */
export const CORNER_OFF_METRES = 2;
/** A corner so near to the rough way lies on it: the rough way itself may lead from corner to corner. */
const ON_THE_LINE_METRES = 0.1;
const MOST_PINS = 64;
const FEWEST_PIECES = 8;

/** Places of one leg, from pin to pin. */
export interface WayLeg {
  along: Float64Array;
  port: Float64Array;
}

interface Place {
  readonly along: number;
  readonly port: number;
}

/** A corner that the way is pinned to: +1 when the land that it keeps off lies to starboard of the way there, −1 to port. */
interface Pin extends Place {
  readonly landSide: number;
}

interface DrawnLeg {
  readonly from: Place;
  readonly until: Place;
  readonly startSeconds: number;
  readonly leg: WayLeg;
  readonly tookSeconds: number;
  readonly touches: boolean;
}

interface Drawn {
  readonly legs: readonly DrawnLeg[];
  readonly seconds: number;
  /** The first leg that touches land, −1 when none does. */
  readonly crossing: number;
}

/** A way in legs, and its seconds as the search reckons them; Infinity where it can't be gone. */
export interface LeggedWay {
  readonly legs: readonly WayLeg[];
  readonly seconds: number;
}

/**
 * Draws a rough way tight round the land: the free way is bent only where it crosses land, at the corner that lies farthest out between it
 * and the rough way (as a string is pulled tight), each leg between corners being relaxed by itself: the earliest at a corner is the best,
 * since a boat that can hold her place could always wait there. Where the land's edge stands out between corners, the leg is relaxed from
 * the rough way without ever touching land.
 */
export class LandRounder {
  private readonly land: LandAhead;
  private readonly relaxer: WayRelaxer;
  private readonly pieces: number;
  private readonly lengthMetres: number;

  constructor(land: LandAhead, relaxer: WayRelaxer, line: Line, pieces: number) {
    this.land = land;
    this.relaxer = relaxer;
    this.lengthMetres = line.lengthMetres;
    this.pieces = pieces;
  }

  round(rough: RoughWay, free: WayLeg, at: number): LeggedWay {
    const corners = this.land.cornersAround([free, rough], CORNER_OFF_METRES);
    const start: Pin = { along: 0, port: 0, landSide: 0 };
    const end: Pin = { along: this.lengthMetres, port: 0, landSide: 0 };
    let pins: readonly Pin[] = [start, end];
    let drawn = this.draw(pins, at, null);
    while (drawn.crossing >= 0 && pins.length < MOST_PINS + 2) {
      const touching = drawn.legs[drawn.crossing] as DrawnLeg;
      const corner = this.farthestBetween(touching.leg, between(rough, touching.from, touching.until), corners, pins);
      if (corner === null) break;
      pins = [...pins.slice(0, drawn.crossing + 1), corner, ...pins.slice(drawn.crossing + 1)];
      drawn = this.draw(pins, at, drawn);
    }
    if (drawn.crossing >= 0) drawn = this.draw(pins, at, drawn, rough);
    for (let i = 1; i + 1 < pins.length; ) {
      const isSlack = !isTaut(pins[i] as Pin, (drawn.legs[i - 1] as DrawnLeg).leg, (drawn.legs[i] as DrawnLeg).leg);
      const fewer = pins.filter((_, k) => k !== i);
      const without = isSlack ? this.draw(fewer, at, drawn) : null;
      if (without !== null && without.crossing < 0 && without.seconds < drawn.seconds) {
        pins = fewer;
        drawn = without;
        i = Math.max(1, i - 1);
      } else i++;
    }
    if (drawn.crossing < 0 && drawn.seconds < Number.POSITIVE_INFINITY) {
      return { legs: drawn.legs.map(({ leg }) => leg), seconds: drawn.seconds };
    }
    const asFound = finely(rough, this.pieces);
    return { legs: [asFound], seconds: this.relaxer.relax(asFound.along, asFound.port, at, CLOSELY_SETTLED_SHARE, this.land) };
  }

  /** All legs between pins one after another; legs of `before` are kept, or begun from. With a rough way to begin from, none touches land. */
  private draw(pins: readonly Pin[], at: number, before: Drawn | null, keepingOff: RoughWay | null = null): Drawn {
    const legs: DrawnLeg[] = [];
    let seconds = 0;
    for (let i = 0; i + 1 < pins.length; i++) {
      const from = pins[i] as Pin;
      const until = pins[i + 1] as Pin;
      const known = before?.legs.find((one) => one.from === from && one.until === until);
      let drawn = known?.startSeconds === seconds ? known : this.drawLeg(from, until, at, seconds, known);
      if (keepingOff !== null && (drawn.touches || drawn.tookSeconds === Number.POSITIVE_INFINITY)) {
        drawn = this.drawClear(from, until, at, seconds, keepingOff);
      }
      legs.push(drawn);
      seconds += drawn.tookSeconds;
    }
    return { legs, seconds, crossing: legs.findIndex(({ touches }) => touches) };
  }

  private drawLeg(from: Place, until: Place, at: number, startSeconds: number, known: DrawnLeg | undefined): DrawnLeg {
    const leg = known === undefined ? this.straight(from, until) : { along: known.leg.along.slice(), port: known.leg.port.slice() };
    const tookSeconds = this.relaxer.relax(leg.along, leg.port, at + startSeconds, CLOSELY_SETTLED_SHARE);
    return { from, until, startSeconds, leg, tookSeconds, touches: this.touches(leg) };
  }

  /** A leg that is kept off land from the beginning on: straight where that is clear, else along the rough way. */
  private drawClear(from: Place, until: Place, at: number, startSeconds: number, rough: RoughWay): DrawnLeg {
    const straight = this.straight(from, until);
    const leg = this.touches(straight) ? finely(between(rough, from, until), straight.along.length - 1) : straight;
    const tookSeconds = this.relaxer.relax(leg.along, leg.port, at + startSeconds, CLOSELY_SETTLED_SHARE, this.land);
    return { from, until, startSeconds, leg, tookSeconds, touches: this.touches(leg) };
  }

  private straight(from: Place, until: Place): WayLeg {
    const metres = Math.hypot(until.along - from.along, until.port - from.port);
    const pieces = Math.max(FEWEST_PIECES, Math.round((this.pieces * metres) / this.lengthMetres));
    return divided(Float64Array.of(from.along, until.along), Float64Array.of(from.port, until.port), pieces, false);
  }

  private touches(leg: WayLeg): boolean {
    return this.land.crossesAny(leg.along, leg.port, 0, leg.along.length - 1);
  }

  /** Of the corners between a leg and the rough way the one farthest from the leg. */
  private farthestBetween(leg: WayLeg, rough: WayLeg, corners: readonly Place[], pins: readonly Pin[]): Pin | null {
    let farthest: Pin | null = null;
    let distance = CORNER_OFF_METRES / 2;
    for (const corner of corners) {
      if (pins.some((pin) => Math.hypot(pin.along - corner.along, pin.port - corner.port) < CORNER_OFF_METRES)) continue;
      if (!isEnclosed(corner, leg, rough) && offLine(corner, rough).metres > ON_THE_LINE_METRES) continue;
      const off = offLine(corner, leg);
      if (off.metres > distance) {
        distance = off.metres;
        farthest = { ...corner, landSide: off.isToPort ? 1 : -1 };
      }
    }
    return farthest;
  }
}

/** Whether a place lies in the area that two lines with common ends enclose (even-odd rule). */
function isEnclosed(place: Place, one: WayLeg, other: WayLeg): boolean {
  return crossingsBeyond(place, one) % 2 !== crossingsBeyond(place, other) % 2;
}

function crossingsBeyond(place: Place, line: WayLeg): number {
  let count = 0;
  for (let i = 0; i + 1 < line.along.length; i++) {
    const x0 = line.along[i] as number;
    const y0 = line.port[i] as number;
    const x1 = line.along[i + 1] as number;
    const y1 = line.port[i + 1] as number;
    if (x0 > place.along === x1 > place.along) continue;
    if (y0 + ((place.along - x0) / (x1 - x0)) * (y1 - y0) > place.port) count++;
  }
  return count;
}

/** Whether the way bends round the pin as it does round land: slackened it would run ashore. */
function isTaut(pin: Pin, before: WayLeg, after: WayLeg): boolean {
  const x = before.along.at(-2) as number;
  const y = before.port.at(-2) as number;
  const dx = (after.along[1] as number) - x;
  const dy = (after.port[1] as number) - y;
  return (dx * (pin.port - y) - dy * (pin.along - x)) * pin.landSide > 0;
}

/** How far a place lies off a line, and on which side of it. */
function offLine(place: Place, line: WayLeg): { readonly metres: number; readonly isToPort: boolean } {
  let metres = Number.POSITIVE_INFINITY;
  let isToPort = false;
  for (let i = 0; i + 1 < line.along.length; i++) {
    const nearest = nearestOn(place, line, i);
    if (nearest.metres >= metres) continue;
    metres = nearest.metres;
    const dx = (line.along[i + 1] as number) - (line.along[i] as number);
    const dy = (line.port[i + 1] as number) - (line.port[i] as number);
    isToPort = dx * (place.port - (line.port[i] as number)) - dy * (place.along - (line.along[i] as number)) > 0;
  }
  return { metres, isToPort };
}

function nearestOn(place: Place, line: WayLeg, i: number): { readonly metres: number; readonly share: number } {
  const x0 = line.along[i] as number;
  const y0 = line.port[i] as number;
  const dx = (line.along[i + 1] as number) - x0;
  const dy = (line.port[i + 1] as number) - y0;
  const square = dx * dx + dy * dy;
  const share = square > 0 ? Math.min(1, Math.max(0, ((place.along - x0) * dx + (place.port - y0) * dy) / square)) : 0;
  return { metres: Math.hypot(place.along - x0 - share * dx, place.port - y0 - share * dy), share };
}

/** The part of a rough way between the places on it nearest to two pins, with the pins at its ends. */
function between(rough: WayLeg, from: Place, until: Place): WayLeg {
  const nearest = (place: Place): number => {
    let best = { metres: Number.POSITIVE_INFINITY, on: 0 };
    for (let i = 0; i + 1 < rough.along.length; i++) {
      const { metres, share } = nearestOn(place, rough, i);
      if (metres < best.metres) best = { metres, on: i + share };
    }
    return best.on;
  };
  const first = nearest(from);
  const last = nearest(until);
  const along = [from.along];
  const port = [from.port];
  const add = (on: number): void => {
    const i = Math.min(Math.floor(on), rough.along.length - 2);
    const share = on - i;
    const x = (rough.along[i] as number) + share * ((rough.along[i + 1] as number) - (rough.along[i] as number));
    const y = (rough.port[i] as number) + share * ((rough.port[i + 1] as number) - (rough.port[i] as number));
    if (Math.hypot(x - (along.at(-1) as number), y - (port.at(-1) as number)) > 1) {
      along.push(x);
      port.push(y);
    }
  };
  add(first);
  for (let i = Math.floor(first) + 1; i < last; i++) add(i);
  if (last > first) add(last);
  if (Math.hypot(until.along - (along.at(-1) as number), until.port - (port.at(-1) as number)) <= 1 && along.length > 1) {
    along.pop();
    port.pop();
  }
  along.push(until.along);
  port.push(until.port);
  return { along: Float64Array.from(along), port: Float64Array.from(port) };
}

/** A line in about so many pieces, all its own places kept: no corner is cut. */
export function finely(line: WayLeg, pieces: number): WayLeg {
  const lengths = Array.from(line.along.subarray(1), (x, i) =>
    Math.hypot(x - (line.along[i] as number), (line.port[i + 1] as number) - (line.port[i] as number)),
  );
  const whole = lengths.reduce((sum, one) => sum + one, 0);
  const along = [line.along[0] as number];
  const port = [line.port[0] as number];
  lengths.forEach((length, i) => {
    const parts = Math.max(1, Math.round((pieces * length) / whole));
    for (let k = 1; k <= parts; k++) {
      along.push((line.along[i] as number) + (k / parts) * ((line.along[i + 1] as number) - (line.along[i] as number)));
      port.push((line.port[i] as number) + (k / parts) * ((line.port[i + 1] as number) - (line.port[i] as number)));
    }
  });
  return { along: Float64Array.from(along), port: Float64Array.from(port) };
}
