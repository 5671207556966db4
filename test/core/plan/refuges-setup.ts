import { geodesicFrom } from "../../../src/core/earth/index.ts";
import type { Entrance, Passage, Refuge } from "../../../src/core/plan/index.ts";
import { passage } from "./setup.ts";

export const NM = 1852;
/** By night too, in any weather, of no stated depth. */
export const ANY: Entrance = {
  sunAboveDeg: null,
  neverWindMps: null,
  neverGustMps: null,
  neverSeaMetres: null,
  chartedDepthMetres: null,
  underKeelMetres: 1,
};

/** A refuge so many miles toward a bearing from where the passage of `setup.ts` begins. */
export function refuge(
  name: string,
  bearingDegTrue: number,
  distanceNm: number,
  changes: Partial<Entrance> = {},
  rest: Partial<Refuge> = {},
): Refuge {
  const { position } = geodesicFrom(passage().from.position, bearingDegTrue, distanceNm * NM);
  return { name, position, zone: null, entrance: { ...ANY, ...changes }, pilotageSeconds: 1200, notes: null, ...rest };
}

/** The refuges of a passage, its ends left out unless told. */
export function withRefuges(listed: readonly Refuge[], changes: Partial<Passage> = {}, ends = false): Partial<Passage> {
  return { refuges: { listed, fromCounts: ends, toCounts: ends }, ...changes };
}
