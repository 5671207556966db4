import { POPPLE_METRES } from "../places/index.ts";
import { AGAINST_HEIGHT_METRES, AGAINST_SLOTS, AGAINST_STEEPNESS, seaAgainstInto } from "../sea/index.ts";
import {
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_HEIGHT_LOW_METRES,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_PERIOD_LOW_SECONDS,
  type SeaSampler,
  SYSTEM_HEIGHT_METRES,
  SYSTEM_PERIOD_SECONDS,
  SYSTEM_STRIDE,
  SYSTEM_TOWARD_EAST,
  SYSTEM_TOWARD_NORTH,
  SYSTEMS_SLOTS,
} from "../weather/index.ts";
import type { PassageNodes } from "./passage-nodes.ts";

/**
 * What becomes of the forecast's sea on the stream at a node. Where the source tells swell and wind sea apart, each runs its own way by
 * itself: the steepest tells, and their heights grow together by squares. Else the one height and period are run dead against the set,
 * which is the worst. A popple is passed over. Metres; the higher and shorter end of ranges is the worse.
 */
export class SeaOnStream {
  steepnessLow = 0;
  steepnessHigh = 0;
  heightLowMetres = 0;
  heightHighMetres = 0;
  private readonly sea: SeaSampler;
  private readonly systems = new Float64Array(SYSTEMS_SLOTS);
  private readonly against = new Float64Array(AGAINST_SLOTS);

  constructor(sea: SeaSampler) {
    this.sea = sea;
  }

  /**
   * Reckons a node; false where nothing is told of a period. `read`: what the sea has just answered there; the current is known there.
   */
  reckon(nodes: PassageNodes, i: number, read: Float64Array): boolean {
    const east = nodes.currentEastMps[i] as number;
    const north = nodes.currentNorthMps[i] as number;
    const low = read[SEA_HEIGHT_LOW_METRES] as number;
    const high = read[SEA_HEIGHT_HIGH_METRES] as number;
    const [x, y, at] = [nodes.xMetres[i] as number, nodes.yMetres[i] as number, nodes.atSeconds[i] as number];
    const count = this.sea.systemsInto?.(this.systems, x, y, at) ?? 0;
    if (count > 0) this.reckonApart(count, low, high, east, north);
    else if (read[SEA_HAS_PERIOD] === 1) {
      const rate = Math.sqrt(east * east + north * north);
      const short = read[SEA_PERIOD_LOW_SECONDS] as number;
      const long = read[SEA_PERIOD_HIGH_SECONDS] as number;
      this.runAgainst(high, short, rate);
      this.steepnessHigh = this.against[AGAINST_STEEPNESS] as number;
      this.heightHighMetres = this.against[AGAINST_HEIGHT_METRES] as number;
      if (low !== high || short !== long) this.runAgainst(low, long, rate);
      this.steepnessLow = this.against[AGAINST_STEEPNESS] as number;
      this.heightLowMetres = this.against[AGAINST_HEIGHT_METRES] as number;
    } else return false;
    return true;
  }

  private reckonApart(count: number, low: number, high: number, east: number, north: number): void {
    const { systems, against } = this;
    let steepest = 0;
    let before = 0;
    let after = 0;
    for (let k = 0; k < count; k++) {
      const slot = k * SYSTEM_STRIDE;
      const [towardEast, towardNorth] = [systems[slot + SYSTEM_TOWARD_EAST] as number, systems[slot + SYSTEM_TOWARD_NORTH] as number];
      const isKnown = towardEast !== 0 || towardNorth !== 0;
      const rate = isKnown ? -(towardEast * east + towardNorth * north) : Math.sqrt(east * east + north * north);
      const height = systems[slot + SYSTEM_HEIGHT_METRES] as number;
      this.runAgainst(height, systems[slot + SYSTEM_PERIOD_SECONDS] as number, rate);
      steepest = Math.max(steepest, against[AGAINST_STEEPNESS] as number);
      before += height * height;
      after += (against[AGAINST_HEIGHT_METRES] as number) ** 2;
    }
    // The whole sea grows as its systems do together: a source's parts need not make up its whole.
    const grows = before > 0 ? Math.sqrt(after / before) : 1;
    this.steepnessLow = steepest;
    this.steepnessHigh = steepest;
    this.heightLowMetres = low * grows;
    this.heightHighMetres = high * grows;
  }

  private runAgainst(heightMetres: number, periodSeconds: number, rateMps: number): void {
    if (heightMetres >= POPPLE_METRES) seaAgainstInto(this.against, heightMetres, periodSeconds, rateMps);
    else {
      this.against[AGAINST_STEEPNESS] = 0;
      this.against[AGAINST_HEIGHT_METRES] = heightMetres;
    }
  }
}
