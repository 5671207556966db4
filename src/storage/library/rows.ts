import { z } from "zod";

/** A passage as the library lists it. Instants in seconds of the UTC epoch. */
export interface PassageEntry {
  readonly id: string;
  readonly origin: "demo" | "opened";
  readonly name: string;
  readonly invented: boolean;
  /** The file it was opened from; null where it was sent, or is the demo. */
  readonly sourcePath: string | null;
  /** SHA-256 of the text that was last taken from there. */
  readonly sourceHash: string | null;
  /** Goes up by one with every change, undone and redone ones too. */
  readonly revision: number;
  readonly savedAt: number;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}

/** A file of a passage, by the name that the passage calls it. */
export interface StoredFile {
  readonly name: string;
  readonly hash: string;
  readonly sizeBytes: number;
}

const passageRow = z.object({
  id: z.string(),
  origin: z.enum(["demo", "opened"]),
  name: z.string(),
  invented: z.number(),
  source_path: z.string().nullable(),
  source_hash: z.string().nullable(),
  revision: z.number(),
  saved_at: z.number(),
  can_undo: z.number(),
  can_redo: z.number(),
});

export const passageColumns = `id, origin, name, invented, source_path, source_hash, revision, saved_at,
  place > (SELECT min(place) FROM revisions WHERE passage_id = id) AS can_undo,
  place < (SELECT max(place) FROM revisions WHERE passage_id = id) AS can_redo`;

export function passageEntry(row: unknown): PassageEntry {
  const { id, origin, name, invented, source_path, source_hash, revision, saved_at, can_undo, can_redo } = passageRow.parse(row);
  return {
    id,
    origin,
    name,
    invented: invented === 1,
    sourcePath: source_path,
    sourceHash: source_hash,
    revision,
    savedAt: saved_at,
    canUndo: can_undo === 1,
    canRedo: can_redo === 1,
  };
}

const fileRow = z.object({ name: z.string(), hash: z.string(), size_bytes: z.number() });

export function storedFile(row: unknown): StoredFile {
  const { name, hash, size_bytes } = fileRow.parse(row);
  return { name, hash, sizeBytes: size_bytes };
}

export const textRow = z.object({ text: z.string() });
export const placeRow = z.object({ place: z.number() });
export const keyRow = z.object({ key: z.string(), file: z.string(), size_bytes: z.number() });
export const hashRow = z.object({ hash: z.string() });
