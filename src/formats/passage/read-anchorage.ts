import type { OpenSector } from "../../core/places/index.ts";
import type { Anchorage } from "../../core/plan/index.ts";
import { parseBearing, parseLength, parsePosition, parseSpeed, wrap360Deg } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { milesBetween, type ReadRoute } from "./read-route.ts";
import type { PassageData } from "./schema.ts";

type AnchorageCursor = Cursor<NonNullable<PassageData["anchorage"]>>;

/** Farther than this from where open water ends it is not where this passage arrives. Ours. */
export const FARTHEST_ANCHORAGE_NM = 50;

/** Where the boat lies after arrival, in SI; null where none is stated. Issues are put on the cursors' page. */
export function readAnchorage(anchorage: AnchorageCursor, route: ReadRoute | undefined): Anchorage | null {
  if (!anchorage.isGiven) return null;
  const name = anchorage.at("name").text();
  const position = anchorage.at("position").read(parsePosition);
  const wind = (text: string, path: string) => parseSpeed(text, path, { positive: true });
  const never = anchorage.at("never");
  const open = anchorage.at("neverFromOpen");
  const openTo = anchorage
    .at("openTo")
    .items()
    .map((sector): OpenSector | undefined => {
      const from = sector.at("from").read((text, path) => parseBearing(text, path));
      const until = sector.at("until").read((text, path) => parseBearing(text, path));
      if (from === undefined || until === undefined) return undefined;
      if (from === until) sector.complain("empty-value", `\`${sector.path}\` begins and ends at one bearing: it is no sector`);
      return { fromDegTrue: from, arcDeg: wrap360Deg(until - from) };
    });
  const figures = {
    neverWindMps: never.at("wind").read(wind) ?? null,
    neverGustMps: never.at("gust").read(wind) ?? null,
    neverSeaMetres: never.at("sea").read((text, path) => parseLength(text, path, { positive: true })) ?? null,
    neverOpenWindMps: open.at("wind").read(wind) ?? null,
    neverOpenGustMps: open.at("gust").read(wind) ?? null,
  };
  if (open.isGiven && !anchorage.at("openTo").isGiven)
    open.complain("key-out-of-place", `\`${open.path}\` stands without \`openTo\`: it says what comes in from there`);
  if (!never.isGiven && !open.isGiven)
    anchorage.complain(
      "missing-key",
      `\`${anchorage.path}\` says not what makes it untenable`,
      "Add `never`, or `openTo` and `neverFromOpen`.",
    );
  for (const part of [never, open]) {
    if (part.isGiven && !part.hasIssueWithin() && Object.keys(part.value ?? {}).length === 0)
      part.complain("empty-value", `nothing stands after \`${part.path}\``);
  }
  if (position !== undefined && route !== undefined) {
    const nm = milesBetween(position, route.to.position);
    if (nm > FARTHEST_ANCHORAGE_NM)
      anchorage
        .at("position")
        .complain(
          "place-far-off",
          `this place lies ${Math.round(nm)} nm from where open water ends; it may lie ${FARTHEST_ANCHORAGE_NM} nm off`,
        );
  }
  const sectors = openTo.filter((one) => one !== undefined);
  return name === undefined || position === undefined ? null : { name, position, openTo: sectors, ...figures };
}
