import { createHash } from "node:crypto";
import { realpathSync } from "node:fs";
import { open } from "node:fs/promises";
import { dirname } from "node:path";
import { bad, good, type Issue, type Parsed } from "../../core/answers/index.ts";
import { sourceFilesOf } from "../../core/plan/index.ts";
import type { PassageDocument } from "../../formats/passage/index.ts";
import { filesIn } from "../named-files.ts";
import { readPassageFile } from "../passage-text.ts";
import type { Library } from "./library.ts";
import type { PassageEntry, StoredFile } from "./rows.ts";

/** The longest file that is taken from a folder, as from the page; bytes. */
export const LONGEST_FORECAST_BYTES = 2_000_000_000;

/** Every name of a file in a passage, as typed, `*` and all. */
export function namesIn({ passage, sailTableFile }: PassageDocument): readonly string[] {
  return [...new Set([...sourceFilesOf(passage), ...(passage.land?.files ?? []), ...(sailTableFile === null ? [] : [sailTableFile])])];
}

/**
 * Takes a passage file and the files that it names into the library. One that was taken from the same place before is the same passage: its
 * files are taken anew, and its text is a new revision where the file has changed since. A file that isn't there is left out: opening tells.
 */
export async function adoptFile(
  library: Library,
  path: string,
  as: { readonly origin: "demo" | "opened"; readonly id?: string },
): Promise<Parsed<PassageEntry>> {
  const read = await readPassageFile(path);
  if (!read.ok) return read;
  const document = read.value;
  const sourcePath = realpathSync(path);
  const sourceHash = createHash("sha256").update(document.text).digest("hex");
  const files = await takeNamed(library, document, dirname(path));
  if (!files.ok) return files;
  const { name, invented } = document.passage;
  const written = { text: document.text, name, invented };
  const known = as.id === undefined ? library.openedFrom(sourcePath) : knownById(library, as.id);
  if (known === null) return good(library.make({ ...written, ...as, sourcePath, sourceHash, files: files.value }));
  const added = library.addFiles(known.id, files.value);
  if (!added.ok) return added;
  return known.sourceHash === sourceHash ? good(known) : library.change(known.id, known.revision, written, sourceHash);
}

function knownById(library: Library, id: string): PassageEntry | null {
  const entry = library.entry(id);
  return entry.ok ? entry.value : null;
}

async function takeNamed(library: Library, document: PassageDocument, folder: string): Promise<Parsed<readonly StoredFile[]>> {
  const beside = filesIn(folder);
  const files: StoredFile[] = [];
  const issues: Issue[] = [];
  for (const pattern of namesIn(document)) {
    for (const name of (await beside.matching(pattern)) ?? []) {
      const path = beside.pathOf(name);
      if (path === null || files.some((file) => file.name === name)) continue;
      try {
        // Opened first: a stream tells of a file that isn't there when nobody may be listening yet.
        const file = await open(path, "r");
        const incoming = await library.contents.take(file.createReadStream(), name, () => LONGEST_FORECAST_BYTES);
        if (!incoming.ok) {
          issues.push(...incoming.issues);
          continue;
        }
        await library.contents.keep(incoming.value);
        files.push({ name, hash: incoming.value.hash, sizeBytes: incoming.value.sizeBytes });
      } catch (error) {
        // What can't be read is told when the passage is opened, with the place that names it.
        if (!(error instanceof Error && "code" in error)) throw error;
      }
    }
  }
  return issues.length > 0 ? bad(...issues) : good(files);
}
