import type { BoatModel } from "../../../src/core/boat/index.ts";
import type { Plane } from "../../../src/core/earth/index.ts";
import { type Crossing, crossingOf, DEFAULT_STEP_SECONDS, lineBetween, type WayArrives } from "../../../src/core/passage/index.ts";
import { type Lane, type LanesOnPlane, lanesOn } from "../../../src/core/places/index.ts";
import type { CurrentSource } from "../../../src/core/water/index.ts";
import { FLAT, NM, powerBoat } from "./waters.ts";

/** A lane over a rectangle on the flat plane, nm from its centre. */
export function boxLane(
  name: string,
  flowDegTrue: number | null,
  eastNm: readonly [number, number],
  northNm: readonly [number, number] = [-100, 100],
): Lane {
  const corner = (east: number, north: number) => FLAT.toPosition(east * NM, north * NM);
  return {
    name,
    flowDegTrue,
    ring: [corner(eastNm[0], northNm[0]), corner(eastNm[1], northNm[0]), corner(eastNm[1], northNm[1]), corner(eastNm[0], northNm[1])],
  };
}

/** A crossing on the flat plane with lanes on it. */
export function lanedCrossing(
  current: CurrentSource,
  toNm: readonly [number, number],
  lanes: readonly Lane[],
  boat: BoatModel = powerBoat(5),
  stepSeconds: number = DEFAULT_STEP_SECONDS,
  plane: Plane = FLAT,
): Crossing {
  const laid: LanesOnPlane | null = lanes.length === 0 ? null : lanesOn(plane, lanes);
  const around = { plane, current: current.onPlane(plane), currentCovers: current.covers, wind: null, windCovers: null, lanes: laid };
  return crossingOf(lineBetween(plane, 0, 0, toNm[0] * NM, toNm[1] * NM), around, boat, stepSeconds);
}

/** The headings of an order, degrees true, in order. */
export function headingsOf(way: WayArrives): readonly number[] {
  return way.orders.map(({ steer }) => {
    if (steer.kind !== "heading") throw new Error(`${way.name} is no order of headings`);
    return steer.headingDegTrue;
  });
}
