import type { Angle } from "./angle-unit.ts";

/** An axis from its least end. */
export interface DegreeAxis {
  readonly start: number;
  readonly step: number;
}

/** One unit of the usual angle: what rounding may leave over. */
const ROUNDING_DEG = 1e-6;

/** The axis from its ends; the step given is held against them to half a step. A string says what can't be true. */
export function latitudeAxis(
  firstDeg: number,
  lastDeg: number,
  count: number,
  stepDeg: number | null,
  northward: boolean,
): DegreeAxis | string {
  const reach = Math.max(Math.abs(firstDeg), Math.abs(lastDeg));
  if (reach > 90 + ROUNDING_DEG) return `The grid reaches latitude ${reach}.`;
  const [south, north] = northward ? [firstDeg, lastDeg] : [lastDeg, firstDeg];
  if (count === 1) return { start: firstDeg, step: 0 };
  if (!(north > south)) return `The grid runs from latitude ${firstDeg} to ${lastDeg}, against its own scanning mode.`;
  const span = north - south;
  if (stepDeg !== null && Math.abs((count - 1) * stepDeg - span) > stepDeg / 2) {
    return `${count} rows ${stepDeg} degrees apart don't reach from latitude ${south} to ${north}.`;
  }
  return { start: south, step: span / (count - 1) };
}

/** As for latitudes; ends are in the grid's own units, so that turning them by 360 degrees is exact. */
export function longitudeAxis(west: number, east: number, angle: Angle, count: number, stepDeg: number | null): DegreeAxis | string {
  const reachDeg = angle.deg(Math.max(Math.abs(west), Math.abs(east)));
  if (reachDeg > 360 + ROUNDING_DEG) return `The grid reaches longitude ${reachDeg}.`;
  const start = angle.deg(positiveRemainder(west + angle.turn / 2, angle.turn) - angle.turn / 2);
  if (count === 1) return { start, step: 0 };
  const apart = angle.deg(positiveRemainder(east - west, angle.turn));
  // A whole turn, the first column repeated at the end, leaves nothing over.
  const spanDeg = apart < ROUNDING_DEG ? 360 : apart;
  if (stepDeg !== null && Math.abs((count - 1) * stepDeg - spanDeg) > stepDeg / 2) {
    return `${count} columns ${stepDeg} degrees apart don't reach from longitude ${angle.deg(west)} to ${angle.deg(east)}.`;
  }
  return { start, step: spanDeg / (count - 1) };
}

function positiveRemainder(value: number, divisor: number): number {
  const rest = value % divisor;
  return rest < 0 ? rest + divisor : rest;
}
