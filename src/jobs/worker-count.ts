/** More threads than this have not been measured to help. */
const MOST_WORKERS = 8;
/**
 * A thread costs as much as some dozens of departures before it does its first: it starts, puts the passage together, and its code is
 * compiled anew. Fewer departures than this a thread are done sooner without it. Measured on the demo.
 */
export const DEPARTURES_WORTH_A_THREAD = 48;

/** How many threads to work on so many departures with, this one among them: by the cores that are idle, one for little work. */
export function workersFor(departures: number, idleCores: number): number {
  return Math.max(1, Math.min(idleCores, MOST_WORKERS, Math.floor(departures / DEPARTURES_WORTH_A_THREAD) + 1));
}
