// A thread that dies in the middle of its work, for the tests: after so many tasks it ends, throws or runs out of memory.
import { parentPort, workerData } from "node:worker_threads";

let done = 0;
parentPort?.on("message", ({ id, task }) => {
  if (done === workerData.after) {
    if (workerData.how === "exit") process.exit(3);
    if (workerData.how === "throw") throw new Error("the thread has come to grief");
    if (workerData.how === "hang") for (;;);
  }
  done++;
  if (workerData.how === "task fails") return parentPort?.postMessage({ id, error: "nothing can be divided by nought" });
  parentPort?.postMessage({ id, result: task * task });
});
