/**
 * Storage: what lies on the skipper's disk. Opens files as byte sources, reads a passage file with every forecast, letter and table it
 * names (paths as written in it, relative to it), looks into single files, holds them against a passage, and tells everything that is
 * wrong with them at once. Keeps passages with every change made to them, and their files, in a data folder: what is written there lasts
 * when the call returns. Bytes, text and UTC seconds.
 */
export { storageIssue } from "./database/open-database.ts";
export { DEMOS, type Demo, demoNamed, FIRST_DEMO } from "./demos.ts";
export { bytesFromFile, type FileBytes } from "./file-bytes.ts";
export { type FilesTogether, filesTogether } from "./files-together.ts";
export { LONGEST_LAND_BYTES } from "./gather-land.ts";
export { type InspectedFile, type InspectOptions, inspectFile } from "./inspect-file.ts";
export { adoptFile, LONGEST_FORECAST_BYTES, namesIn } from "./library/adopt.ts";
export type { IncomingFile, LongestOf } from "./library/content-files.ts";
export { dataFolder, type Surroundings } from "./library/data-folder.ts";
export { fileNameFor } from "./library/file-name.ts";
export { Library, type PassageMade, type PassageWritten } from "./library/library.ts";
export { lastPart, libraryFiles } from "./library/library-files.ts";
export type { PassageEntry, StoredFile } from "./library/rows.ts";
export { filesIn, type NamedFiles, namesLike } from "./named-files.ts";
export { type OpenedPassage, openDocument, openPassage } from "./open-passage.ts";
export { type OpenedWaters, openWaters } from "./open-waters.ts";
export { type OfferedQuantity, type PassageNeeds, passageNeeds, readPassageNeeds } from "./passage-needs.ts";
export { readPassageFile } from "./passage-text.ts";
export {
  type LineServed,
  type Offer,
  type Serving,
  servingOfGrids,
  servingOfLetter,
  type TimeServed,
  WANTED_ROOM_NM,
  worth,
} from "./serving.ts";
export { type FileKind, kindOfFile, readTextFile } from "./text-file.ts";
export { looksLikeGeojson, type TextKind, textKind } from "./text-kind.ts";
