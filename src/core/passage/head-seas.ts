import { addedBySea, GRAVITY_MPS2, type HeadSeaRule, speedLeftInSea } from "../boat/index.ts";
import { COVERED } from "../fields/index.ts";
import { AGAINST_HEIGHT_METRES, AGAINST_LENGTH_METRES, AGAINST_SLOTS, STEEP_STEEPNESS, seaAgainstInto } from "../sea/index.ts";
import { RAD_PER_DEG } from "../units/index.ts";
import {
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_HEIGHT_LOW_METRES,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_PERIOD_LOW_SECONDS,
  SEA_SLOTS,
  type SeaSampler,
  SYSTEM_HEIGHT_METRES,
  SYSTEM_PERIOD_SECONDS,
  SYSTEM_STRIDE,
  SYSTEM_TOWARD_EAST,
  SYSTEM_TOWARD_NORTH,
  SYSTEMS_SLOTS,
} from "../weather/index.ts";

/**
 * What seas take off a boat's speed as she runs: each system by itself, as it stands on the stream, by how far off the bow it comes; from
 * abaft the beam nothing, neither loss nor gain. Of a range the middle, as with the wind. A sea of which nobody says where it comes from comes
 * with the wind, and from dead ahead where there is none or it is variable; one without a period is taken as steep (`STEEP_STEEPNESS`).
 * Where no sea is known nothing is lost. One reader serves many runs; it holds only scratch.
 */
export class HeadSeas {
  private readonly sea: SeaSampler;
  private readonly read = new Float64Array(SEA_SLOTS);
  private readonly systems = new Float64Array(SYSTEMS_SLOTS);
  private readonly against = new Float64Array(AGAINST_SLOTS);
  /** Each system's added resistance, with where it comes from on the sheet, (0, 0) for from dead ahead on any heading. */
  private readonly added = new Float64Array(SYSTEMS_SLOTS);
  private count = 0;

  constructor(sea: SeaSampler) {
    this.sea = sea;
  }

  /**
   * Reads the seas at a place for a boat. The current is on the sheet, m/s; the wind's motion too, any length, (0, 0) where it has no
   * direction.
   */
  lookAt(
    rule: HeadSeaRule,
    xMetres: number,
    yMetres: number,
    at: number,
    currentEastMps: number,
    currentNorthMps: number,
    windEast: number,
    windNorth: number,
  ): void {
    const { read, systems } = this;
    this.count = 0;
    if (this.sea.readInto(read, xMetres, yMetres, at) !== COVERED) return;
    const length = Math.sqrt(windEast * windEast + windNorth * windNorth);
    const [alongEast, alongNorth] = length > 0 ? [windEast / length, windNorth / length] : [0, 0];
    const count = this.sea.systemsInto?.(systems, xMetres, yMetres, at) ?? 0;
    for (let k = 0; k < count; k++) {
      const slot = k * SYSTEM_STRIDE;
      const [east, north] = [systems[slot + SYSTEM_TOWARD_EAST] as number, systems[slot + SYSTEM_TOWARD_NORTH] as number];
      const isKnown = east !== 0 || north !== 0;
      this.add(
        rule,
        systems[slot + SYSTEM_HEIGHT_METRES] as number,
        systems[slot + SYSTEM_PERIOD_SECONDS] as number,
        isKnown ? east : alongEast,
        isKnown ? north : alongNorth,
        currentEastMps,
        currentNorthMps,
      );
    }
    if (count > 0) return;
    const heightMetres = ((read[SEA_HEIGHT_LOW_METRES] as number) + (read[SEA_HEIGHT_HIGH_METRES] as number)) / 2;
    const periodSeconds =
      read[SEA_HAS_PERIOD] === 1
        ? ((read[SEA_PERIOD_LOW_SECONDS] as number) + (read[SEA_PERIOD_HIGH_SECONDS] as number)) / 2
        : Math.sqrt((2 * Math.PI * heightMetres) / (STEEP_STEEPNESS * GRAVITY_MPS2));
    this.add(rule, heightMetres, periodSeconds, alongEast, alongNorth, currentEastMps, currentNorthMps);
  }

  /** The share of her speed that is left on a heading, degrees on the sheet, where she was last looked for. */
  leftOn(rule: HeadSeaRule, sheetDeg: number): number {
    const { added, count } = this;
    if (count === 0) return 1;
    const rad = sheetDeg * RAD_PER_DEG;
    const [east, north] = [Math.sin(rad), Math.cos(rad)];
    let sum = 0;
    for (let k = 0; k < count; k++) {
      const slot = k * SYSTEM_STRIDE;
      const [fromEast, fromNorth] = [added[slot + 1] as number, added[slot + 2] as number];
      const ahead = fromEast === 0 && fromNorth === 0 ? 1 : fromEast * east + fromNorth * north;
      if (ahead > 0) sum += ahead * (added[slot] as number);
    }
    return speedLeftInSea(rule, sum);
  }

  private add(
    rule: HeadSeaRule,
    heightMetres: number,
    periodSeconds: number,
    towardEast: number,
    towardNorth: number,
    currentEastMps: number,
    currentNorthMps: number,
  ): void {
    if (!(heightMetres > 0 && periodSeconds > 0)) return;
    const { against, added } = this;
    seaAgainstInto(against, heightMetres, periodSeconds, -(towardEast * currentEastMps + towardNorth * currentNorthMps));
    const slot = this.count++ * SYSTEM_STRIDE;
    added[slot] = addedBySea(rule, against[AGAINST_HEIGHT_METRES] as number, against[AGAINST_LENGTH_METRES] as number);
    // −0 is no direction either.
    added[slot + 1] = 0 - towardEast;
    added[slot + 2] = 0 - towardNorth;
  }
}
