import { readFile, stat } from "node:fs/promises";
import { bad, good, issue, type Parsed } from "../core/answers/index.ts";

/** A text that a person wrote is never longer than this, bytes. */
export const LONGEST_TEXT_BYTES = 1_000_000;

/** Reads a text file, UTF-8; what can't be opened, is too long or is no text is told with its path. */
export async function readTextFile(path: string, place: string): Promise<Parsed<string>> {
  let bytes: Uint8Array;
  try {
    const found = await stat(path);
    if (!found.isFile()) return bad(issue(place, "file-not-opened", `${path} is no file`));
    if (found.size > LONGEST_TEXT_BYTES) {
      return bad(issue(place, "file-not-recognised", `${path} is ${found.size} bytes long: no text that a person wrote`));
    }
    bytes = await readFile(path);
  } catch (error) {
    return bad(cannotOpen(path, place, error));
  }
  try {
    return good(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return bad(issue(place, "file-not-recognised", `${path} is not text in UTF-8`));
  }
}

/** The issue for a file that the system would not open. */
export function cannotOpen(path: string, place: string, error: unknown): ReturnType<typeof issue> {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const why =
    code === "ENOENT"
      ? "there is no such file"
      : code === "EACCES"
        ? "it may not be read"
        : code === "EISDIR"
          ? "it is a folder"
          : "it can't be opened";
  return issue(place, "file-not-opened", `${path}: ${why}`);
}

/** What a file is by its first bytes, as far as `inspect` must choose a reader. */
export type FileKind = "binary" | "text";

/** Tells text from anything else by its first bytes: no zero bytes, valid UTF-8 but for a cut last character. */
export function kindOfFile(start: Uint8Array): FileKind {
  if (start.includes(0)) return "binary";
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(start, { stream: true });
    return "text";
  } catch {
    return "binary";
  }
}
