import type { BoardTold } from "../../api/index.ts";
import { issuesIn, type ShownIssue } from "./answered.ts";

export interface RunListener {
  readonly progress: (done: number, of: number, stage: string) => void;
  readonly board: (board: BoardTold) => void;
  /** The run is over; `failed` carries its reasons. `lost`: the server went away, or knows the run no more. */
  readonly over: (how: "done" | "cancelled" | "lost" | { readonly failed: readonly ShownIssue[] }) => void;
}

/** Follows a run's events until it is over. The function given back stops listening, and leaves the run to itself. */
export function followRun(run: string, listener: RunListener): () => void {
  const source = new EventSource(`/api/runs/${encodeURIComponent(run)}/events`);
  const finish = (how: Parameters<RunListener["over"]>[0]): void => {
    source.close();
    listener.over(how);
  };
  source.addEventListener("progress", (event) => {
    const { done, of, stage } = JSON.parse(event.data) as { done: number; of: number; stage: string };
    listener.progress(done, of, stage);
  });
  source.addEventListener("board", (event) => listener.board(JSON.parse(event.data) as BoardTold));
  source.addEventListener("done", () => finish("done"));
  source.addEventListener("cancelled", () => finish("cancelled"));
  source.addEventListener("failed", (event) => finish({ failed: issuesIn(JSON.parse(event.data), 0) }));
  // The browser would try again by itself for ever; the page's own watch on the server does that, for everything at once.
  source.onerror = () => finish("lost");
  return () => source.close();
}
