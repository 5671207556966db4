import { randomUUID } from "node:crypto";
import type { Issue } from "../core/answers/index.ts";
import type { DeskPassage, DeskProgress } from "./desk/desk-messages.ts";

/** What a listener to a run hears, in order; the last three end it. */
export type RunEvent =
  | { readonly event: "progress"; readonly data: DeskProgress }
  | { readonly event: "board"; readonly json: string }
  | { readonly event: "done" }
  | { readonly event: "failed"; readonly issues: readonly Issue[] }
  | { readonly event: "cancelled" };

export interface Run {
  readonly id: string;
  readonly passageId: string;
  /** The text that is run, with its files: another one is another run. */
  readonly of: string;
  /** The newest of each kind, for who comes late. */
  progress: Extract<RunEvent, { event: "progress" }> | null;
  board: Extract<RunEvent, { event: "board" }> | null;
  end: Extract<RunEvent, { event: "done" | "failed" | "cancelled" }> | null;
  readonly listeners: Set<(event: RunEvent) => void>;
}

/** So many runs that are over are remembered, for a page that asks late. */
const MOST_REMEMBERED = 32;

/** The runs that are going, and those that ended lately. */
export class Runs {
  private readonly runs = new Map<string, Run>();

  get(id: string): Run | null {
    return this.runs.get(id) ?? null;
  }

  /** The run that is going for a passage, if any. */
  goingFor(passageId: string): Run | null {
    return [...this.runs.values()].find((run) => run.passageId === passageId && run.end === null) ?? null;
  }

  /** Every run that is going. */
  going(): readonly Run[] {
    return [...this.runs.values()].filter((run) => run.end === null);
  }

  begin(passageId: string, passage: DeskPassage): Run {
    const run: Run = {
      id: randomUUID(),
      passageId,
      of: whatIsRun(passage),
      progress: null,
      board: null,
      end: null,
      listeners: new Set(),
    };
    this.runs.set(run.id, run);
    const over = [...this.runs.values()].filter((one) => one.end !== null);
    for (const oldest of over.slice(0, -MOST_REMEMBERED)) this.runs.delete(oldest.id);
    return run;
  }

  /** Tells an event to all who listen; after its end nothing of a run is told. */
  tell(id: string, event: RunEvent): void {
    const run = this.runs.get(id);
    if (run === undefined || run.end !== null) return;
    if (event.event === "progress") run.progress = event;
    else if (event.event === "board") run.board = event;
    else run.end = event;
    for (const listener of [...run.listeners]) listener(event);
    if (run.end !== null) run.listeners.clear();
  }

  /** Hears a run from here on, after what is newest of it so far. The function given back stops that. */
  listen(run: Run, listener: (event: RunEvent) => void): () => void {
    for (const event of [run.progress, run.board, run.end]) if (event !== null) listener(event);
    if (run.end === null) run.listeners.add(listener);
    return () => run.listeners.delete(listener);
  }
}

/** Two passages of which this is the same need no second run. */
export function whatIsRun({ text, files }: DeskPassage): string {
  return JSON.stringify([text, files.map(({ name, hash }) => [name, hash])]);
}
