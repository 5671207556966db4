import type { FastifyRequest } from "fastify";
import { bad, good, issue, type Parsed } from "../core/answers/index.ts";
import { readPassage } from "../formats/passage/index.ts";
import { type PassageEntry, readTextFile } from "../storage/index.ts";
import { type Office, writtenOf } from "./office.ts";
import { discardAll, type Received, receive } from "./receive.ts";
import { kindOfContent } from "./stored-kind.ts";

const LONGEST_PASSAGE_BYTES = 4_000_000;

/** Makes a passage of a form that was sent: the passage file and what goes with it. All that is wrong comes back at once, and nothing is kept. */
export async function openSent(office: Office, request: FastifyRequest): Promise<Parsed<PassageEntry>> {
  const { library } = office;
  const upload = await receive(request, library, "passage");
  if (!upload.ok) return upload;
  const { passage, files } = upload.value;
  if (passage === null) throw new Error("a form without its passage was taken in");
  const all = [passage, ...files];
  try {
    const text = await readTextFile(passage.path, passage.name, "passage file", LONGEST_PASSAGE_BYTES, passage.name);
    const document = text.ok ? readPassage(text.value, { name: passage.name }) : text;
    if (!document.ok) return document;
    const second = await firstPassageAmong(files);
    if (second !== null) return bad(issue("file", "upload-not-understood", `${second.name} is a passage file too: open one at a time`));
    const stored = [];
    for (const file of files) {
      await library.contents.keep(file);
      stored.push({ name: file.name, hash: file.hash, sizeBytes: file.sizeBytes });
    }
    return good(library.make({ ...writtenOf(document.value), origin: "opened", sourcePath: null, sourceHash: null, files: stored }));
  } finally {
    await discardAll(library, all);
  }
}

/** A passage file among files that go with another. */
export async function firstPassageAmong(files: readonly Received[]): Promise<Received | null> {
  for (const file of files) {
    const kind = await kindOfContent(file.path, file.name);
    if (kind.ok && kind.value === "passage") return file;
  }
  return null;
}
