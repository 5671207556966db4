import { parentPort, workerData } from "node:worker_threads";
import type { DeskAnswers, DeskData, FromDesk, ToDesk } from "./desk-messages.ts";
import { DeskWork } from "./desk-work.ts";

// The desk: the thread that reckons, so that the one that serves never does. Whatever is asked is begun at once, but for departures to be
// looked at closely, which are done one after another; these and a run give way between their parts.
const { keptFolder, builtFolder } = workerData as DeskData;
const tell = (message: FromDesk): void => parentPort?.postMessage(message);
const desk = new DeskWork(keptFolder, builtFolder, tell);

parentPort?.on("message", async (ask: ToDesk) => {
  try {
    const answer = await desk.answer(ask, ask.id);
    tell(answer.ok ? { id: ask.id, answer: answer.value as DeskAnswers[keyof DeskAnswers] } : { id: ask.id, issues: answer.issues });
  } catch (error) {
    tell({ id: ask.id, fault: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
});
