import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { DeskAnswers, DeskAsk, DeskData, DeskProgress, FromDesk, ToDesk } from "./desk-messages.ts";

/** What a passage may cost the desk in memory: beyond it the thread ends, and is begun anew. */
const MOST_OLD_MEGABYTES = 1024;
/** A small nursery: a run makes much that lives long, and a large one only keeps more memory waiting. Measured on the demo. */
const YOUNG_MEGABYTES = 8;

export interface DeskOptions {
  readonly keptFolder: string;
  readonly builtFolder: string | null;
  /** What the thread runs; left out: this package's own, as it was built. */
  readonly script?: URL;
  /** Hears of what goes on in a run. */
  readonly progress: (run: string, progress: DeskProgress) => void;
  readonly board: (run: string, json: string) => void;
  /** Hears why the thread ended, or what was wrong within it. For logs: codes and stacks, nothing of any passage. */
  readonly fault: (why: string) => void;
}

interface Pending {
  readonly settle: (told: Parsed<DeskAnswers[keyof DeskAnswers]>) => void;
}

/**
 * The desk as the serving thread sees it: asks, and is answered in time. When the thread dies all that was asked is answered `desk-lost`, and
 * the next question starts another: it holds nothing that isn't on the disk.
 */
export class Desk {
  private readonly options: DeskOptions;
  private readonly script: URL;
  private worker: Worker | null = null;
  private readonly pending = new Map<number, Pending>();
  private nextId = 1;
  private closed = false;

  constructor(options: DeskOptions) {
    this.options = options;
    this.script = options.script ?? builtScript();
  }

  /** `gone`: whoever waits for the answer may leave, and what is not begun by then is not done. */
  ask<Kind extends DeskAsk["kind"]>(ask: Extract<DeskAsk, { kind: Kind }>, gone?: AbortSignal): Promise<Parsed<DeskAnswers[Kind]>> {
    if (this.closed || gone?.aborted === true) return Promise.resolve(lost());
    const id = this.nextId++;
    const worker = this.started();
    gone?.addEventListener("abort", () => {
      if (this.pending.has(id)) void this.ask<"forget">({ kind: "forget", of: id });
    });
    return new Promise((resolve) => {
      // The desk answers each question by its kind.
      this.pending.set(id, { settle: (told) => resolve(told as Parsed<DeskAnswers[Kind]>) });
      worker.postMessage({ id, ...ask } satisfies ToDesk);
    });
  }

  /** Ends the thread, whatever it is at. */
  async close(): Promise<void> {
    this.closed = true;
    const { worker } = this;
    this.lose();
    await worker?.terminate();
  }

  /** Ends the thread as if it had died; for tests. */
  async kill(): Promise<void> {
    await this.worker?.terminate();
  }

  private started(): Worker {
    if (this.worker !== null) return this.worker;
    const worker = new Worker(this.script, {
      workerData: { keptFolder: this.options.keptFolder, builtFolder: this.options.builtFolder } satisfies DeskData,
      resourceLimits: { maxOldGenerationSizeMb: MOST_OLD_MEGABYTES, maxYoungGenerationSizeMb: YOUNG_MEGABYTES },
    });
    const end = (why: string): void => {
      if (this.worker !== worker) return;
      this.options.fault(why);
      this.lose();
    };
    worker.on("message", (message: FromDesk) => this.hear(message));
    worker.on("error", (error) => end(error instanceof Error ? (error.stack ?? error.message) : String(error)));
    worker.on("exit", (code) => end(`the desk ended with ${code}`));
    worker.unref();
    this.worker = worker;
    return worker;
  }

  private hear(message: FromDesk): void {
    if ("run" in message) {
      if ("progress" in message) this.options.progress(message.run, message.progress);
      else this.options.board(message.run, message.board);
      return;
    }
    const pending = this.pending.get(message.id);
    this.pending.delete(message.id);
    if (pending === undefined) return;
    if ("answer" in message) pending.settle(good(message.answer));
    else if ("issues" in message) pending.settle(bad(...message.issues));
    else {
      this.options.fault(message.fault);
      pending.settle(bad(issue("", "server-fault", "reckoning this went wrong within the program")));
    }
  }

  private lose(): void {
    this.worker = null;
    const waiting = [...this.pending.values()];
    this.pending.clear();
    for (const { settle } of waiting) settle(lost());
  }
}

function lost(): { readonly ok: false; readonly issues: readonly ReturnType<typeof issue>[] } {
  return bad(issue("", "desk-lost", "the part of the program that reckons ended before it answered"));
}

/** Node runs a thread from the compiled file only: run as source, that of the last build. */
function builtScript(): URL {
  const beside = new URL("./desk-worker.js", import.meta.url);
  return existsSync(fileURLToPath(beside)) ? beside : new URL("../../../dist/server/desk/desk-worker.js", import.meta.url);
}
