import { parseZone } from "../../core/calendar/index.ts";
import { DAYLIGHT_ALTITUDE_DEG, type Refuge, type StatedRefuges } from "../../core/plan/index.ts";
import { parseDuration, parseLength, parsePosition, parseSpeed } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { parseYesNo } from "./quantities.ts";
import { milesBetween, type ReadRoute } from "./read-route.ts";
import type { PassageData } from "./schema.ts";

type RefugeCursor = Cursor<NonNullable<PassageData["refuges"]>[number]>;

/** Farther than this from both ends of the route nobody runs for shelter: the wrong hemisphere or degree. Ours. */
export const FARTHEST_REFUGE_NM = 150;
/** The least under the keel where an entrance has a depth and no figure of its own (common practice). */
export const UNDER_KEEL_IF_LEFT_OUT_METRES = 1;
const LONGEST_PILOTAGE_SECONDS = 12 * 3600;
const DEEPEST_ENTRANCE_METRES = 200;
const HIGHEST_DRYING_METRES = -15;

/** The places to run to, in SI; issues are put on the cursors' page. */
export function readRefuges(document: Cursor<PassageData>, route: ReadRoute | undefined): StatedRefuges {
  // Without a draught a depth can't be judged; one that can't be read is its own issue.
  const hasDraught = document.at("boat").at("draught").isGiven;
  const counts = (end: "from" | "to"): boolean => document.at("route").at(end).at("refuge").read(parseYesNo) ?? true;
  const cursors = document.at("refuges").items();
  const seen = new Map<string, string>();
  const listed = cursors.map((cursor) => readRefuge(cursor, route, hasDraught, seen)).filter((one) => one !== undefined);
  return { listed, fromCounts: counts("from"), toCounts: counts("to") };
}

function readRefuge(
  cursor: RefugeCursor,
  route: ReadRoute | undefined,
  hasDraught: boolean,
  seen: Map<string, string>,
): Refuge | undefined {
  const name = cursor.at("name").text();
  const position = cursor.at("position").read(parsePosition);
  const enter = cursor.at("enter").value;
  const zone = cursor.at("zone").read(parseZone) ?? null;
  const never = cursor.at("never");
  const wind = (text: string, path: string) => parseSpeed(text, path, { positive: true });
  const entrance = {
    sunAboveDeg: enter === "daylight" ? DAYLIGHT_ALTITUDE_DEG : null,
    neverWindMps: never.at("wind").read(wind) ?? null,
    neverGustMps: never.at("gust").read(wind) ?? null,
    neverSeaMetres: never.at("sea").read((text, path) => parseLength(text, path, { positive: true })) ?? null,
    chartedDepthMetres: cursor.at("depth").read(depth) ?? null,
    underKeelMetres: cursor.at("underKeel").read(underKeel) ?? UNDER_KEEL_IF_LEFT_OUT_METRES,
  };
  if (never.isGiven && !never.hasIssueWithin() && Object.keys(never.value ?? {}).length === 0) {
    never.complain("empty-value", `nothing stands after \`${never.path}\`: wind, gust or sea`);
  }
  if (cursor.at("underKeel").isGiven && !cursor.at("depth").isGiven) {
    cursor
      .at("underKeel")
      .complain("key-out-of-place", `\`${cursor.path}\` has \`underKeel\` without a \`depth\` that it could be held against`);
  }
  if (entrance.chartedDepthMetres !== null && !hasDraught) {
    cursor
      .at("depth")
      .complain("missing-key", "a depth can't be judged without the boat's draught", "Add `draught` to the boat, or take the depth out.");
  }
  if (position !== undefined && route !== undefined) {
    const nm = Math.min(milesBetween(position, route.from.position), milesBetween(position, route.to.position));
    if (nm > FARTHEST_REFUGE_NM) {
      cursor
        .at("position")
        .complain(
          "place-far-off",
          `this place lies ${Math.round(nm)} nm from the nearer end of the route; a refuge may lie ${FARTHEST_REFUGE_NM} nm off`,
        );
    }
  }
  const pilotageSeconds = cursor.at("pilotage").read((text, path) => parseDuration(text, path, { min: 0, max: LONGEST_PILOTAGE_SECONDS }));
  const notes = cursor.at("notes").isGiven ? (cursor.at("notes").text() ?? null) : null;
  if (name === undefined || position === undefined) return undefined;
  const before = seen.get(name);
  if (before !== undefined) cursor.at("name").complain("name-twice", `\`${before}\` is called “${name.slice(0, 40)}” too`);
  seen.set(name, cursor.path);
  return { name, position, zone, entrance, pilotageSeconds: pilotageSeconds ?? null, notes };
}

const depth = (text: string, path: string) => parseLength(text, path, { min: HIGHEST_DRYING_METRES, max: DEEPEST_ENTRANCE_METRES });
const underKeel = (text: string, path: string) => parseLength(text, path, { min: 0, max: DEEPEST_ENTRANCE_METRES });
