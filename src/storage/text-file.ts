import { readFile, stat } from "node:fs/promises";
import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import { recogniseFile } from "../formats/forecast/index.ts";
import { bytesFromFile } from "./file-bytes.ts";
import type { NamedFiles } from "./named-files.ts";

/** A text that a person wrote is never longer than this, bytes. */
export const LONGEST_TEXT_BYTES = 1_000_000;

/** Reads a text file that a passage names. Issues as of `readTextFile`. */
export async function readNamedText(
  files: NamedFiles,
  name: string,
  place: string,
  wanted: string,
  longestBytes = LONGEST_TEXT_BYTES,
): Promise<Parsed<string>> {
  const path = files.pathOf(name);
  const shown = files.shownAs(name);
  return path === null ? bad(notThere(shown, place)) : readTextFile(path, place, wanted, longestBytes, shown);
}

/**
 * Reads a text file, UTF-8; what can't be opened, is too long or is no text is told with its path, or as it is `shown`. `wanted`: what it
 * should be.
 */
export async function readTextFile(
  path: string,
  place: string,
  wanted = "text",
  longestBytes = LONGEST_TEXT_BYTES,
  shown = path,
): Promise<Parsed<string>> {
  let bytes: Uint8Array;
  try {
    const found = await stat(path);
    if (!found.isFile()) return bad(issue(place, "file-not-opened", `${shown} is no file`));
    if (found.size > longestBytes) {
      const why = `${shown} is ${found.size} bytes long: no ${longestBytes === LONGEST_TEXT_BYTES ? "text that a person wrote" : `${wanted} is so long`}`;
      return bad((await forecastInstead(path, place, wanted, shown)) ?? issue(place, "file-not-recognised", why, CHECK_NAME));
    }
    bytes = await readFile(path);
  } catch (error) {
    return bad(cannotOpen(shown, place, error));
  }
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    const forecast = text.includes("\0") ? await forecastInstead(path, place, wanted, shown) : null;
    return forecast === null ? good(text) : bad(forecast);
  } catch {
    const cure = `Check the name of the file; save a ${wanted === "text" ? "text" : wanted} as plain text in UTF-8.`;
    return bad(
      (await forecastInstead(path, place, wanted, shown)) ?? issue(place, "file-not-recognised", `${shown} is not text in UTF-8`, cure),
    );
  }
}

const CHECK_NAME = "Check the name of the file.";
const FORECAST_KINDS = { grib: "GRIB", "netcdf-classic": "NetCDF", netcdf4: "NetCDF-4" } as const;

/** The issue for a forecast or current file, by its first bytes, where a text is wanted; null for any other. */
async function forecastInstead(path: string, place: string, wanted: string, shown: string): Promise<Issue | null> {
  const source = await bytesFromFile(path);
  try {
    const { kind } = await recogniseFile(source);
    if (kind === "empty" || kind === "other") return null;
    const message = `${shown} is a forecast or current file (${FORECAST_KINDS[kind]}), not a ${wanted}`;
    const name = shown.split(/[\\/]/).at(-1) ?? shown;
    const cure = `Name it in a passage file, as \`- file: ${name}\` under the sources of weather or water; athwart inspect shows what it holds.`;
    return issue(place, "file-not-recognised", message, cure);
  } finally {
    await source.close();
  }
}

/** The issue for a file that a passage names and there is none of. */
export function notThere(shown: string, place: string): Issue {
  return issue(place, "file-not-opened", `${shown}: there is no such file`);
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
