import {
  departureTimes,
  type Gathered,
  judgeLeave,
  keepTasks,
  type LeaveAnswer,
  ordersToTry,
  type Prepared,
  withChances,
} from "../core/plan/index.ts";
import type { EpochSeconds } from "../core/units/index.ts";
import type { CrossingsTried, KeptDeparture } from "../core/window/index.ts";
import { doLeaveTask, type LeaveResult, type LeaveTask, type LeaveThreadData } from "./leave-tasks.ts";
import { plainGathered } from "./plain-gathered.ts";
import { onPlaneAgain, plainOf } from "./plain-kept.ts";
import { type PoolOptions, ThreadPool } from "./thread-pool.ts";

/** Node runs a thread from the compiled file only; run as source, all is done on this thread. */
const BUILT_SCRIPT: URL | null = import.meta.url.endsWith(".js") ? new URL("leave-worker.js", import.meta.url) : null;

export interface ThreadOptions extends PoolOptions {
  /** Threads at work, this one among them. */
  readonly workers: number;
  /** The departures to try; left out: those of the passage. */
  readonly departures?: readonly EpochSeconds[];
  /** What the other threads run; left out: this package's own. */
  readonly script?: URL;
}

/** An answer, and why threads died on the way, if any did: what they held was done again here. */
export interface OnThreads {
  readonly answer: LeaveAnswer;
  readonly losses: readonly string[];
}

/**
 * Tries every departure on several threads: the same answer as `tryDepartures`, to the bit. `progress` is told in tasks, of which there are
 * two for a departure that is not closed. Throws the signal's reason when stopped.
 */
export async function tryDeparturesOnThreads(prepared: Prepared, gathered: Gathered, options: ThreadOptions): Promise<OnThreads> {
  const { passage, plane } = prepared;
  const data = (): LeaveThreadData => ({ passage, gathered: plainGathered(gathered, plane) });
  const pool = new ThreadPool(options.script ?? BUILT_SCRIPT, data, options.workers - 1);
  try {
    const doTask = doLeaveTask(prepared);
    const all = (tasks: readonly LeaveTask[]): Promise<readonly LeaveResult[]> =>
      pool.all(
        tasks,
        doTask,
        (task) => plainOf(task, plane),
        (result) => onPlaneAgain(result, plane) as LeaveResult,
        options,
      );
    const departures = options.departures ?? departureTimes(prepared);
    const kept = await all(keepTasks(departures).map((task) => ({ kind: "keep", ...task })));
    const board = judgeLeave(prepared, departures, kept as readonly KeptDeparture[]);
    const tried = await all(ordersToTry(board).map((order) => ({ kind: "try", order })));
    return { answer: withChances(board, tried as readonly CrossingsTried[]), losses: pool.losses };
  } finally {
    await pool.close();
  }
}
