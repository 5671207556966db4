/**
 * Bytes: the one door through which every file's content comes, piece by piece and bounded. Offsets and lengths are in bytes, from 0.
 * A file on disk is made into a source in `storage`; memory here.
 */
export * from "./byte-source.ts";
export * from "./memory-bytes.ts";
export * from "./read-ahead.ts";
export * from "./window-reader.ts";
