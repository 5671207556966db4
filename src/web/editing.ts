import type { BoardTold } from "../api/index.ts";
import type { Answered, ShownIssue } from "./ask/answered.ts";
import type { Connection } from "./ask/connection.ts";
import { boardOf, editPassage, passageOf, stepRevision, useSource } from "./ask/passages.ts";
import type { Changed, KeptPassage } from "./ask/shapes.ts";
import { announce } from "./dom/announce.ts";
import { type LimitsPlace, limitsPlace } from "./parts/limits-place.ts";
import { type EditQueue, editQueue } from "./state/edit-queue.ts";
import { keptEdits } from "./state/kept-edits.ts";
import { type OpenSheet, typedAt } from "./state/open-sheet.ts";

export interface Editing {
  readonly limits: LimitsPlace;
  /** Another passage is open: its own edits are taken up. */
  readonly openPassage: () => void;
  /** Sends what waits. */
  readonly resume: () => Promise<void>;
  readonly step: (way: "undo" | "redo") => Promise<void>;
  /** Names a stored file as the first source. Gives back why not, or null. */
  readonly use: (file: string, as: "water" | "weather") => Promise<readonly ShownIssue[] | null>;
}

export interface EditingWork {
  readonly passage: (kept: KeptPassage) => void;
  readonly board: (board: BoardTold) => void;
  readonly run: (id: string, boardIsOld: boolean) => void;
}

const NOT_SAVED = "Not saved yet: kept in this browser";

/** Changes to the open passage's document: typed limits, undo and redo, sources; kept until the server has them. */
export function editing(open: OpenSheet, connection: Connection, work: EditingWork): Editing {
  let edits: EditQueue | null = null;
  const limits = limitsPlace({
    apply: (path, typed) => edits?.push({ path, typed }),
    step: (way) => void step(way),
    async set(key, happy, never) {
      await edits?.resume();
      const both = [
        { path: `limits.${key}.happy`, typed: happy },
        { path: `limits.${key}.never`, typed: never },
      ];
      return whyNot(await editPassage(open.passageId, open.passage?.revision ?? 0, both));
    },
  });

  const take = (changed: Changed): void => {
    const { revision, canUndo, canRedo } = changed;
    if (open.passage !== null) open.passage = { ...open.passage, revision, canUndo, canRedo };
    limits.steps(canUndo, canRedo);
    limits.said("Saved");
    if (changed.board !== null) work.board(changed.board);
    // There may be both: the board by the new limits at once, and a run for what it could not know.
    if (changed.run) work.run(changed.run.id, changed.board === null);
  };
  const refresh = async (): Promise<boolean> => {
    const kept = await passageOf(open.passageId);
    if (kept.kind !== "told") return kept.kind === "refused";
    work.passage(kept.value);
    const told = await boardOf(open.passageId);
    if (told.kind === "told") work.board(told.value);
    return true;
  };
  const step = async (way: "undo" | "redo"): Promise<void> => {
    await edits?.resume();
    const answer = await stepRevision(open.passageId, way);
    if (answer.kind === "told") {
      take(answer.value);
      announce(way === "undo" ? "Undone." : "Redone.");
    } else if (answer.kind === "unreachable") connection.lost();
    else if (answer.kind === "refused") await refresh();
  };
  /** Takes what came of a change that is not kept meanwhile; gives back why there was none, or null. */
  const whyNot = async (answer: Answered<Changed>): Promise<readonly ShownIssue[] | null> => {
    if (answer.kind === "told") {
      take(answer.value);
      return null;
    }
    if (answer.kind === "refused") {
      if (answer.status === 409) await refresh();
      return answer.issues;
    }
    connection.lost();
    return [{ path: "", code: "program-gone", message: "The program doesn't answer.", whatToDo: "Try again when it is back." }];
  };
  const queueFor = (passageId: string): EditQueue => {
    const send = { send: (edit: { path: string; typed: string | null }) => editPassage(passageId, open.passage?.revision ?? 0, [edit]) };
    return editQueue(
      keptEdits(localStorage, passageId),
      { ...send, refresh, stands: ({ path, typed }) => typedAt(open.board, path) === typed },
      {
        waiting({ path, typed }) {
          limits.said(connection.isLost() ? NOT_SAVED : "Saving …");
          limits.waiting(path, typed ?? "");
        },
        saved({ path, typed }, changed) {
          limits.saved(path, typed ?? "");
          if (changed === null) limits.said("Saved");
          else take(changed);
        },
        refused({ path }, issues) {
          limits.said("");
          limits.refused(path, issues);
          announce(`Not changed. ${issues[0]?.message ?? ""}`);
        },
        unreachable() {
          limits.said(NOT_SAVED);
          connection.lost();
        },
      },
    );
  };
  return {
    limits,
    step,
    openPassage() {
      limits.said("");
      limits.forget();
      edits = queueFor(open.passageId);
    },
    resume: async () => edits?.resume(),
    async use(file, as) {
      return whyNot(await useSource(open.passageId, open.passage?.revision ?? 0, file, as));
    },
  };
}
