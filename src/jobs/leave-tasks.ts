import { LeaveWork, type Passage, type Prepared } from "../core/plan/index.ts";
import type { CrossingsTried, KeptDeparture, OrderToTry } from "../core/window/index.ts";
import type { PlainGathered } from "./plain-gathered.ts";

/** What a thread is begun with. */
export interface LeaveThreadData {
  readonly passage: Passage;
  readonly gathered: PlainGathered;
}

/** One piece of the work behind an answer: a departure to run and feel, or an order to try many times. */
export type LeaveTask =
  | { readonly kind: "keep"; readonly departAt: number; readonly onlyLater: boolean }
  | { readonly kind: "try"; readonly order: OrderToTry };

export type LeaveResult = KeptDeparture | CrossingsTried;

/** Does tasks of one passage, one after another. */
export function doLeaveTask(prepared: Prepared): (task: LeaveTask) => LeaveResult {
  const work = new LeaveWork(prepared);
  return (task) => (task.kind === "keep" ? work.keep(task.departAt, task.onlyLater) : work.tryOrder(task.order));
}
