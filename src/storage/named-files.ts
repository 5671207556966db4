import { readdir } from "node:fs/promises";
import { basename, dirname, resolve } from "node:path";

/** Where the files that a passage names lie: beside its own file, or in the library. */
export interface NamedFiles {
  /** The path of the file of a name as the passage has it; null where there is none. It need not be there any more. */
  pathOf(name: string): string | null;
  /** The names that a name stands for: itself, or those it describes where its last part has a `*`; null where that can't be told. */
  matching(name: string): Promise<readonly string[] | null>;
  /** How messages call the file. */
  shownAs(name: string): string;
}

/** Files beside a passage file, names relative to its folder. */
export function filesIn(folder: string): NamedFiles {
  const pathOf = (name: string): string => resolve(folder, name);
  return {
    pathOf,
    shownAs: pathOf,
    async matching(name) {
      const pattern = basename(name);
      if (!pattern.includes("*")) return [name];
      const entries = await readdir(resolve(folder, dirname(name))).catch(() => null);
      if (entries === null) return null;
      const before = name.slice(0, name.length - pattern.length);
      return namesLike(pattern, entries).map((entry) => before + entry);
    },
  };
}

/** Those of some names that a pattern describes, in the order of the alphabet; `*` stands for any letters. */
export function namesLike(pattern: string, names: readonly string[]): string[] {
  const escaped = pattern.split("*").map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  const fits = new RegExp(`^${escaped.join(".*")}$`);
  return names.filter((name) => fits.test(name)).sort();
}
