import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { Passage } from "../../core/plan/index.ts";
import type { PassageDocument } from "../../formats/passage/index.ts";
import type { DeskPassage } from "./desk-messages.ts";

/**
 * What a run rests on: all that the passage says but its limits, the bytes of its files, and the engine. By limits a run is only judged, so
 * that a changed limit, and a changed remark, leaves the key as it is.
 */
export function runKey({ data }: PassageDocument, { files }: DeskPassage): string {
  const { limits: _, ...rest } = data;
  const named = files.map(({ name, hash }) => [name, hash]).sort(([a = ""], [b = ""]) => (a < b ? -1 : 1));
  return createHash("sha256")
    .update(JSON.stringify([engineVersion(), rest, named]))
    .digest("hex");
}

/** What a board rests on: all that the passage says, the bytes of its files, and the engine. */
export function boardKey({ text, files }: DeskPassage): string {
  return createHash("sha256")
    .update(JSON.stringify([engineVersion(), text, files.map(({ name, hash }) => [name, hash])]))
    .digest("hex");
}

/** How long each limit tolerates to be passed: the chances are kept for these only. */
export function tolerationsOf({ limits }: Passage): string {
  return JSON.stringify(limits.flatMap((limit) => (limit.toleratedSeconds > 0 ? [[limit.felt, limit.toleratedSeconds]] : [])));
}

let known: string | null = null;

/** The package's version and the stamp of its build. */
function engineVersion(): string {
  known ??= [new URL("../../../package.json", import.meta.url), new URL("../../.built", import.meta.url)].map(textOf).join("\n");
  return known;
}

function textOf(url: URL): string {
  try {
    return readFileSync(url, "utf8");
  } catch {
    return "";
  }
}
