import { COVERED } from "../../fields/index.ts";

/**
 * What the search needs to know of a boat: how fast she gets over the ground in a direction, through moving water. Power at one speed,
 * power against the wind, sails: each stands behind this door. Directions and currents in the turned sheet (along, port), m/s.
 */
export interface SpeedOver {
  /** Her speed through the water where it is the same on every heading, everywhere, always; else null. */
  readonly constantMps: number | null;
  /** No heading anywhere gives more through the water: the search's bound is reckoned from it. */
  readonly fastestMps: number;
  /** After `madeGoodMps` gave 0: the coverage code of what it lacked, plus 10 for the wind's; `COVERED` where she just can't go that way. */
  readonly lacking: number;
  /**
   * The greatest speed over the ground along the unit vector (`alongShare`, `portShare`) in a current at a place and time; 0 where she
   * can't go that way, or what her speed depends on is not known there.
   */
  madeGoodMps(
    alongShare: number,
    portShare: number,
    currentAlongMps: number,
    currentPortMps: number,
    along: number,
    port: number,
    at: number,
  ): number;
}

/** A boat at one speed through the water: s = e·u + √(V² − (e×u)²). */
export class ConstantSpeed implements SpeedOver {
  readonly constantMps: number;
  readonly fastestMps: number;
  readonly lacking: number = COVERED;
  private readonly square: number;

  constructor(speedMps: number) {
    this.constantMps = speedMps;
    this.fastestMps = speedMps;
    this.square = speedMps * speedMps;
  }

  madeGoodMps(alongShare: number, portShare: number, currentAlongMps: number, currentPortMps: number): number {
    const across = alongShare * currentPortMps - portShare * currentAlongMps;
    const room = this.square - across * across;
    if (!(room > 0)) return 0;
    return Math.max(0, alongShare * currentAlongMps + portShare * currentPortMps + Math.sqrt(room));
  }
}
