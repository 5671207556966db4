import { createHash } from "node:crypto";
import { type FileHandle, open, readFile, rename, rm } from "node:fs/promises";
import { deserialize, serialize } from "node:v8";
import { deflateRawSync, inflateRawSync } from "node:zlib";
import type { Plane } from "../../core/earth/index.ts";
import { onPlaneAgain, plainOf } from "../../jobs/index.ts";
import type { WorkDone } from "./passage-work.ts";

/** The first bytes of such a file; the figure goes up when its form changes. */
const HEAD = Buffer.from("athwart kept 2\n");
const DIGEST_BYTES = 32;
const LENGTH_BYTES = 4;
/** The quickest: it takes two thirds away. */
const DEFLATE_LEVEL = 1;

/**
 * Writes what was run so that it is whole or not there: a temporary name, sync, rename. One piece a departure, and between pieces whatever else
 * is asked gets its turn. Answers its size; null where the disk won't take it, which costs a run at the next start and nothing else.
 */
export async function writeKept(path: string, done: WorkDone, plane: Plane): Promise<number | null> {
  const part = `${path}.part`;
  try {
    const file = await open(part, "w", 0o600);
    let sizeBytes: number;
    try {
      sizeBytes = await writePieces(file, done, plane);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(part, path);
    return sizeBytes;
  } catch {
    await rm(part, { force: true }).catch(() => undefined);
    return null;
  }
}

async function writePieces(file: FileHandle, { departures, tolerations, kept, chances }: WorkDone, plane: Plane): Promise<number> {
  const digest = createHash("sha256");
  let sizeBytes = 0;
  const write = async (bytes: Uint8Array): Promise<void> => {
    digest.update(bytes);
    sizeBytes += bytes.length;
    await file.writeFile(bytes);
  };
  await write(HEAD);
  for (const piece of [{ departures, tolerations }, ...kept, chances]) {
    const packed = deflateRawSync(serialize(plainOf(piece, plane)), { level: DEFLATE_LEVEL });
    const length = Buffer.alloc(LENGTH_BYTES);
    length.writeUInt32LE(packed.length);
    await write(Buffer.concat([length, packed]));
    await turn();
  }
  const end = digest.digest();
  await file.writeFile(end);
  return sizeBytes + end.length;
}

/** Reads what was run; null where there is nothing, or nothing sound. */
export async function readKept(path: string, plane: Plane): Promise<WorkDone | null> {
  try {
    const bytes = await readFile(path);
    const body = bytes.subarray(0, bytes.length - DIGEST_BYTES);
    const digest = createHash("sha256").update(body).digest();
    if (!body.subarray(0, HEAD.length).equals(HEAD) || !digest.equals(bytes.subarray(body.length))) return null;
    const pieces: unknown[] = [];
    for (let at = HEAD.length; at < body.length; ) {
      const from = at + LENGTH_BYTES;
      at = from + body.readUInt32LE(at);
      pieces.push(onPlaneAgain(deserialize(inflateRawSync(body.subarray(from, at))), plane));
      await turn();
    }
    // Our own bytes, by their digest, under a key that holds the engine's version: so they are of these shapes.
    const { departures, tolerations } = pieces[0] as Pick<WorkDone, "departures" | "tolerations">;
    return { departures, tolerations, kept: pieces.slice(1, -1) as WorkDone["kept"], chances: pieces.at(-1) as WorkDone["chances"] };
  } catch {
    return null;
  }
}

function turn(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}
