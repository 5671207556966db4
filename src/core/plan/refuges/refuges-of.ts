import { geodesicBetween, type Position } from "../../earth/index.ts";
import type { Felt } from "../../window/index.ts";
import type { Passage, PilotageLeg } from "../passage.ts";
import type { Entrance, Refuge } from "../refuge.ts";

/** A place to run to, and whether it is listed as one or is an end of the crossing. */
export interface RefugeToTry extends Refuge {
  readonly role: "listed" | "from" | "to";
}

/** All places to run to, in the order in which answers name them: back, on, then those listed. Names may stand twice. */
export function refugesOf(passage: Passage): readonly RefugeToTry[] {
  const { from, to, pilotageOut, pilotageIn, shipZone, arrivalZone } = passage;
  const stated = passage.refuges ?? { listed: [], fromCounts: true, toCounts: true };
  const entrance = entranceByLimits(passage);
  const end = (role: "from" | "to", place: typeof from, zone: string, leg: PilotageLeg | null): RefugeToTry => ({
    ...place,
    role,
    zone,
    entrance,
    pilotageSeconds: leg === null ? 0 : legSeconds(role === "from" ? [...leg.points, from.position] : [to.position, ...leg.points], leg),
    notes: null,
  });
  return [
    ...(stated.fromCounts ? [end("from", from, shipZone, pilotageOut)] : []),
    ...(stated.toCounts ? [end("to", to, arrivalZone, pilotageIn)] : []),
    ...stated.listed.map((refuge): RefugeToTry => ({ ...refuge, role: "listed" })),
  ];
}

/** Where the crossing begins and ends one goes in by the passage's own limits: their *never*, on what is felt at the entrance. */
function entranceByLimits({ limits }: Passage): Entrance {
  const never = (felt: Felt): number | null => limits.find((limit) => limit.felt === felt)?.never ?? null;
  return {
    sunAboveDeg: never("sunAltitudeDeg"),
    neverWindMps: never("windMps"),
    neverGustMps: never("gustMps"),
    neverSeaMetres: never("seaHeightMetres"),
    chartedDepthMetres: null,
    underKeelMetres: 0,
  };
}

function legSeconds(points: readonly Position[], { speedOverGroundMps }: PilotageLeg): number {
  let metres = 0;
  for (let i = 1; i < points.length; i++) metres += geodesicBetween(points[i - 1] as Position, points[i] as Position).distanceMetres;
  return metres / speedOverGroundMps;
}
