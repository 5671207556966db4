import { randomUUID } from "node:crypto";
import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { Database } from "../database/database.ts";
import { openDatabase, storageIssue } from "../database/open-database.ts";
import { ContentFiles } from "./content-files.ts";
import { KeptAnswers } from "./kept-answers.ts";
import { hashRow, type PassageEntry, passageColumns, passageEntry, placeRow, type StoredFile, storedFile, textRow } from "./rows.ts";

/** The most revisions that are kept of one passage; the oldest go first. Ours. */
const MOST_REVISIONS = 500;

/** What is written of a passage that was read and found whole. */
export interface PassageWritten {
  readonly text: string;
  readonly name: string;
  readonly invented: boolean;
}

/** A new passage. */
export interface PassageMade extends PassageWritten {
  /** Left out: one that nobody has. */
  readonly id?: string;
  readonly origin: "demo" | "opened";
  readonly sourcePath: string | null;
  readonly sourceHash: string | null;
  /** Its files, kept already. */
  readonly files: readonly StoredFile[];
}

/**
 * The skipper's passages with their files and every change made to them. What is written lasts when the call returns. Issues are what the
 * skipper can mend; a passage that isn't there is `not-found`.
 */
export class Library {
  readonly contents: ContentFiles;
  readonly answers: KeptAnswers;
  private readonly database: Database;
  private readonly now: () => number;

  private constructor(database: Database, contents: ContentFiles, answers: KeptAnswers, now: () => number) {
    this.database = database;
    this.contents = contents;
    this.answers = answers;
    this.now = now;
  }

  /** Opens the library in a data folder and sweeps out what was never finished. `now`: seconds of the UTC epoch. */
  static async open(folder: string, now: () => number): Promise<Parsed<Library>> {
    const database = await openDatabase(folder);
    if (!database.ok) return database;
    try {
      const library = new Library(database.value, new ContentFiles(folder), new KeptAnswers(database.value, folder, now), now);
      library.contents.sweep(new Set(database.value.all("SELECT DISTINCT hash FROM files").map((row) => hashRow.parse(row).hash)));
      library.answers.sweepAll();
      return good(library);
    } catch (error) {
      database.value.close();
      const known = storageIssue(folder, error);
      if (known === null) throw error;
      return bad(known);
    }
  }

  close(): void {
    this.database.close();
  }

  /** The demos first, in the order of their ids, then the passage changed last. */
  list(): readonly PassageEntry[] {
    return this.database
      .all(`SELECT ${passageColumns} FROM passages ORDER BY origin = 'demo' DESC, CASE WHEN origin = 'demo' THEN id END, saved_at DESC, id`)
      .map((row) => passageEntry(row));
  }

  entry(id: string): Parsed<PassageEntry> {
    const row = this.database.one(`SELECT ${passageColumns} FROM passages WHERE id = ?`, id);
    return row === undefined ? noPassage(id) : good(passageEntry(row));
  }

  /** The passage that was opened from a file, if any was. */
  openedFrom(path: string): PassageEntry | null {
    const row = this.database.one(`SELECT ${passageColumns} FROM passages WHERE source_path = ? ORDER BY saved_at DESC`, path);
    return row === undefined ? null : passageEntry(row);
  }

  /** The text as it stands now. */
  text(id: string): Parsed<string> {
    const row = this.database.one(
      "SELECT text FROM passages JOIN revisions ON passage_id = id AND revisions.place = passages.place WHERE id = ?",
      id,
    );
    return row === undefined ? noPassage(id) : good(textRow.parse(row).text);
  }

  make(made: PassageMade): PassageEntry {
    const id = made.id ?? randomUUID();
    const at = this.now();
    this.database.inTransaction(() => {
      this.database.run(
        "INSERT INTO passages (id, origin, name, invented, source_path, source_hash, place, revision, saved_at) VALUES (?, ?, ?, ?, ?, ?, 1, 1, ?)",
        id,
        made.origin,
        made.name,
        made.invented ? 1 : 0,
        made.sourcePath,
        made.sourceHash,
        at,
      );
      this.database.run("INSERT INTO revisions (passage_id, place, text, made_at) VALUES (?, 1, ?, ?)", id, made.text, at);
      for (const file of made.files) this.putFile(id, file);
    });
    const entry = this.entry(id);
    if (!entry.ok) throw new Error(`a passage that was made is not there: ${id}`);
    return entry.value;
  }

  /**
   * A new text for a passage that still stands at `revision` (else `revision-moved-on`); what was undone before can't be redone after.
   * `sourceHash`: the text comes from the file it was opened from.
   */
  change(id: string, revision: number, written: PassageWritten, sourceHash?: string): Parsed<PassageEntry> {
    return this.database.inTransaction(() => {
      const entry = this.at(id, revision);
      if (!entry.ok) return entry;
      const place = this.placeOf(id);
      this.database.run("DELETE FROM revisions WHERE passage_id = ? AND place > ?", id, place);
      this.database.run(
        "INSERT INTO revisions (passage_id, place, text, made_at) VALUES (?, ?, ?, ?)",
        id,
        place + 1,
        written.text,
        this.now(),
      );
      this.database.run("DELETE FROM revisions WHERE passage_id = ? AND place <= ?", id, place + 1 - MOST_REVISIONS);
      if (sourceHash !== undefined) this.database.run("UPDATE passages SET source_hash = ? WHERE id = ?", sourceHash, id);
      return this.moveTo(id, place + 1, written);
    });
  }

  /** One change back, or one forth again. `facts` reads the name of the text that then stands. */
  walk(id: string, step: "undo" | "redo", facts: (text: string) => Parsed<PassageWritten>): Parsed<PassageEntry> {
    return this.database.inTransaction(() => {
      const entry = this.entry(id);
      if (!entry.ok) return entry;
      if (step === "undo" ? !entry.value.canUndo : !entry.value.canRedo) {
        return bad(
          issue(id, "no-change-to-walk", step === "undo" ? "there is no change to take back" : "there is no change to make again"),
        );
      }
      const place = this.placeOf(id) + (step === "undo" ? -1 : 1);
      const row = this.database.one("SELECT text FROM revisions WHERE passage_id = ? AND place = ?", id, place);
      const written = facts(textRow.parse(row).text);
      return written.ok ? this.moveTo(id, place, written.value) : written;
    });
  }

  remove(id: string): Parsed<null> {
    const entry = this.entry(id);
    if (!entry.ok) return entry;
    if (entry.value.origin === "demo") return bad(issue(id, "demo-stays", "this is a demo"));
    this.database.inTransaction(() => this.database.run("DELETE FROM passages WHERE id = ?", id));
    return good(null);
  }

  /** In the order of their names. */
  filesOf(id: string): readonly StoredFile[] {
    return this.database
      .all("SELECT name, hash, size_bytes FROM files WHERE passage_id = ? ORDER BY name", id)
      .map((row) => storedFile(row));
  }

  /** Files that are kept already, beside a passage; of one name the new replaces the old. */
  addFiles(id: string, files: readonly StoredFile[]): Parsed<null> {
    return this.database.inTransaction(() => {
      const entry = this.entry(id);
      if (!entry.ok) return entry;
      for (const file of files) this.putFile(id, file);
      return good(null);
    });
  }

  private putFile(id: string, { name, hash, sizeBytes }: StoredFile): void {
    this.database.run(
      "INSERT INTO files (passage_id, name, hash, size_bytes, added_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT (passage_id, name) DO UPDATE SET hash = excluded.hash, size_bytes = excluded.size_bytes, added_at = excluded.added_at",
      id,
      name,
      hash,
      sizeBytes,
      this.now(),
    );
  }

  private at(id: string, revision: number): Parsed<PassageEntry> {
    const entry = this.entry(id);
    if (!entry.ok || entry.value.revision === revision) return entry;
    return bad(issue("revision", "revision-moved-on", `the passage is at revision ${entry.value.revision}, not ${revision}`));
  }

  private placeOf(id: string): number {
    return placeRow.parse(this.database.one("SELECT place FROM passages WHERE id = ?", id)).place;
  }

  private moveTo(id: string, place: number, { name, invented }: PassageWritten): Parsed<PassageEntry> {
    this.database.run(
      "UPDATE passages SET place = ?, revision = revision + 1, name = ?, invented = ?, saved_at = ? WHERE id = ?",
      place,
      name,
      invented ? 1 : 0,
      this.now(),
      id,
    );
    return this.entry(id);
  }
}

function noPassage(id: string): { readonly ok: false; readonly issues: readonly ReturnType<typeof issue>[] } {
  return bad(issue(id.slice(0, 64), "not-found", "there is no such passage"));
}
