import type { StagingPoint } from "../../core/plan/index.ts";
import { parseDuration, parsePosition, parseSpeed } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { FASTEST_PILOTAGE_MPS, milesBetween, type ReadRoute, SAME_PLACE_NM } from "./read-route.ts";
import type { PassageData } from "./schema.ts";

type StagingCursor = Cursor<NonNullable<PassageData["staging"]>[number]>;

/** Farther than this from where the passage leaves anyhow, or on the way there, it is a passage of its own, or a slip of a degree. Ours. */
export const FARTHEST_STAGING_NM = 150;
/** The longest a way to a staging point takes. Ours. */
const LONGEST_WAY_SECONDS = 72 * 3600;

/** The staging points; issues are put on the cursors' page. */
export function readStaging(staging: Cursor<NonNullable<PassageData["staging"]>>, route: ReadRoute | undefined): readonly StagingPoint[] {
  const seen = new Map<string, string>();
  return staging
    .items()
    .map((one) => readPoint(one, route, seen))
    .filter((one) => one !== undefined);
}

function readPoint(cursor: StagingCursor, route: ReadRoute | undefined, seen: Map<string, string>): StagingPoint | undefined {
  const name = cursor.at("name").text();
  const position = cursor.at("position").read(parsePosition);
  cursor.needsOneOf(["takes", "points"]);
  if (position !== undefined && route !== undefined) {
    const nm = milesBetween(position, route.from.position);
    if (nm > FARTHEST_STAGING_NM) farOff(cursor.at("position"), nm);
    if (milesBetween(position, route.to.position) < SAME_PLACE_NM) {
      cursor.at("position").complain("same-place", "this place is `route.to` itself: nothing is left to cross from it");
    }
  }
  if (name !== undefined) {
    const before = seen.get(name);
    if (before !== undefined) cursor.at("name").complain("name-twice", `\`${before}\` is called “${name.slice(0, 40)}” too`);
    seen.set(name, cursor.path);
  }
  const reached = readReached(cursor, route);
  return name === undefined || position === undefined || reached === undefined ? undefined : { name, position, reached };
}

function readReached(cursor: StagingCursor, route: ReadRoute | undefined): StagingPoint["reached"] | undefined {
  const speed = cursor.at("speed");
  const seconds = cursor.at("takes").read((text, path) => parseDuration(text, path, { min: 0, max: LONGEST_WAY_SECONDS }));
  const speedOverGroundMps = speed.read((text, path) => parseSpeed(text, path, { positive: true, max: FASTEST_PILOTAGE_MPS }));
  if (!cursor.at("points").isGiven) {
    if (speed.isGiven) speed.complain("key-out-of-place", `\`${cursor.path}\` has \`speed\` without the \`points\` that it is made along`);
    return seconds === undefined ? undefined : { kind: "takes", seconds };
  }
  if (!speed.isGiven)
    cursor.complain("missing-key", `\`${cursor.path}\` has \`points\` without a \`speed\` along them`, "Add `speed: 5 kn`.");
  const cursors = cursor.at("points").items();
  const points = cursors.map((one) => ({ one, position: one.read(parsePosition) }));
  for (const { one, position } of points) {
    if (position === undefined || route === undefined) continue;
    const nm = milesBetween(position, route.from.position);
    if (nm > FARTHEST_STAGING_NM) farOff(one, nm);
  }
  const read = points.flatMap(({ position }) => (position === undefined ? [] : [position]));
  if (speedOverGroundMps === undefined || read.length === 0 || read.length < points.length) return undefined;
  return { kind: "along", speedOverGroundMps, points: read };
}

function farOff<T>(cursor: Cursor<T>, nm: number): void {
  cursor.complain(
    "place-far-off",
    `this place lies ${Math.round(nm)} nm from \`route.from\`; staging may lie ${FARTHEST_STAGING_NM} nm off`,
  );
}
