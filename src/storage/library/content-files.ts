import { createHash, randomUUID } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, rmSync } from "node:fs";
import { open, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import { storageIssue } from "../database/open-database.ts";

/** A file that has come in whole and is not kept yet. */
export interface IncomingFile {
  readonly path: string;
  /** SHA-256 of its bytes, 64 figures. */
  readonly hash: string;
  readonly sizeBytes: number;
}

/** How long a file may be, told by its first bytes. */
export type LongestOf = (start: Uint8Array) => number;

/** So much of a file is looked at to tell its kind. */
const START_BYTES = 4096;

/**
 * Files by the hash of their bytes, in a folder of their own. They come in under a temporary name, are synced, and only then take their
 * name: what has a name is whole.
 */
export class ContentFiles {
  private readonly folder: string;
  private readonly incoming: string;

  /** Makes the folders. Throws the system's error where that fails. */
  constructor(home: string) {
    this.folder = join(home, "files");
    this.incoming = join(home, "incoming");
    mkdirSync(this.folder, { recursive: true });
    mkdirSync(this.incoming, { recursive: true });
  }

  pathOf(hash: string): string {
    if (!/^[0-9a-f]{64}$/.test(hash)) throw new Error(`no hash of a file: ${hash}`);
    return join(this.folder, hash.slice(0, 2), hash);
  }

  /**
   * Takes in a stream, piece by piece, never whole in memory. `name` stands in issues: longer than it may be (`upload-too-large`), or no
   * room on the disk. What the stream throws is thrown on; in every case but success nothing stays.
   */
  async take(stream: AsyncIterable<Uint8Array>, name: string, longestOf: LongestOf): Promise<Parsed<IncomingFile>> {
    const path = join(this.incoming, randomUUID());
    const hash = createHash("sha256");
    let sizeBytes = 0;
    let start: Uint8Array = new Uint8Array(0);
    let kept = false;
    try {
      const file = await open(path, "wx", 0o600);
      try {
        for await (const piece of stream) {
          if (start.length < START_BYTES) start = Buffer.concat([start, piece.subarray(0, START_BYTES - start.length)]);
          sizeBytes += piece.length;
          const longest = longestOf(start);
          if (sizeBytes > longest) {
            return bad(issue(name, "upload-too-large", `${name} is longer than the ${inWords(longest)} that such a file may have`));
          }
          hash.update(piece);
          await file.writeFile(piece);
        }
        await file.sync();
      } finally {
        await file.close();
      }
      kept = true;
      return good({ path, hash: hash.digest("hex"), sizeBytes });
    } catch (error) {
      const known = storageIssue(name, error);
      if (known === null) throw error;
      return bad(known);
    } finally {
      if (!kept) await rm(path, { force: true });
    }
  }

  /** Gives a file that came in its name by its bytes; when this returns it is on the disk. */
  async keep({ path, hash }: IncomingFile): Promise<void> {
    const target = this.pathOf(hash);
    if (existsSync(target)) return rm(path, { force: true });
    mkdirSync(dirname(target), { recursive: true });
    await rename(path, target);
    await syncFolder(dirname(target));
    await syncFolder(this.folder);
  }

  async discard({ path }: IncomingFile): Promise<void> {
    await rm(path, { force: true });
  }

  /** Removes what came in and was never kept, and every file that `wanted` does not ask for; how many went. */
  sweep(wanted: ReadonlySet<string>): number {
    let gone = 0;
    for (const name of readdirSync(this.incoming)) {
      rmSync(join(this.incoming, name), { recursive: true, force: true });
      gone++;
    }
    for (const part of readdirSync(this.folder)) {
      for (const hash of readdirSync(join(this.folder, part))) {
        if (wanted.has(hash)) continue;
        rmSync(join(this.folder, part, hash), { recursive: true, force: true });
        gone++;
      }
    }
    return gone;
  }
}

/** A rename lasts once its folder is synced; Windows has no such thing to sync. */
async function syncFolder(path: string): Promise<void> {
  if (process.platform === "win32") return;
  const folder = await open(path, "r");
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}

function inWords(bytes: number): string {
  return bytes >= 1e9 ? `${Math.round(bytes / 1e8) / 10} GB` : `${Math.round(bytes / 1e5) / 10} MB`;
}
