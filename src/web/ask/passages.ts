import type { BoardTold, DepartureTold } from "../../api/index.ts";
import type { Answered } from "./answered.ts";
import { ask, askText } from "./ask.ts";
import type { Changed, Edit, FilesAdded, KeptPassage, ListedPassage } from "./shapes.ts";

const at = (id: string, rest = ""): string => `/api/passages/${encodeURIComponent(id)}${rest}`;

export const listPassages = (): Promise<Answered<{ readonly passages: readonly ListedPassage[] }>> => ask("/api/passages");
export const passageOf = (id: string): Promise<Answered<KeptPassage>> => ask(at(id));
export const boardOf = (id: string): Promise<Answered<BoardTold>> => ask(at(id, "/board"));
export const startRun = (id: string): Promise<Answered<{ readonly id: string }>> => ask(at(id, "/runs"), { method: "POST", json: {} });
export const cancelRun = (run: string): Promise<Answered<null>> => ask(`/api/runs/${encodeURIComponent(run)}`, { method: "DELETE" });
export const removePassage = (id: string): Promise<Answered<null>> => ask(at(id), { method: "DELETE" });

export const departureOf = (id: string, departAt: string, signal?: AbortSignal): Promise<Answered<DepartureTold>> =>
  ask(at(id, `/departures/${encodeURIComponent(departAt)}`), signal === undefined ? {} : { signal });

export const afterArrivalOf = (id: string, departAt: string): Promise<Answered<{ readonly sentences: readonly string[] }>> =>
  ask(at(id, `/departures/${encodeURIComponent(departAt)}/after`));

export const paperOf = (id: string, departAt: string): Promise<Answered<string>> =>
  askText(at(id, `/paper?at=${encodeURIComponent(departAt)}`));

export const editPassage = (id: string, revision: number, edits: readonly Edit[]): Promise<Answered<Changed>> =>
  ask(at(id), { method: "PATCH", json: { revision, edits } });

export const stepRevision = (id: string, way: "undo" | "redo"): Promise<Answered<Changed>> =>
  ask(at(id, `/${way}`), { method: "POST", json: {} });

export const useSource = (id: string, revision: number, file: string, as: "water" | "weather"): Promise<Answered<Changed>> =>
  ask(at(id, "/sources"), { method: "POST", json: { revision, file, as } });

/** Opens a passage file together with the files that it names. */
export function openPassage(passage: File, files: readonly File[]): Promise<Answered<ListedPassage>> {
  const form = new FormData();
  form.append("passage", passage, passage.name);
  for (const file of files) form.append("file", file, file.name);
  return ask("/api/passages", { method: "POST", form });
}

/** Puts files beside a passage; each is looked into at once. */
export function addFiles(id: string, files: readonly File[]): Promise<Answered<FilesAdded>> {
  const form = new FormData();
  for (const file of files) form.append("file", file, file.name);
  return ask(at(id, "/files"), { method: "POST", form });
}

/** Where the document is had as a file. */
export const exportAddress = (id: string): string => at(id, "/text");
