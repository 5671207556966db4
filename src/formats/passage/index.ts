/**
 * The passage file: a crossing as its skipper states it, in YAML or JSON, version `athwart: passage/1`. It is the user's document: the
 * text is kept as typed, with its units and comments; SI values and UTC instants are derived at use. Everything wrong with it comes
 * back at once, each with its key and line. Text in, text out: no files are opened here.
 */
export { editEntries, nameFirst, type PassageEdit } from "./edit-entries.ts";
export { editPassage } from "./edit-passage.ts";
export { passageJsonSchema } from "./json-schema.ts";
export { type LimitToSet, limitsToSet } from "./limits-to-set.ts";
export { type Migration, migratePassage, passageMigrations, versionOf } from "./migrate.ts";
export { LONGEST_RODE_METRES, THICKEST_CHAIN_METRES, THINNEST_CHAIN_METRES } from "./read-ground-tackle.ts";
export { FARTHEST_LANE_NM } from "./read-lanes.ts";
export { LIMITS_ALONG } from "./read-limits.ts";
export { LONGEST_LEAVE_DAYS, type PassageDocument, readPassage } from "./read-passage.ts";
export { FARTHEST_REFUGE_NM, UNDER_KEEL_IF_LEFT_OUT_METRES } from "./read-refuges.ts";
export { FARTHEST_PILOTAGE_NM, FARTHEST_STREAM_NM, LONGEST_ROUTE_NM, SAME_PLACE_NM } from "./read-route.ts";
export { FARTHEST_STAGING_NM } from "./read-staging.ts";
export { FASTEST_CURRENT_MPS, WHERE_UNKNOWN_IF_LEFT_OUT } from "./read-water.ts";
export { GUST_FACTOR_IF_LEFT_OUT } from "./read-weather.ts";
export { type LimitName, PASSAGE_VERSION, type PassageData } from "./schema.ts";
export { type Keys, readTypedTree, type Tree, type TypedTree } from "./typed-tree.ts";
export { MAX_PASSAGE_CHARACTERS, MAX_PASSAGE_DEPTH } from "./yaml-guard.ts";
