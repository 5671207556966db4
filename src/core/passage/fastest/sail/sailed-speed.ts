import { COVERED, type Coverage } from "../../../fields/index.ts";
import { OF_WIND } from "../course-holder.ts";
import type { SpeedOver } from "../speed-over.ts";
import type { TurnedSheet } from "../turned-sheet.ts";
import type { WindGrid } from "../wind-grid.ts";
import type { FreeTacker } from "./free-tacker.ts";
import { CURRENT_AHEAD, CURRENT_ASIDE, type FreeTacking, RAY_AHEAD, RAY_ASIDE, WIND } from "./free-tacking.ts";

/** Slots of `SailedSpeed.asked`. */
export const TOWARD_ALONG = 0;
export const TOWARD_PORT = 1;
export const CURRENT_ALONG = 2;
export const CURRENT_PORT = 3;
export const WIND_ALONG = 4;
export const WIND_PORT = 5;

/** Directions told apart by their unit vector's parts, for where to begin on the hull. */
const HINTS_A_ROW = 16;
const ABOUT = 7.99;

/** The speed over the ground of a boat under sail that tacks and gybes for nothing, in the copied wind. */
export class SailedSpeed implements SpeedOver {
  readonly constantMps = null;
  readonly fastestMps: number;
  lacking: number = COVERED;
  readonly hull: FreeTacking;
  /** What `reachMps` is asked, by the names above, m/s over the ground. */
  readonly asked = new Float64Array(6);
  /** After `readWind`: the motion of the wind over the ground along and to port, m/s, and whether a part of it has no direction. */
  windAlongMps = 0;
  windPortMps = 0;
  windIsVariable = false;
  private readonly hints = new Int16Array(HINTS_A_ROW * HINTS_A_ROW);
  private readonly wind: WindGrid;
  private readonly sheet: TurnedSheet;
  private readonly inVariable: FreeTacker;

  constructor(holder: FreeTacker, fastestMps: number, wind: WindGrid, sheet: TurnedSheet) {
    this.hull = holder.hull;
    this.fastestMps = fastestMps;
    this.wind = wind;
    this.sheet = sheet;
    this.inVariable = holder;
  }

  madeGoodMps(
    alongShare: number,
    portShare: number,
    currentAlongMps: number,
    currentPortMps: number,
    along: number,
    port: number,
    at: number,
  ): number {
    const coverage = this.readWind(along, port, at);
    this.lacking = coverage === COVERED ? COVERED : OF_WIND + coverage;
    if (coverage !== COVERED) return 0;
    if (this.windIsVariable) return this.inVariableWind(alongShare, portShare, currentAlongMps, currentPortMps);
    const { asked } = this;
    asked[TOWARD_ALONG] = alongShare;
    asked[TOWARD_PORT] = portShare;
    asked[CURRENT_ALONG] = currentAlongMps;
    asked[CURRENT_PORT] = currentPortMps;
    asked[WIND_ALONG] = this.windAlongMps;
    asked[WIND_PORT] = this.windPortMps;
    return this.reachMps();
  }

  /** Reads the wind over the ground into the fields that tell it. */
  readWind(along: number, port: number, at: number): Coverage {
    const coverage = this.wind.readBetween(along, port, at);
    const { sheet } = this;
    const { values } = this.wind;
    this.windAlongMps = values[0] * sheet.alongX + values[1] * sheet.alongY;
    this.windPortMps = values[1] * sheet.alongX - values[0] * sheet.alongY;
    this.windIsVariable = values[2] > 0;
    return coverage;
  }

  /** The same for what stands in `asked`, in a wind that has a direction. */
  reachMps(): number {
    const { asked, hull } = this;
    // The wind over the water, and the unit vector toward where it comes from.
    const wx = asked[WIND_ALONG] - asked[CURRENT_ALONG];
    const wy = asked[WIND_PORT] - asked[CURRENT_PORT];
    const windMps = Math.sqrt(wx * wx + wy * wy);
    const fx = windMps > 0 ? -wx / windMps : 1;
    const fy = windMps > 0 ? -wy / windMps : 0;
    const inWind = hull.asked;
    inWind[RAY_AHEAD] = asked[TOWARD_ALONG] * fx + asked[TOWARD_PORT] * fy;
    inWind[RAY_ASIDE] = asked[TOWARD_PORT] * fx - asked[TOWARD_ALONG] * fy;
    inWind[CURRENT_AHEAD] = asked[CURRENT_ALONG] * fx + asked[CURRENT_PORT] * fy;
    inWind[CURRENT_ASIDE] = asked[CURRENT_PORT] * fx - asked[CURRENT_ALONG] * fy;
    inWind[WIND] = windMps;
    // Where the hull was last met in about this direction is a good place to begin; where it is met does not depend on it.
    const about = (((asked[TOWARD_ALONG] + 1) * ABOUT) | 0) * HINTS_A_ROW + (((asked[TOWARD_PORT] + 1) * ABOUT) | 0);
    hull.piece = this.hints[about];
    const reach = hull.reachMps();
    this.hints[about] = hull.piece;
    return reach;
  }

  /** A wind without direction blows from dead ahead: only an engine gets her on. */
  private inVariableWind(alongShare: number, portShare: number, currentAlongMps: number, currentPortMps: number): number {
    const { sheet, inVariable: holder } = this;
    const wind = this.wind.values;
    holder.eastMps = currentAlongMps * sheet.alongX - currentPortMps * sheet.alongY;
    holder.northMps = currentAlongMps * sheet.alongY + currentPortMps * sheet.alongX;
    const eastShare = alongShare * sheet.alongX - portShare * sheet.alongY;
    const northShare = alongShare * sheet.alongY + portShare * sheet.alongX;
    return holder.holdIn(eastShare, northShare, wind[0], wind[1], wind[2], wind[3]) === COVERED ? holder.madeGoodMps : 0;
  }
}
