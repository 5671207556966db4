import type { Issue } from "../../core/answers/index.ts";
import type { PassageDocument } from "../../formats/passage/index.ts";

/** A passage as the desk is handed it. */
export interface DeskPassage {
  readonly text: string;
  /** As it was read where the text was changed, so that the desk need not read it again; left out: it does. */
  readonly document?: PassageDocument;
  readonly files: readonly { readonly name: string; readonly hash: string; readonly path: string }[];
}

/** What is asked of the desk. Answers are JSON or HTML already, so that the thread that serves only passes them on. */
export type DeskAsk =
  | { readonly kind: "board"; readonly passage: DeskPassage; readonly nowAt: number }
  | { readonly kind: "run"; readonly run: string; readonly passage: DeskPassage; readonly nowAt: number }
  | { readonly kind: "cancel"; readonly run: string }
  /** Nobody waits any more for what was asked under that number. */
  | { readonly kind: "forget"; readonly of: number }
  | { readonly kind: "departure"; readonly passage: DeskPassage; readonly departAt: number }
  | { readonly kind: "after"; readonly passage: DeskPassage; readonly departAt: number }
  | { readonly kind: "inspect"; readonly passage: DeskPassage; readonly path: string; readonly name: string }
  | { readonly kind: "paper"; readonly passage: DeskPassage; readonly departAt: number; readonly nowAt: number };

/** What it answers, by what was asked. */
export interface DeskAnswers {
  /** `json` null: the departures are not all tried yet; `whole`: the chances are known too. */
  readonly board: { readonly json: string | null; readonly whole: boolean };
  readonly run: { readonly cancelled: boolean; readonly kept: { readonly key: string; readonly sizeBytes: number } | null };
  readonly cancel: null;
  readonly forget: null;
  readonly departure: string;
  readonly after: string;
  readonly inspect: { readonly entry: string; readonly kind: string; readonly named: boolean };
  readonly paper: string;
}

export type ToDesk = { readonly id: number } & DeskAsk;

/** Progress of a run, in pieces of work. */
export interface DeskProgress {
  readonly done: number;
  readonly of: number;
  readonly stage: "departures" | "chances";
}

export type FromDesk =
  | { readonly id: number; readonly answer: DeskAnswers[keyof DeskAnswers] }
  | { readonly id: number; readonly issues: readonly Issue[] }
  | { readonly id: number; readonly fault: string }
  | { readonly run: string; readonly progress: DeskProgress }
  | { readonly run: string; readonly board: string };

/** What the desk is started with. */
export interface DeskData {
  readonly keptFolder: string;
  /** Answers that were made with the build, read where the folder has none; null where there are none. */
  readonly builtFolder: string | null;
}
