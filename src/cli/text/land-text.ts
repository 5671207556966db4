import { extentOf, type LandArea, type LandKind } from "../../core/coast/index.ts";
import { fileSize, latitude, longitude } from "../../words/index.ts";

/** So many areas are named; the rest are counted. */
const MOST_NAMED = 12;

/** What a file of land and hazards holds, paragraph by paragraph. */
export function landText(areas: readonly LandArea[], sizeBytes: number): string[] {
  const corners = areas.reduce((sum, { rings }) => sum + rings.reduce((all, ring) => all + ring.length / 2, 0), 0);
  const box = extentOf(areas);
  const where =
    box === null
      ? ""
      : ` It reaches from ${latitude(box.southDeg)} to ${latitude(box.northDeg)}, ${longitude(box.westDeg)} eastward to ${longitude(box.eastDeg)}.`;
  return [
    `Land and hazards (GeoJSON), ${fileSize(sizeBytes)}: ${counted(areas.length, "area", "areas")}, ${counted(corners, "corner", "corners")} in all.${where}`,
    ...ofKind(areas, "land", "Land"),
    ...ofKind(areas, "keptOut", "To keep out of"),
    "A passage file reckons with it where it names it among the files under land.",
  ];
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

function ofKind(areas: readonly LandArea[], kind: LandKind, words: string): string[] {
  const these = areas.filter((area) => area.kind === kind);
  if (these.length === 0) return [];
  const names = these.flatMap(({ name }) => (name === null ? [] : [name]));
  const nameless = these.length - names.length;
  const parts = [
    ...names.slice(0, MOST_NAMED),
    ...(names.length > MOST_NAMED ? [`${names.length - MOST_NAMED} more with a name`] : []),
    ...(nameless > 0 ? [`${nameless} without a name`] : []),
  ];
  return [`${words}, ${counted(these.length, "area", "areas")}: ${parts.join("; ")}.`];
}
