import type { BoatModel } from "../../../src/core/boat/index.ts";
import { flatPlane, type Plane } from "../../../src/core/earth/index.ts";
import type { GridData } from "../../../src/core/fields/index.ts";
import {
  type Crossing,
  crossingOf,
  DEFAULT_STEP_SECONDS,
  lineBetween,
  type Way,
  type WayArrives,
} from "../../../src/core/passage/index.ts";
import type { CurrentSource } from "../../../src/core/water/index.ts";

export const NM = 1852;
export const KN = 1852 / 3600;
export const HOUR = 3600;
export const FLAT: Plane = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 300 * NM);

/** A boat under power at one speed in any wind, with a burn. */
export function powerBoat(knots: number, burnLitresPerHour = 3): BoatModel {
  return {
    dependsOnWind: false,
    propelInto(out) {
      out.speedThroughWaterMps = knots * KN;
      out.leewayDeg = 0;
      out.engineOn = true;
      out.burnLitresPerHour = burnLitresPerHour;
    },
  };
}

/** A crossing on a plane between two points, nm from its centre. */
export function crossing(
  current: CurrentSource,
  fromNm: readonly [number, number],
  toNm: readonly [number, number],
  boat: BoatModel = powerBoat(5),
  plane: Plane = FLAT,
  stepSeconds: number = DEFAULT_STEP_SECONDS,
): Crossing {
  const line = lineBetween(plane, fromNm[0] * NM, fromNm[1] * NM, toNm[0] * NM, toNm[1] * NM);
  const around = { plane, current: current.onPlane(plane), currentCovers: current.covers, wind: null, windCovers: null };
  return crossingOf(line, around, boat, stepSeconds);
}

/**
 * A grid of current around 0°, 0°: `spanDeg` to the north and south, from `westDeg` to `eastDeg`, nodes every tenth of a degree and every
 * hour from 0; `flowKn` gives east and north in knots at minutes east and north of the centre and hours, null where missing.
 */
export function currentGrid(
  area: { readonly westDeg: number; readonly eastDeg: number; readonly spanDeg: number; readonly hours: number },
  flowKn: (eastMin: number, northMin: number, hour: number) => readonly [number, number] | null,
): GridData {
  const nodes = (from: number, until: number): Float64Array =>
    Float64Array.from({ length: Math.round((until - from) * 10) + 1 }, (_, i) => from + i / 10);
  const latitudesDeg = nodes(-area.spanDeg, area.spanDeg);
  const longitudesDeg = nodes(area.westDeg, area.eastDeg);
  const times = Float64Array.from({ length: area.hours + 1 }, (_, t) => t * HOUR);
  const count = times.length * latitudesDeg.length * longitudesDeg.length;
  const values = new Float32Array(2 * count);
  const missing = new Uint8Array(count);
  let node = 0;
  for (let t = 0; t < times.length; t++) {
    for (const latitude of latitudesDeg) {
      for (const longitude of longitudesDeg) {
        const flow = flowKn(longitude * 60, latitude * 60, t);
        if (flow === null) missing[node] = 1;
        else {
          values[2 * node] = flow[0] * KN;
          values[2 * node + 1] = flow[1] * KN;
        }
        node++;
      }
    }
  }
  return {
    quantities: ["currentEastMps", "currentNorthMps"],
    mesh: { kind: "latLon", latitudesDeg, longitudesDeg },
    times,
    values,
    missing,
    nature: "instant",
    source: "made for this test",
    issuedAt: 0,
    member: 0,
  };
}

export function arriving(way: Way): WayArrives {
  if (way.kind === "fails") throw new Error(`${way.name} fails: ${way.why.code}`);
  return way;
}

export function whyOf(way: Way) {
  if (way.kind === "arrives") throw new Error(`${way.name} arrives`);
  return way.why;
}

export function headingOf(way: WayArrives): number {
  const steer = way.orders[0]?.steer;
  if (steer?.kind !== "heading") throw new Error(`${way.name} has no heading`);
  return steer.headingDegTrue;
}
