import type { BoatSpec } from "../../core/boat/index.ts";
import type { OpenSector, StatedAnchorage } from "../../core/places/index.ts";
import {
  nearestWord,
  parseBearing,
  parseDuration,
  parseLength,
  parseNumber,
  parsePosition,
  parseSpeed,
  wrap360Deg,
} from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { FARTHEST_ANCHORAGE_NM } from "./read-anchorage.ts";
import { LONGEST_RODE_METRES } from "./read-ground-tackle.ts";
import { UNDER_KEEL_IF_LEFT_OUT_METRES } from "./read-refuges.ts";
import { milesBetween, type ReadRoute } from "./read-route.ts";
import type { PassageData } from "./schema.ts";

type AnchorageCursor = Cursor<NonNullable<PassageData["anchorages"]>[number]>;

/** Beyond these a figure of an anchorage is a slip of the pen. Ours. */
const DEEPEST_METRES = 100;
const HIGHEST_DRYING_METRES = 15;
const HIGHEST_TIDE_METRES = 20;
const HIGHEST_WAVES_METRES = 10;
const FARTHEST_SHORE_METRES = 100_000;
const LARGEST_SCOPE = 20;
const LONGEST_WAY_SECONDS = 24 * 3600;

/** The places to anchor for the night, in SI; `tideNames`: those of `tides`. Issues are put on the cursors' page. */
export function readAnchorages(
  anchorages: Cursor<NonNullable<PassageData["anchorages"]>>,
  route: ReadRoute | undefined,
  boat: BoatSpec,
  tideNames: readonly string[],
): readonly StatedAnchorage[] {
  const seen = new Map<string, string>();
  return anchorages
    .items()
    .map((cursor) => readOne(cursor, route, boat, tideNames, seen))
    .filter((one) => one !== undefined);
}

function readOne(
  cursor: AnchorageCursor,
  route: ReadRoute | undefined,
  boat: BoatSpec,
  tideNames: readonly string[],
  seen: Map<string, string>,
): StatedAnchorage | undefined {
  const name = cursor.at("name").text();
  const position = cursor.at("position").read(parsePosition);
  const night = cursor.at("night").value;
  const metres = (key: "fetch" | "room" | "rodeOut", max: number): number | null =>
    cursor.at(key).read((text, path) => parseLength(text, path, { positive: true, max })) ?? null;
  const never = cursor.at("never");
  const wind = (text: string, path: string) => parseSpeed(text, path, { positive: true });
  const read = {
    depthMetres:
      cursor.at("depth").read((text, path) => parseLength(text, path, { min: -HIGHEST_DRYING_METRES, max: DEEPEST_METRES })) ?? null,
    tide: readTide(cursor, tideNames),
    bottom: noted(cursor.at("bottom")),
    rodeOutMetres: metres("rodeOut", LONGEST_RODE_METRES),
    scope: cursor.at("scope").read((text, path) => parseNumber(text, path, { min: 1, max: LARGEST_SCOPE })) ?? null,
    openTo: readSectors(cursor),
    fetchMetres: metres("fetch", FARTHEST_SHORE_METRES),
    roomMetres: metres("room", FARTHEST_SHORE_METRES),
    toInlet: readWay(cursor, boat),
    underKeelMetres:
      cursor.at("underKeel").read((text, path) => parseLength(text, path, { min: 0, max: DEEPEST_METRES })) ??
      UNDER_KEEL_IF_LEFT_OUT_METRES,
    wavesMetres: cursor.at("waves").read((text, path) => parseLength(text, path, { min: 0, max: HIGHEST_WAVES_METRES })) ?? null,
    neverWindMps: never.at("wind").read(wind) ?? null,
    neverGustMps: never.at("gust").read(wind) ?? null,
    neverSeaMetres: never.at("sea").read((text, path) => parseLength(text, path, { positive: true })) ?? null,
    notes: noted(cursor.at("notes")),
  };
  if (never.isGiven && !never.hasIssueWithin() && Object.keys(never.value ?? {}).length === 0)
    never.complain("empty-value", `nothing stands after \`${never.path}\`: wind, gust or sea`);
  checkDepth(cursor, boat, read.depthMetres);
  checkRode(cursor, boat, read.rodeOutMetres);
  if (position !== undefined && route !== undefined) checkPlace(cursor, position, night, route);
  if (name !== undefined) {
    const before = seen.get(name);
    if (before !== undefined) cursor.at("name").complain("name-twice", `\`${before}\` is called “${name.slice(0, 40)}” too`);
    seen.set(name, cursor.path);
  }
  return name === undefined || position === undefined || night === undefined ? undefined : { name, position, night, ...read };
}

function noted<T extends string>(cursor: Cursor<T>): string | null {
  return cursor.isGiven ? (cursor.text() ?? null) : null;
}

function readTide(cursor: AnchorageCursor, tideNames: readonly string[]): StatedAnchorage["tide"] {
  const [tide, heights] = [cursor.at("tide"), cursor.at("heights")];
  if (tide.isGiven && heights.isGiven)
    cursor.complain("choose-one", `\`${cursor.path}\` needs just one of \`tide\`, \`heights\`; both stand there`);
  const bounds = { min: -HIGHEST_TIDE_METRES, max: HIGHEST_TIDE_METRES };
  const lowestMetres = heights.at("lowest").read((text, path) => parseLength(text, path, bounds));
  const highestMetres = heights.at("highest").read((text, path) => parseLength(text, path, bounds));
  if (lowestMetres !== undefined && highestMetres !== undefined && lowestMetres > highestMetres)
    heights.complain("limit-upside-down", `\`${heights.path}\` has a lowest water above the highest`);
  if (heights.isGiven)
    return lowestMetres === undefined || highestMetres === undefined ? null : { kind: "stated", lowestMetres, highestMetres };
  const name = tide.isGiven ? tide.text() : undefined;
  if (name === undefined) return null;
  if (tideNames.includes(name)) return { kind: "named", name };
  const near = nearestWord(name, tideNames);
  const hint =
    near !== null ? `; did you mean “${near}”?` : tideNames.length === 0 ? "; the passage has none" : `; it has ${tideNames.join(", ")}`;
  tide.complain("name-unknown", `“${name.slice(0, 40)}” is no tide of \`tides\`${hint}`);
  return null;
}

function readSectors(cursor: AnchorageCursor): readonly OpenSector[] {
  return cursor
    .at("openTo")
    .items()
    .flatMap((sector) => {
      const from = sector.at("from").read((text, path) => parseBearing(text, path));
      const until = sector.at("until").read((text, path) => parseBearing(text, path));
      if (from === undefined || until === undefined) return [];
      if (from === until) sector.complain("empty-value", `\`${sector.path}\` begins and ends at one bearing: it is no sector`);
      return [{ fromDegTrue: from, arcDeg: wrap360Deg(until - from) }];
    });
}

/** The way to the inlet as a time, or as a length that is gone at the boat's speed under power. */
function readWay(cursor: AnchorageCursor, boat: BoatSpec): StatedAnchorage["toInlet"] {
  const way = cursor.at("toInlet");
  const typed = way.value;
  if (typeof typed !== "string") return null;
  const isLength = parseLength(typed, way.path).ok;
  if (!isLength) {
    const seconds = way.read((text, path) => parseDuration(text, path, { min: 0, max: LONGEST_WAY_SECONDS }));
    return seconds === undefined ? null : { kind: "seconds", seconds };
  }
  const metres = way.read((text, path) => parseLength(text, path, { min: 0, max: FARTHEST_SHORE_METRES }));
  if (metres !== undefined && boat.power?.speedMps == null)
    way.complain("missing-key", "a length takes no time without the speed under power", "Write the time itself, as `toInlet: 40 min`.");
  return metres === undefined ? null : { kind: "metres", metres };
}

function checkDepth(cursor: AnchorageCursor, boat: BoatSpec, depthMetres: number | null): void {
  for (const key of ["tide", "heights", "underKeel", "waves"] as const) {
    if (cursor.at(key).isGiven && !cursor.at("depth").isGiven)
      cursor.at(key).complain("key-out-of-place", `\`${cursor.path}\` has \`${key}\` without a \`depth\` that it goes with`);
  }
  if (depthMetres !== null && boat.draughtMetres === null)
    cursor
      .at("depth")
      .complain("missing-key", "a depth can't be judged without the boat's draught", "Add `draught` to the boat, or take the depth out.");
}

function checkRode(cursor: AnchorageCursor, { groundTackle }: BoatSpec, rodeOutMetres: number | null): void {
  const [out, scope] = [cursor.at("rodeOut"), cursor.at("scope")];
  if (out.isGiven && scope.isGiven)
    cursor.complain("choose-one", `\`${cursor.path}\` needs at most one of \`rodeOut\`, \`scope\`; both stand there`);
  if (rodeOutMetres === null || groundTackle == null) return;
  const aboard = groundTackle.chainMetres + groundTackle.ropeMetres;
  if (rodeOutMetres > aboard + 1e-9)
    out.complain("boat-contradiction", `\`${out.path}\` is more than there is: \`boat.groundTackle\` makes ${Number(aboard.toFixed(1))} m`);
}

function checkPlace(
  cursor: AnchorageCursor,
  position: StatedAnchorage["position"],
  night: StatedAnchorage["night"] | undefined,
  route: ReadRoute,
): void {
  const [toFrom, toTo] = [milesBetween(position, route.from.position), milesBetween(position, route.to.position)];
  const nm = night === "before" ? toFrom : night === "after" ? toTo : Math.min(toFrom, toTo);
  if (nm <= FARTHEST_ANCHORAGE_NM) return;
  const end = night === "before" ? "begins" : night === "after" ? "ends" : "begins or ends";
  cursor
    .at("position")
    .complain(
      "place-far-off",
      `this place lies ${Math.round(nm)} nm from where open water ${end}; it may lie ${FARTHEST_ANCHORAGE_NM} nm off`,
    );
}
