import { availableParallelism, loadavg } from "node:os";
import { bad, good, issue, type Parsed } from "../core/answers/index.ts";
import { departureTimes, type LeaveAnswer } from "../core/plan/index.ts";
import { parseNumber } from "../core/units/index.ts";
import { tryDeparturesOnThreads, workersFor } from "../jobs/index.ts";
import type { OpenedPassage } from "../storage/index.ts";
import type { CommandContext } from "./context.ts";

const MOST_WORKERS = 64;

/** What was typed after `--workers`; null where nothing was. */
export function workersTyped(typed: string | undefined): Parsed<number | null> {
  if (typed === undefined) return good(null);
  const number = parseNumber(typed, "--workers", { min: 1, max: MOST_WORKERS });
  if (!number.ok || Number.isInteger(number.value)) return number;
  return bad(issue("--workers", "argument-not-understood", `“${typed.slice(0, 40)}” is not a whole number of threads`));
}

/** The cores that have nothing else to do just now, at least one: beside other work more threads make an answer later, not sooner. */
function idleCores(): number {
  return Math.max(1, availableParallelism() - Math.round(loadavg()[0] ?? 0));
}

/**
 * Tries every departure on so many threads (null: by the work and the idle cores); null when it was stopped from the keyboard, which is
 * told. Threads that died are told too: what they held was done again.
 */
export async function tryAll(
  { prepared, gathered }: OpenedPassage,
  workers: number | null,
  context: CommandContext,
): Promise<LeaveAnswer | null> {
  const stop = new AbortController();
  const onStop = (): void => stop.abort();
  let progress = "";
  process.once("SIGINT", onStop);
  try {
    const { answer, losses } = await tryDeparturesOnThreads(prepared, gathered, {
      workers: workers ?? workersFor(departureTimes(prepared).length, idleCores()),
      signal: stop.signal,
      progress: (done, of) => {
        progress = `${done} of ${of}`;
      },
    });
    for (const why of losses) context.error(`A thread died (${why}); what it held was done again, and nothing is lost.\n`);
    return answer;
  } catch (error) {
    if (!stop.signal.aborted) throw error;
    context.error(`Stopped, with ${progress} pieces of work done: there is no answer.\n`);
    return null;
  } finally {
    process.off("SIGINT", onStop);
  }
}
