import { parentPort, workerData } from "node:worker_threads";
import { prepare } from "../core/plan/index.ts";
import { doLeaveTask, type LeaveTask, type LeaveThreadData } from "./leave-tasks.ts";
import { gatheredAgain } from "./plain-gathered.ts";
import { onPlaneAgain, plainOf } from "./plain-kept.ts";
import type { FromThread, ToThread } from "./thread-pool.ts";

// A thread of `tryDeparturesOnThreads`: puts the passage together once, then does the tasks it is given.
const { passage, gathered } = workerData as LeaveThreadData;
const prepared = prepare(passage, gatheredAgain(gathered));
if (!prepared.ok) throw new Error(`a passage that was put together can't be again: ${prepared.issues.map((one) => one.message).join(" ")}`);
const { plane } = prepared.value;
const doTask = doLeaveTask(prepared.value);

parentPort?.on("message", ({ id, task }: ToThread) => {
  let answer: FromThread;
  try {
    answer = { id, result: plainOf(doTask(onPlaneAgain(task, plane) as LeaveTask), plane) };
  } catch (error) {
    answer = { id, error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
  parentPort?.postMessage(answer);
});
