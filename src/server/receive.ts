import type { Multipart, MultipartFile } from "@fastify/multipart";
import type { FastifyRequest } from "fastify";
import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import {
  fileNameFor,
  type IncomingFile,
  kindOfFile,
  type Library,
  LONGEST_FORECAST_BYTES,
  LONGEST_LAND_BYTES,
  looksLikeGeojson,
} from "../storage/index.ts";

export const MOST_FILES = 40;
const LONGEST_PASSAGE_BYTES = 4_000_000;
const LONGEST_LETTER_BYTES = 8_000_000;

/** A file that came in, under the name that it is to have. */
export interface Received extends IncomingFile {
  readonly name: string;
}

export interface Upload {
  readonly passage: Received | null;
  readonly files: readonly Received[];
}

/**
 * Takes in all that a form holds, each file streamed to the disk: at most one `passage`, where one is `wanted`, and any number of `file`.
 * Nothing of it is kept yet; when anything is wrong all of it is thrown away.
 */
export async function receive(request: FastifyRequest, library: Library, wanted: "passage" | "files"): Promise<Parsed<Upload>> {
  if (!request.isMultipart()) return bad(issue("content-type", "upload-not-understood", "files are sent as multipart/form-data"));
  const files: Received[] = [];
  const passages: Received[] = [];
  const issues: Issue[] = [];
  try {
    for await (const part of request.parts()) {
      if (!isFile(part)) {
        issues.push(issue(part.fieldname.slice(0, 40), "upload-not-understood", "this part of what was sent is no file"));
        continue;
      }
      const isPassage = part.fieldname === "passage" && wanted === "passage";
      const name = fileNameFor(part.filename ?? "");
      if (!name.ok || (!isPassage && part.fieldname !== "file")) {
        part.file.resume();
        const misplaced = issue(part.fieldname.slice(0, 40), "upload-not-understood", "files are sent as `file`, a passage as `passage`");
        issues.push(...(name.ok ? [misplaced] : name.issues));
        continue;
      }
      const taken = await library.contents.take(part.file, name.value, isPassage ? () => LONGEST_PASSAGE_BYTES : longestOf);
      // What is left of a file that was refused must flow by, for the next to come.
      part.file.resume();
      if (!taken.ok) issues.push(...taken.issues);
      else (isPassage ? passages : files).push({ ...taken.value, name: name.value });
    }
    if (wanted === "passage" && passages.length !== 1 && issues.length === 0) {
      issues.push(issue("passage", "upload-not-understood", `one passage file is wanted, and ${passages.length} were sent`));
    }
    if (wanted === "files" && files.length === 0 && issues.length === 0) {
      issues.push(issue("file", "upload-not-understood", "no file was sent"));
    }
    const twice = files.find((file, at) => files.findIndex((one) => one.name === file.name) !== at);
    if (twice !== undefined) issues.push(issue("file", "upload-not-understood", `two files are called ${twice.name}`));
  } catch (error) {
    await discardAll(library, [...passages, ...files]);
    const known = uploadIssue(error);
    if (known === null) throw error;
    return bad(...issues, known);
  }
  if (issues.length === 0) return good({ passage: passages[0] ?? null, files });
  await discardAll(library, [...passages, ...files]);
  return bad(...issues);
}

export async function discardAll(library: Library, files: readonly IncomingFile[]): Promise<void> {
  for (const file of files) await library.contents.discard(file);
}

function isFile(part: Multipart): part is MultipartFile {
  return part.type === "file";
}

/** By a file's first bytes: a forecast may be long, a text that a person wrote is not. */
function longestOf(start: Uint8Array): number {
  if (start.length > 0 && kindOfFile(start) === "binary") return LONGEST_FORECAST_BYTES;
  return looksLikeGeojson(new TextDecoder().decode(start)) ? LONGEST_LAND_BYTES : LONGEST_LETTER_BYTES;
}

/** What a form that is none, too much or cut short comes to; null for anything else. */
function uploadIssue(error: unknown): Issue | null {
  if (!(error instanceof Error)) return null;
  const code = "code" in error ? String(error.code) : "";
  if (/^FST_(?:PARTS|FILES|FIELDS)_LIMIT$|^FST_REQ_FILE_TOO_LARGE$/.test(code)) {
    return issue("file", "upload-too-large", `at most ${MOST_FILES} files are taken at once`);
  }
  if (code === "FST_INVALID_MULTIPART_CONTENT_TYPE") return issue("content-type", "upload-not-understood", "this is no form with files");
  if (
    /unexpected end|malformed|boundary|premature|aborted|multipart|part header|prototype violation/i.test(error.message) ||
    code === "ECONNRESET"
  ) {
    return issue("file", "upload-not-understood", "what was sent ended, or was spoilt, on the way");
  }
  return null;
}
