/**
 * Storage: what lies on the skipper's disk. Opens files as byte sources, reads a passage file with every forecast, letter and table it
 * names (paths as written in it, relative to it), looks into single files, holds them against a passage, and tells everything that is
 * wrong with them at once. Bytes, text and UTC seconds.
 */
export { bytesFromFile, type FileBytes } from "./file-bytes.ts";
export { type FilesTogether, filesTogether } from "./files-together.ts";
export { type InspectedFile, type InspectOptions, inspectFile } from "./inspect-file.ts";
export { type OpenedPassage, openPassage } from "./open-passage.ts";
export { type OfferedQuantity, type PassageNeeds, readPassageNeeds } from "./passage-needs.ts";
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
export { type TextKind, textKind } from "./text-kind.ts";
