import { mkdirSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { z } from "zod";
import type { Database } from "../database/database.ts";
import { keyRow } from "./rows.ts";

/** So many runs are kept of one passage, and so many bytes of all; those used longest ago go first. Ours. */
const MOST_OF_A_PASSAGE = 3;
const MOST_BYTES = 400_000_000;

/**
 * What was run of passages, so that a board needs not be run again when the program starts: files of whoever runs, named here by a key made of
 * all that the run rests on. They are only a saving: what is missing or damaged is run anew.
 */
export class KeptAnswers {
  readonly folder: string;
  private readonly database: Database;
  private readonly now: () => number;

  /** Makes the folder. Throws the system's error where that fails. */
  constructor(database: Database, home: string, now: () => number) {
    this.database = database;
    this.folder = join(home, "kept");
    this.now = now;
    mkdirSync(this.folder, { recursive: true });
  }

  /** Where the file of a key lies, or would. */
  pathOf(key: string): string {
    if (!/^[0-9a-f]{64}$/.test(key)) throw new Error(`no key of a kept answer: ${key}`);
    return join(this.folder, `${key}.kept`);
  }

  /** Enters a file that has been written, and removes those that are too many. */
  enter(key: string, passageId: string, sizeBytes: number): void {
    this.database.inTransaction(() => {
      if (this.database.one("SELECT 1 FROM passages WHERE id = ?", passageId) === undefined) return;
      this.database.run(
        "INSERT INTO kept_answers (key, passage_id, file, size_bytes, used_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT (key) DO UPDATE SET size_bytes = excluded.size_bytes, used_at = excluded.used_at",
        key,
        passageId,
        `${key}.kept`,
        sizeBytes,
        this.now(),
      );
      const mine = this.database.all(
        "SELECT key, file, size_bytes FROM kept_answers WHERE passage_id = ? ORDER BY used_at DESC, rowid DESC",
        passageId,
      );
      for (const row of mine.slice(MOST_OF_A_PASSAGE)) this.forget(keyRow.parse(row).key);
      let bytes = 0;
      for (const row of this.database.all("SELECT key, file, size_bytes FROM kept_answers ORDER BY used_at DESC, rowid DESC")) {
        const one = keyRow.parse(row);
        bytes += one.size_bytes;
        if (bytes > MOST_BYTES) this.forget(one.key);
      }
    });
    this.sweep();
  }

  /** Keeps a passage's board as it was answered, under a key of all that it rests on; the one before goes. */
  keepBoard(passageId: string, key: string, json: string): void {
    this.database.run(
      "INSERT INTO kept_boards (passage_id, key, json, made_at) SELECT id, ?, ?, ? FROM passages WHERE id = ? ON CONFLICT (passage_id) DO UPDATE SET key = excluded.key, json = excluded.json, made_at = excluded.made_at",
      key,
      json,
      this.now(),
      passageId,
    );
  }

  /** The board that was kept under this key, and when, UTC epoch seconds; null where there is none. */
  boardOf(passageId: string, key: string): { readonly json: string; readonly madeAt: number } | null {
    const row = this.database.one("SELECT json, made_at FROM kept_boards WHERE passage_id = ? AND key = ?", passageId, key);
    if (row === undefined) return null;
    const { json, made_at } = boardRow.parse(row);
    return { json, madeAt: made_at };
  }

  /** Removes every file that is not entered, but for those that are being written. */
  sweep(): void {
    this.removeAllBut((name) => name.endsWith(".part"));
  }

  /** The same when nothing is being written. */
  sweepAll(): void {
    this.removeAllBut(() => false);
  }

  private removeAllBut(isWritten: (name: string) => boolean): void {
    const entered = new Set(this.database.all("SELECT file FROM kept_answers").map((row) => fileRow.parse(row).file));
    for (const name of readdirSync(this.folder)) {
      if (!entered.has(name) && !isWritten(name)) rmSync(join(this.folder, name), { force: true });
    }
  }

  private forget(key: string): void {
    this.database.run("DELETE FROM kept_answers WHERE key = ?", key);
  }
}

const fileRow = z.object({ file: z.string() });
const boardRow = z.object({ json: z.string(), made_at: z.number() });
