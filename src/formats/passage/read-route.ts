import { geodesicBetween, type Position } from "../../core/earth/index.ts";
import type { NamedPlace, Passage, PilotageLeg } from "../../core/plan/index.ts";
import { metresFromNm, nmFromMetres, parseBearing, parsePosition, parseSpeed } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import type { PassageData } from "./schema.ts";

type Route = Cursor<PassageData["route"]>;
type Leg = Cursor<NonNullable<PassageData["route"]["pilotageIn"]>>;

/** Nearer than this, the two ends of a crossing are one place. Ours. */
export const SAME_PLACE_NM = 0.1;
/** The longest open-water leg the local plane serves without legs of its own (the design's limit). */
export const LONGEST_ROUTE_NM = 200;
/** Farther than this from its end of the route, a pilotage point or a stream's axis has the wrong hemisphere or degree. Ours. */
export const FARTHEST_PILOTAGE_NM = 50;
export const FARTHEST_STREAM_NM = 300;

export type ReadRoute = Pick<Passage, "from" | "to" | "pilotageOut" | "pilotageIn" | "approachDegTrue">;

export const milesBetween = (a: Position, b: Position): number => nmFromMetres(geodesicBetween(a, b).distanceMetres);
const short = (nm: number): string => `${nm < 10 ? Math.round(nm * 100) / 100 : Math.round(nm)} nm`;

/** The route in SI, undefined where an end can't be read; issues are put on the cursor's page. */
export function readRoute(route: Route): ReadRoute | undefined {
  const from = readPlace(route.at("from"));
  const to = readPlace(route.at("to"));
  const sound = from !== undefined && to !== undefined && isSoundDistance(route, milesBetween(from.position, to.position));
  const pilotageOut = readLeg(route.at("pilotageOut"), sound ? from.position : undefined, "last");
  const pilotageIn = readLeg(route.at("pilotageIn"), sound ? to.position : undefined, "first");
  const approachDegTrue = route.at("approach").read((text, path) => parseBearing(text, path)) ?? null;
  return from === undefined || to === undefined ? undefined : { from, to, pilotageOut, pilotageIn, approachDegTrue };
}

function isSoundDistance(route: Route, distanceNm: number): boolean {
  const position = route.at("to").at("position");
  if (distanceNm < SAME_PLACE_NM) {
    position.complain("same-place", `\`route.to\` lies ${short(distanceNm)} from \`route.from\`: they are one place`);
    return false;
  }
  if (distanceNm > LONGEST_ROUTE_NM) {
    position.complain(
      "route-too-long",
      `\`route.from\` and \`route.to\` lie ${short(distanceNm)} apart; a crossing may be ${LONGEST_ROUTE_NM} nm long`,
    );
    return false;
  }
  return true;
}

function readPlace(place: Cursor<PassageData["route"]["from"]>): NamedPlace | undefined {
  const name = place.at("name").text();
  const position = place.at("position").read(parsePosition);
  return name === undefined || position === undefined ? undefined : { name, position };
}

/** `endIs` says which of the points stands next to the open water; `end` is undefined where that end is in doubt. */
function readLeg(leg: Leg, end: Position | undefined, endIs: "first" | "last"): PilotageLeg | null {
  const speedOverGroundMps = leg.at("speed").read((text, path) => parseSpeed(text, path, { positive: true, max: FASTEST_PILOTAGE_MPS }));
  const cursors = leg.at("points").items();
  const points = cursors.map((point) => point.read(parsePosition));
  points.forEach((point, i) => {
    const cursor = cursors[i];
    if (point === undefined || cursor === undefined) return;
    if (end !== undefined && milesBetween(point, end) > FARTHEST_PILOTAGE_NM) {
      cursor.complain(
        "place-far-off",
        `this point lies ${short(milesBetween(point, end))} from the end of the leg; pilotage goes up to ${FARTHEST_PILOTAGE_NM} nm`,
      );
    }
    const isEnd = i === (endIs === "last" ? points.length - 1 : 0);
    if (isEnd && end !== undefined && samePoint(point, end)) {
      cursor.complain(
        "point-repeated",
        `this point is \`${endIs === "last" ? "from" : "to"}\` itself, where the leg ${endIs === "last" ? "ends" : "begins"} anyhow`,
      );
    }
    const before = points[i - 1];
    if (before !== undefined && samePoint(point, before)) cursor.complain("point-repeated", "this point is the one before it over again");
  });
  const whole = points.filter((point) => point !== undefined);
  if (speedOverGroundMps === undefined || whole.length === 0 || whole.length < points.length) return null;
  return { speedOverGroundMps, points: whole };
}

/** Nobody runs a pilotage leg faster in such a boat; more is a slip of the unit. Ours. */
export const FASTEST_PILOTAGE_MPS = metresFromNm(50) / 3600;

/** Within a metre. */
function samePoint(a: Position, b: Position): boolean {
  return geodesicBetween(a, b).distanceMetres < 1;
}
