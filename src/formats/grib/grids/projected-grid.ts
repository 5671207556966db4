import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import { faultOfProjection, type MapProjection, type Projector, projectorOf } from "../../projection/index.ts";
import type { GribScan, ProjectedGrid } from "../grib-field.ts";
import { latitudeAxis, longitudeAxis } from "./degree-axes.ts";

/** A place as a grid's section gives it; for a turned pole its turned latitude and longitude. */
export interface GridPlace {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** A projected grid as the sections of either edition give it. */
export interface ProjectedGridHead {
  /** That of edition 2. */
  readonly template: number;
  readonly projection: MapProjection;
  /** Of the first point in the message. */
  readonly firstLatitudeDeg: number;
  readonly firstLongitudeDeg: number;
  /** The last point in the message; null where the grid doesn't give it (Lambert, polar stereographic). */
  readonly last: GridPlace | null;
  /** Metres on the map, or degrees for a turned pole; positive. Null where left out: then it comes from the last point. */
  readonly stepX: number | null;
  readonly stepY: number | null;
  readonly componentsAlongGrid: boolean;
  readonly scan: GribScan;
}

/** The grid, said from its least x and y, or what in it can't be true. `path` says where it stands, for issues. */
export async function projectedGridFrom(head: ProjectedGridHead, path: string): Promise<Parsed<ProjectedGrid>> {
  const { template, projection, componentsAlongGrid, scan } = head;
  const lie = (message: string): Parsed<never> => bad(issue(path, "file-lies", message));
  if (scan.ni < 1 || scan.nj < 1) return lie(`The grid has ${scan.ni} by ${scan.nj} points.`);
  const fault = faultOfProjection(projection);
  if (fault !== null) return lie(fault);
  const axes = projection.kind === "rotatedPole" ? turnedAxes(head) : mapAxes(head, await projectorOf(projection));
  if (typeof axes === "string") return lie(axes);
  return good({
    kind: "projected",
    template,
    projection,
    rows: scan.nj,
    columns: scan.ni,
    leastX: axes.x.start,
    leastY: axes.y.start,
    stepX: axes.x.step,
    stepY: axes.y.step,
    componentsAlongGrid,
    scan,
  });
}

/**
 * How far off a map's last point may be told, as a share of the whole reach: an ocean grid of the United States' weather service with
 * 1793 rows ends 1.1 steps short of the point it names. Steps are what places are reckoned from, as common practice has it.
 */
const LAST_POINT_SLACK = 1e-3;

interface Axis {
  readonly start: number;
  readonly step: number;
}

interface Axes {
  readonly x: Axis;
  readonly y: Axis;
}

const DEGREES = { deg: (units: number): number => units, turn: 360 };

/** Degrees on the turned sphere: from both ends, as on a plain grid of latitude and longitude. */
function turnedAxes({ firstLatitudeDeg, firstLongitudeDeg, last, stepX, stepY, scan }: ProjectedGridHead): Axes | string {
  if (last === null) return "The grid doesn't say where it ends.";
  const y = latitudeAxis(firstLatitudeDeg, last.latitudeDeg, scan.nj, stepY, scan.jPositive);
  if (typeof y === "string") return y;
  const [west, east] = scan.iNegative ? [last.longitudeDeg, firstLongitudeDeg] : [firstLongitudeDeg, last.longitudeDeg];
  const x = longitudeAxis(west, east, DEGREES, scan.ni, stepX);
  return typeof x === "string" ? x : { x, y };
}

/** Metres on the map: from the first point by steps, which are exact where places are rounded; held against the last point if there is one. */
function mapAxes(head: ProjectedGridHead, projector: Projector): Axes | string {
  const { firstLatitudeDeg, firstLongitudeDeg, last, scan } = head;
  const first = mapped(projector, firstLatitudeDeg, firstLongitudeDeg);
  if (typeof first === "string") return first;
  const end = last === null ? null : mapped(projector, last.latitudeDeg, last.longitudeDeg);
  if (typeof end === "string") return end;
  const y = mapAxis(first[1]!, end === null ? null : end[1]!, scan.nj, head.stepY, scan.jPositive, null);
  if (typeof y === "string") return y;
  const x = mapAxis(first[0]!, end === null ? null : end[0]!, scan.ni, head.stepX, !scan.iNegative, projector.turnX);
  return typeof x === "string" ? x : { x, y };
}

function mapped(projector: Projector, latitudeDeg: number, longitudeDeg: number): Float64Array | string {
  const at = new Float64Array(2);
  if (Math.abs(longitudeDeg) <= 360 && projector.toMapInto(at, latitudeDeg, longitudeDeg)) return at;
  return `The grid reaches latitude ${latitudeDeg}, longitude ${longitudeDeg}, which its map can't show.`;
}

/** An axis that runs from `first`, up or down; `turn` is how far round the earth is, where it comes round. */
function mapAxis(first: number, last: number | null, count: number, step: number | null, up: boolean, turn: number | null): Axis | string {
  if (count === 1) return { start: first, step: 0 };
  const span = last === null ? null : spanOf(up ? last - first : first - last, turn, step ?? 0);
  if (span !== null && !(span > 0)) return "The grid's last point lies against its own scanning mode.";
  if (step === null && span === null) return "The grid says neither how far its points are apart nor where it ends.";
  const apart = step ?? span! / (count - 1);
  if (!(apart > 0) || !Number.isFinite(apart)) return `The grid's points are ${apart} metres apart.`;
  const reach = (count - 1) * apart;
  if (span !== null && Math.abs(reach - span) > Math.max(apart / 2, span * LAST_POINT_SLACK)) {
    return `${count} points ${apart} metres apart don't reach from the grid's first to its last.`;
  }
  if (turn !== null && reach > turn + apart / 2) return `${count} points ${apart} metres apart reach more than once round the earth.`;
  return { start: up ? first : first - reach, step: apart };
}

/** How far it is from first to last, the way the points run: on a map that comes round, up to a whole turn (and half a step). */
function spanOf(difference: number, turn: number | null, step: number): number {
  if (turn === null) return difference;
  const span = difference - turn * Math.floor(difference / turn);
  // A whole turn, the first column repeated at the end, leaves nothing over but rounding.
  return span < Math.max(step / 2, 1) ? span + turn : span;
}
