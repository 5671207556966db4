import type { Edit } from "../ask/shapes.ts";

/** Where edits are kept until the server has them: `localStorage`, or anything like it. */
export interface Store {
  readonly getItem: (key: string) => string | null;
  readonly setItem: (key: string, value: string) => void;
  readonly removeItem: (key: string) => void;
}

export interface KeptEdits {
  /** Those not yet acknowledged, oldest first. */
  readonly all: () => readonly Edit[];
  /** Keeps an edit; an older one of the same path is given up for it. */
  readonly add: (edit: Edit) => void;
  /** The server has it, or has refused it; a newer one of the same path stays. */
  readonly settle: (edit: Edit) => void;
}

/** The edits of one passage that the server doesn't have yet; they outlive a reload, and a server that is gone. */
export function keptEdits(store: Store, passageId: string): KeptEdits {
  const key = `athwart.edits.${passageId}`;
  let edits = read(store, key);
  const write = (): void => {
    try {
      if (edits.length === 0) store.removeItem(key);
      else store.setItem(key, JSON.stringify(edits));
    } catch {
      // A browser that keeps nothing still has them here until it is closed.
    }
  };
  return {
    all: () => edits,
    add(edit) {
      edits = [...edits.filter(({ path }) => path !== edit.path), edit];
      write();
    },
    settle(edit) {
      edits = edits.filter(({ path, typed }) => path !== edit.path || typed !== edit.typed);
      write();
    },
  };
}

function read(store: Store, key: string): readonly Edit[] {
  try {
    const kept: unknown = JSON.parse(store.getItem(key) ?? "[]");
    return Array.isArray(kept) ? kept.filter(isEdit) : [];
  } catch {
    return [];
  }
}

function isEdit(value: unknown): value is Edit {
  if (typeof value !== "object" || value === null || !("path" in value) || !("typed" in value)) return false;
  return typeof value.path === "string" && (typeof value.typed === "string" || value.typed === null);
}
