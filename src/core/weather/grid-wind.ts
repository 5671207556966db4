import type { Plane } from "../earth/index.ts";
import { Axis, type AxisPlace, COVERED, type Coverage, coveringOf, type GridData, NO_PLACE, NO_TIME, PlaneGrid } from "../fields/index.ts";
import { degFromRad, turnDeg, wrap360Deg } from "../units/index.ts";
import {
  SHARPEST_STEADY_TURN_DEG,
  WIND_ARC_DEG,
  WIND_END_STRIDE,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_GUST_ASSUMED,
  WIND_GUST_MPS,
  WIND_SOURCE,
  WIND_SPEED_HIGH_MPS,
  WIND_SPEED_LOW_MPS,
  type WindSampler,
  type WindSource,
} from "./wind.ts";

/** One member's grids: `windEastMps, windNorthMps`, and the gusts where the file has them. */
export interface WindGrids {
  readonly wind: GridData;
  readonly gust: GridData | null;
}

/**
 * Wind on a grid. In space by components; in time speed and direction apart, direction by the shorter turn: a vector through a shift
 * would read calm where it blows hardest. Where the direction turns by more than `SHARPEST_STEADY_TURN_DEG` in one step both ends of
 * the step stand as ends of the reading for the whole of it; at a step itself that step alone holds.
 */
class GridWind implements WindSampler {
  private readonly grid: PlaneGrid;
  private readonly times: Axis;
  private readonly gust: GridGust | null;
  private readonly gustFactor: number;
  private readonly place: AxisPlace = { index: 0, fraction: 0 };
  private readonly levels = new Float64Array(4);

  constructor(grids: WindGrids, plane: Plane, gustFactor: number) {
    this.grid = new PlaneGrid(grids.wind, plane, "trueNorth");
    this.times = new Axis(grids.wind.times);
    this.gust = grids.gust === null ? null : new GridGust(grids.gust, plane);
    this.gustFactor = gustFactor;
  }

  readInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    if (!this.times.locate(this.place, at)) return NO_TIME;
    if (!this.grid.moveTo(xMetres, yMetres)) return NO_PLACE;
    const { index, fraction } = this.place;
    const levels = this.levels;
    const earlier = fraction === 1 ? index + 1 : index;
    const later = fraction === 0 ? index : index + 1;
    if (!this.grid.readLevelInto(levels, 0, earlier)) return NO_PLACE;
    const speed0 = Math.sqrt((levels[0] as number) ** 2 + (levels[1] as number) ** 2);
    const from0 = fromDegOf(levels[0] as number, levels[1] as number);
    let speed1 = speed0;
    let from1 = from0;
    if (later !== earlier) {
      if (!this.grid.readLevelInto(levels, 2, later)) return NO_PLACE;
      speed1 = Math.sqrt((levels[2] as number) ** 2 + (levels[3] as number) ** 2);
      from1 = fromDegOf(levels[2] as number, levels[3] as number);
    }
    // A calm end has no direction of its own: it takes the other's.
    const start = speed0 === 0 ? from1 : from0;
    const turn = speed0 === 0 || speed1 === 0 ? 0 : turnDeg(from0, from1);
    if (Math.abs(turn) > SHARPEST_STEADY_TURN_DEG) {
      out[WIND_ENDS] = 2;
      writeEnd(out, 0, speed0, from0);
      writeEnd(out, WIND_END_STRIDE, speed1, from1);
    } else {
      out[WIND_ENDS] = 1;
      writeEnd(out, 0, speed0 + fraction * (speed1 - speed0), start + fraction * turn);
    }
    const strongest = out[WIND_ENDS] === 2 ? Math.max(speed0, speed1) : (out[WIND_SPEED_HIGH_MPS] as number);
    const gustMps = this.gust === null ? -1 : this.gust.read(xMetres, yMetres, at);
    out[WIND_GUST_ASSUMED] = gustMps < 0 ? 1 : 0;
    // A gust is never less than the wind it is a gust of.
    out[WIND_GUST_MPS] = gustMps < 0 ? strongest * this.gustFactor : Math.max(gustMps, strongest);
    out[WIND_SOURCE] = 0;
    return COVERED;
  }

  breaksWithin(from: number, until: number): readonly number[] {
    const steps = new Set([...this.times.nodes, ...(this.gust?.steps ?? [])]);
    return [...steps].filter((at) => at > from && at < until).sort((a, b) => a - b);
  }
}

/**
 * A gust is the greatest over a period: between two steps the greater of both ends holds, or the step's own greatest where the source
 * says that it is one. At a step itself its own value holds.
 */
class GridGust {
  readonly steps: Float64Array;
  private readonly grid: PlaneGrid;
  private readonly times: Axis;
  private readonly place: AxisPlace = { index: 0, fraction: 0 };
  private readonly levels = new Float64Array(2);

  constructor(data: GridData, plane: Plane) {
    this.grid = new PlaneGrid(data, plane, "trueNorth");
    this.times = new Axis(data.times);
    this.steps = this.times.nodes;
  }

  /** m/s; -1 where the gust is not covered. */
  read(xMetres: number, yMetres: number, at: number): number {
    if (!this.times.locate(this.place, at) || !this.grid.moveTo(xMetres, yMetres)) return -1;
    const { index, fraction } = this.place;
    const later = fraction === 0 ? index : index + 1;
    const earlier = fraction === 1 || this.grid.data.nature === "maximumSincePrevious" ? later : index;
    if (!this.grid.readLevelInto(this.levels, 0, earlier) || !this.grid.readLevelInto(this.levels, 1, later)) return -1;
    return Math.max(this.levels[0] as number, this.levels[1] as number);
  }
}

function fromDegOf(eastMps: number, northMps: number): number {
  return wrap360Deg(degFromRad(Math.atan2(-eastMps, -northMps)));
}

function writeEnd(out: Float64Array, offset: number, speedMps: number, fromDeg: number): void {
  out[offset + WIND_SPEED_LOW_MPS] = speedMps;
  out[offset + WIND_SPEED_HIGH_MPS] = speedMps;
  // A hair below 0 is wrapped to 360 itself, which is north again.
  out[offset + WIND_FROM_DEG] = speedMps === 0 ? 0 : wrap360Deg(fromDeg) % 360;
  out[offset + WIND_ARC_DEG] = speedMps === 0 ? 360 : 0;
}

/** Wind from grids, one entry a member, member 0 first. `gustFactor` serves where a member has no gusts. */
export function gridWind(members: readonly WindGrids[], gustFactor: number): WindSource {
  const first = members[0];
  if (first === undefined) throw new Error("a wind source needs at least one member");
  const covering = coveringOf(first.wind);
  return {
    name: first.wind.source,
    issuedAt: first.wind.issuedAt,
    covers: { from: covering.from, until: covering.until },
    memberCount: members.length,
    onPlane: (plane, member) => new GridWind(members[member] ?? first, plane, gustFactor),
  };
}
