import type { BoardTold } from "../api/index.ts";
import type { Connection } from "./ask/connection.ts";
import { followRun } from "./ask/follow-run.ts";
import { cancelRun, listPassages, startRun } from "./ask/passages.ts";
import { announce } from "./dom/announce.ts";
import { byId } from "./dom/element.ts";
import { type RunBar, runBar } from "./parts/run-bar.ts";
import type { OpenSheet } from "./state/open-sheet.ts";

export interface Running {
  /** Follows a run; `boardIsOld` where what stands on the board is of before a change. */
  readonly follow: (run: string, boardIsOld?: boolean) => void;
  readonly start: () => Promise<void>;
  /** Another passage is opened: what runs, runs on, but nobody looks. */
  readonly leave: () => void;
  readonly bar: RunBar;
}

export interface RunningWork {
  readonly board: (board: BoardTold) => void;
  readonly reload: () => Promise<void>;
}

/** Runs of the open passage: followed, shown, stopped, started again. */
export function running(open: OpenSheet, connection: Connection, work: RunningWork): Running {
  const bar = runBar();
  let stopFollowing: (() => void) | null = null;

  const leave = (): void => {
    stopFollowing?.();
    stopFollowing = null;
    bar.over();
  };
  const start = async (): Promise<void> => {
    const answer = await startRun(open.passageId);
    if (answer.kind === "told") follow(answer.value.id);
    else if (answer.kind === "unreachable") connection.lost();
    else if (answer.kind === "refused") bar.failed(answer.issues, () => void start());
  };
  const cancel = async (run: string): Promise<void> => {
    const answer = await cancelRun(run);
    if (answer.kind === "unreachable") connection.lost();
  };
  /** The stream of events broke off: either the server is gone, or it is there and the run is over or unknown. */
  const brokenOff = async (): Promise<void> => {
    const answer = await listPassages();
    if (answer.kind === "unreachable") connection.lost();
    else await work.reload();
  };
  const follow = (run: string, boardIsOld = true): void => {
    stopFollowing?.();
    byId("when").classList.toggle("old", boardIsOld && open.board !== null);
    bar.start(() => void cancel(run));
    stopFollowing = followRun(run, {
      progress: bar.progress,
      board: work.board,
      over(how) {
        stopFollowing = null;
        if (how === "done") {
          bar.over();
          if (open.board === null) void work.reload();
        } else if (how === "cancelled") {
          bar.cancelled(() => void start());
          announce("The run was cancelled.");
        } else if (how === "lost") void brokenOff();
        else {
          bar.failed(how.failed, () => void start());
          announce("This passage could not be run.");
        }
      },
    });
  };
  return { follow, start, leave, bar };
}
