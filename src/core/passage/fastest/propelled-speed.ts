import type { BoatModel, Propulsion } from "../../boat/index.ts";
import { COVERED } from "../../fields/index.ts";
import type { Surroundings } from "../helm.ts";
import { CourseHolder, OF_WIND } from "./course-holder.ts";
import { FreeTacker } from "./sail/free-tacker.ts";
import { goesUnderSail } from "./sail/free-tacking.ts";
import { SailedSpeed } from "./sail/sailed-speed.ts";
import { ConstantSpeed, type SpeedOver } from "./speed-over.ts";
import type { TurnedSheet } from "./turned-sheet.ts";
import { WindGrid } from "./wind-grid.ts";

/** Winds and angles at which a boat is asked for her greatest speed, m/s and degrees off the bow. */
const WINDS_MPS = [0, 2.5, 5, 7.5, 10, 12.5, 15, 20];
const ANGLE_STEP_DEG = 10;

/** The speed over the ground of any boat that keeps a heading for a course: what she makes is asked of her model, in the copied wind. */
class PropelledSpeed implements SpeedOver {
  readonly constantMps = null;
  readonly fastestMps: number;
  lacking: number = COVERED;
  private readonly holder: CourseHolder;
  private readonly wind: WindGrid;
  private readonly sheet: TurnedSheet;

  constructor(around: Surroundings, boat: BoatModel, wind: WindGrid, sheet: TurnedSheet) {
    this.holder = new CourseHolder(around, boat);
    this.wind = wind;
    this.sheet = sheet;
    this.fastestMps = greatestSpeedMps(boat);
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
    const coverage = this.wind.readAt(along, port, at);
    this.lacking = coverage === COVERED ? COVERED : OF_WIND + coverage;
    if (coverage !== COVERED) return 0;
    const { holder, sheet } = this;
    const wind = this.wind.values;
    holder.eastMps = currentAlongMps * sheet.alongX - currentPortMps * sheet.alongY;
    holder.northMps = currentAlongMps * sheet.alongY + currentPortMps * sheet.alongX;
    const eastShare = alongShare * sheet.alongX - portShare * sheet.alongY;
    const northShare = alongShare * sheet.alongY + portShare * sheet.alongX;
    holder.lookAtSeas(sheet.xOf(along, port), sheet.yOf(along, port), at, wind[0] as number, wind[1] as number);
    const held = holder.holdIn(eastShare, northShare, wind[0] as number, wind[1] as number, wind[2] as number, wind[3] as number);
    return held === COVERED ? holder.madeGoodMps : 0;
  }
}

function greatestSpeedMps(boat: BoatModel): number {
  const p: Propulsion = { speedThroughWaterMps: 0, leewayDeg: 0, engineOn: true, burnLitresPerHour: 0 };
  let greatest = 0;
  for (const windMps of WINDS_MPS) {
    for (let angle = 0; angle <= 180; angle += ANGLE_STEP_DEG) {
      boat.propelInto(p, 0, windMps, angle, true);
      greatest = Math.max(greatest, p.speedThroughWaterMps);
    }
  }
  return greatest;
}

/** The one speed of a boat that goes the same on every heading, without leeway; null for any other. */
function steadySpeedMps(boat: BoatModel): number | null {
  if (boat.dependsOnWind) return null;
  const p: Propulsion = { speedThroughWaterMps: 0, leewayDeg: 0, engineOn: true, burnLitresPerHour: 0 };
  boat.propelInto(p, 0, 0, 0, true);
  return p.leewayDeg === 0 ? p.speedThroughWaterMps : null;
}

/** The door to a boat for the search. Throws when the boat goes by the wind and there is none. */
export function speedOverOf(around: Surroundings, boat: BoatModel, sheet: TurnedSheet, lengthMetres: number): SpeedOver {
  const steady = steadySpeedMps(boat);
  if (steady !== null) return new ConstantSpeed(steady);
  if (around.wind === null) throw new Error("this boat needs a wind to be run");
  const wind = new WindGrid(around, around.wind, sheet, lengthMetres);
  if (!goesUnderSail(boat)) return new PropelledSpeed(around, boat, wind, sheet);
  return new SailedSpeed(new FreeTacker(around, boat), greatestSpeedMps(boat), wind, sheet);
}
