import { Worker } from "node:worker_threads";

/** Tasks that a thread holds at once, so that it need not wait while this one is busy. */
const TASKS_IN_HAND = 4;

/** What a thread is told. */
export interface ToThread {
  readonly id: number;
  readonly task: unknown;
}

/** What it answers: the result, or the text of an error that the task threw. */
export type FromThread = { readonly id: number } & ({ readonly result: unknown } | { readonly error: string });

export interface PoolOptions {
  /** Told after each task. */
  readonly progress?: (done: number, of: number) => void;
  /** Stops the work: `all` then throws the signal's reason. */
  readonly signal?: AbortSignal | undefined;
}

interface Thread {
  readonly worker: Worker;
  readonly inHand: Set<number>;
  alive: boolean;
}

/**
 * Threads that do tasks beside this one. This one takes its part too, and when no task is left to be dealt it does those again that others
 * still hold: a task gives the same result wherever it is done, so the first result counts, and a thread that is slow to start, hangs or
 * dies costs time and nothing else.
 */
export class ThreadPool {
  /** Why threads died, if any did. */
  readonly losses: string[] = [];
  private readonly threads: Thread[] = [];
  private settle: ((id: number, result: unknown) => void) | null = null;
  private fail: ((error: Error) => void) | null = null;
  private refill: (() => void) | null = null;
  private closing = false;
  /** Ids go on over all that is asked of the pool, so that a late answer to a task of before is known for one. */
  private nextId = 0;

  /** Starts `others` threads of a script, each handed the same data. Without a script there is this thread only. */
  constructor(script: URL | null, data: () => unknown, others: number) {
    if (script === null || others < 1) return;
    const workerData = data();
    for (let i = 0; i < others; i++) this.start(new Worker(script, { workerData }));
  }

  /**
   * The results of all tasks, in their order. `own` does one here; `give` and `take` make a task fit to cross and a result fit to use.
   * Throws what a task throws, wherever it is done.
   */
  async all<Task, Result>(
    tasks: readonly Task[],
    own: (task: Task) => Result,
    give: (task: Task) => unknown,
    take: (result: unknown) => Result,
    { progress, signal }: PoolOptions = {},
  ): Promise<readonly Result[]> {
    const first = this.nextId;
    this.nextId += tasks.length;
    const results: Result[] = [];
    const done = new Uint8Array(tasks.length);
    const startedHere = new Uint8Array(tasks.length);
    const dealt = new Uint8Array(tasks.length);
    let left = tasks.length;
    let failure: Error | null = null;
    const finish = (place: number, result: Result): void => {
      if (done[place] === 1) return;
      done[place] = 1;
      results[place] = result;
      left--;
      progress?.(tasks.length - left, tasks.length);
    };
    const nextToDeal = (): number => dealt.indexOf(0);
    this.settle = (id, result) => {
      const place = id - first;
      if (place >= 0 && place < tasks.length && done[place] === 0) finish(place, take(result));
    };
    this.fail = (error) => {
      failure ??= error;
    };
    this.refill = () => {
      for (const thread of this.threads) {
        while (thread.alive && thread.inHand.size < TASKS_IN_HAND) {
          const place = nextToDeal();
          if (place < 0) return;
          dealt[place] = 1;
          thread.inHand.add(first + place);
          thread.worker.postMessage({ id: first + place, task: give(tasks[place] as Task) } satisfies ToThread);
        }
      }
    };
    this.refill();
    while (left > 0) {
      signal?.throwIfAborted();
      if (failure !== null) throw failure;
      let place = nextToDeal();
      // The one dealt last is the one that will be begun last.
      if (place < 0) place = tasks.findLastIndex((_, at) => done[at] === 0 && startedHere[at] === 0);
      if (place >= 0) {
        dealt[place] = 1;
        startedHere[place] = 1;
        finish(place, own(tasks[place] as Task));
      }
      await new Promise((resolve) => setImmediate(resolve));
    }
    if (failure !== null) throw failure;
    return results;
  }

  /** Ends the threads, whatever they are at. */
  async close(): Promise<void> {
    this.closing = true;
    await Promise.all(this.threads.map(({ worker }) => worker.terminate()));
  }

  private start(worker: Worker): void {
    const thread: Thread = { worker, inHand: new Set(), alive: true };
    this.threads.push(thread);
    worker.on("message", (answer: FromThread) => {
      thread.inHand.delete(answer.id);
      if ("error" in answer) this.fail?.(new Error(`a task failed on another thread: ${answer.error}`));
      else this.settle?.(answer.id, answer.result);
      this.refill?.();
    });
    worker.on("error", (error) => this.lose(thread, error instanceof Error ? error.message : String(error)));
    worker.on("messageerror", (error) => this.lose(thread, error.message));
    worker.on("exit", (code) => this.lose(thread, `it ended with ${code}`));
  }

  /** A thread that died: what it held is done here in the end, since it never is answered. */
  private lose(thread: Thread, why: string): void {
    if (!thread.alive || this.closing) return;
    thread.alive = false;
    this.losses.push(why);
  }
}
