/**
 * Jobs: the core's work on several threads of this machine: what a thread is given (shared memory, nothing copied), how departures are
 * dealt out and come back, progress, and stopping. Answers are the same to the bit for any number of threads. Plain data only crosses.
 */

export { onPlaneAgain, plainOf } from "./plain-kept.ts";
export * from "./thread-pool.ts";
export * from "./try-on-threads.ts";
export * from "./worker-count.ts";
