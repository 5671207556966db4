import type { Position } from "../../core/earth/index.ts";
import type { Lane } from "../../core/places/index.ts";
import { parseBearing, parsePosition } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { milesBetween, type ReadRoute } from "./read-route.ts";
import { ringFault } from "./ring-fault.ts";
import type { PassageData } from "./schema.ts";

type LaneCursor = Cursor<NonNullable<PassageData["lanes"]>[number]>;

/** A corner farther than this from both ends of the route has the wrong hemisphere or degree: no scheme is so long. Ours. */
export const FARTHEST_LANE_NM = 200;

/** The traffic lanes; issues are put on the cursors' page. */
export function readLanes(lanes: Cursor<NonNullable<PassageData["lanes"]>>, route: ReadRoute | undefined): readonly Lane[] {
  const seen = new Map<string, string>();
  return lanes
    .items()
    .map((lane) => readLane(lane, route, seen))
    .filter((lane) => lane !== undefined);
}

function readLane(lane: LaneCursor, route: ReadRoute | undefined, seen: Map<string, string>): Lane | undefined {
  const name = lane.at("name").text();
  const flowDegTrue = lane.at("flow").read((text, path) => parseBearing(text, path)) ?? null;
  const corners = lane
    .at("area")
    .items()
    .map((corner) => ({ corner, position: corner.read(parsePosition) }));
  for (const { corner, position } of corners) {
    if (position === undefined || route === undefined) continue;
    const nm = Math.min(milesBetween(position, route.from.position), milesBetween(position, route.to.position));
    if (nm > FARTHEST_LANE_NM) {
      corner.complain(
        "place-far-off",
        `this corner lies ${Math.round(nm)} nm from the nearer end of the route; a lane's may lie ${FARTHEST_LANE_NM} nm off`,
      );
    }
  }
  if (name !== undefined) {
    const before = seen.get(name);
    if (before !== undefined) lane.at("name").complain("name-twice", `\`${before}\` is called “${name.slice(0, 40)}” too`);
    seen.set(name, lane.path);
  }
  const read = corners.flatMap(({ position }) => (position === undefined ? [] : [position]));
  if (read.length === 0 || read.length < corners.length) return undefined;
  const ring = withoutClosing(read);
  const fault = ringFault(ring);
  if (fault !== null) lane.at("area").complain("area-not-sound", `\`${lane.at("area").path}\` is no area: ${fault}`);
  return name === undefined || fault !== null ? undefined : { name, ring, flowDegTrue };
}

/** Without the first corner given over again at the end, as many lists of corners have it. */
function withoutClosing(corners: readonly Position[]): readonly Position[] {
  const first = corners[0];
  const last = corners[corners.length - 1];
  return corners.length > 3 && first?.latitudeDeg === last?.latitudeDeg && first?.longitudeDeg === last?.longitudeDeg
    ? corners.slice(0, -1)
    : corners;
}
