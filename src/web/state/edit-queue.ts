import type { Answered, ShownIssue } from "../ask/answered.ts";
import type { Changed, Edit } from "../ask/shapes.ts";
import type { KeptEdits } from "./kept-edits.ts";

export interface EditQueueWork {
  readonly send: (edit: Edit) => Promise<Answered<Changed>>;
  /** The document has moved on under us: reads where it stands. False where nobody answers. */
  readonly refresh: () => Promise<boolean>;
  /** Whether the document already says what the edit would make it say, as far as is known. */
  readonly stands: (edit: Edit) => boolean;
}

export interface EditQueueListener {
  readonly waiting: (edit: Edit) => void;
  /** Durable; `changed` is null where the document said so already. */
  readonly saved: (edit: Edit, changed: Changed | null) => void;
  readonly refused: (edit: Edit, issues: readonly ShownIssue[]) => void;
  readonly unreachable: () => void;
}

export interface EditQueue {
  readonly push: (edit: Edit) => void;
  /** Sends what waits: at the start, and when the server is back. */
  readonly resume: () => Promise<void>;
  readonly isEmpty: () => boolean;
}

/** The document may move on under us so often before we say that it can't be saved. */
const MOST_TRIES = 4;

/**
 * Sends edits one after the other in the order they were typed. One stays kept until the server says it is saved, or refuses it; a server
 * that doesn't answer costs nothing.
 */
export function editQueue(kept: KeptEdits, work: EditQueueWork, listener: EditQueueListener): EditQueue {
  let sending: Promise<void> | null = null;

  const sendOne = async (edit: Edit): Promise<boolean> => {
    for (let tries = 0; tries < MOST_TRIES; tries += 1) {
      const answer = await work.send(edit);
      if (answer.kind === "told") {
        kept.settle(edit);
        listener.saved(edit, answer.value);
        return true;
      }
      if (answer.kind !== "refused") {
        listener.unreachable();
        return false;
      }
      if (answer.status !== 409 || tries === MOST_TRIES - 1) {
        kept.settle(edit);
        listener.refused(edit, answer.issues);
        return true;
      }
      if (!(await work.refresh())) {
        listener.unreachable();
        return false;
      }
      if (work.stands(edit)) {
        // It was saved, and the answer was lost on its way.
        kept.settle(edit);
        listener.saved(edit, null);
        return true;
      }
    }
    return true;
  };
  const sendAll = async (): Promise<void> => {
    // Not before `sending` is set: an end that comes at once would be forgotten.
    await Promise.resolve();
    for (let next = kept.all()[0]; next !== undefined; next = kept.all()[0]) {
      listener.waiting(next);
      if (!(await sendOne(next))) break;
    }
    sending = null;
  };
  const resume = (): Promise<void> => {
    sending ??= sendAll();
    return sending;
  };
  return {
    push(edit) {
      kept.add(edit);
      listener.waiting(edit);
      void resume();
    },
    resume,
    isEmpty: () => kept.all().length === 0,
  };
}
