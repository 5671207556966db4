import type { BoardTold, inspectJson } from "../../api/index.ts";

/** A passage in the list of those kept. */
export interface ListedPassage {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  readonly origin: "demo" | "opened";
  readonly savedAt: string;
  readonly revision: number;
}

/** A passage as it is kept: its document as typed, and where it stands among its revisions. */
export interface KeptPassage {
  readonly id: string;
  readonly name: string;
  readonly text: string;
  readonly revision: number;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly files: readonly { readonly name: string; readonly sizeBytes: number }[];
}

/** What a change came to: its board at once, or the run that will bring it. */
export interface Changed {
  readonly revision: number;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly board: BoardTold | null;
  readonly run?: { readonly id: string } | null;
}

/** A file that was looked into, as `athwart inspect --json` tells it. */
export type FileInspection = ReturnType<typeof inspectJson>["files"][number];

export interface FilesAdded {
  readonly files: readonly { readonly name: string; readonly inspection: FileInspection; readonly named: boolean }[];
  readonly run?: { readonly id: string } | null;
}

/** One change to the document: the key's path, and what is typed there; null takes the key away. */
export interface Edit {
  readonly path: string;
  readonly typed: string | null;
}
