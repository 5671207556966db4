import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** Sources by their path from the checkout's folder (`src/core/units/index.ts`), forward slashes, TypeScript only. */
export type Sources = ReadonlyMap<string, string>;

/** Every TypeScript file under a folder of the checkout. */
export function readSources(folder: string): Sources {
  const sources = new Map<string, string>();
  for (const entry of readdirSync(join(root, folder), { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !/\.tsx?$/.test(entry.name)) continue;
    const file = join(entry.parentPath, entry.name);
    sources.set(relative(root, file).split(sep).join("/"), readFileSync(file, "utf8"));
  }
  return sources;
}
