import type { FilesSource } from "../../core/plan/index.ts";
import type { Cursor } from "./cursor.ts";
import { parseFileName } from "./quantities.ts";

/** The files of one source, named by `file` or `files`; undefined where none can be read. */
export function readFiles(source: Cursor<{ file?: string | undefined; files?: string[] | undefined }>): FilesSource | undefined {
  const one = source.at("file").read(parseFileName);
  const several = source
    .at("files")
    .items()
    .map((item) => item.read(parseFileName));
  const files = [one, ...several].filter((name) => name !== undefined);
  return files.length === 0 ? undefined : { kind: "files", files };
}
