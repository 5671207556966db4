import { type NamedFiles, namesLike } from "../named-files.ts";
import type { StoredFile } from "./rows.ts";

/**
 * The stored files of a passage under the names that the passage calls them. A passage may say in which folder a file lies
 * (`forecasts/wind.grib2`): one that was sent without its folder answers to that too.
 */
export function libraryFiles(files: readonly StoredFile[], pathOfHash: (hash: string) => string): NamedFiles {
  const byName = new Map<string, StoredFile>();
  for (const file of files) byName.set(lastPart(file.name), file);
  for (const file of files) byName.set(file.name, file);
  return {
    pathOf(name) {
      const file = byName.get(name) ?? byName.get(lastPart(name));
      return file === undefined ? null : pathOfHash(file.hash);
    },
    shownAs: (name) => name,
    async matching(name) {
      if (!lastPart(name).includes("*")) return [name];
      const stored = files.map((file) => file.name);
      const found = namesLike(name, stored);
      return found.length > 0 ? found : namesLike(lastPart(name), stored);
    },
  };
}

/** The last part of a path, however it is written. */
export function lastPart(name: string): string {
  return name.split(/[\\/]/).at(-1) ?? name;
}
