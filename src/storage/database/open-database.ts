import { existsSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import { Database } from "./database.ts";
import { migrate } from "./migrate.ts";
import { type Migration, migrations } from "./migrations.ts";
import { openEngine, type SqlEngine } from "./sqlite.ts";

export const DATABASE_FILE = "athwart.db";
/** Holds nothing: whoever has it locked has the folder. */
const LOCK_FILE = "in-use.db";

/**
 * Opens the database of a data folder, made where there is none, in its newest form; a copy of one that is to be changed is laid in the
 * folder first. What was written is on the disk when a write returns (WAL, synchronous=FULL). One process at a time: the folder is
 * locked for as long as the database is open, and the system gives the lock back whatever end the process comes to.
 */
export async function openDatabase(folder: string, steps: readonly Migration[] = migrations): Promise<Parsed<Database>> {
  const engines: SqlEngine[] = [];
  const closeAll = (): void => {
    for (const engine of engines.splice(0)) engine.close();
  };
  try {
    mkdirSync(folder, { recursive: true });
    const lock = await openEngine(join(folder, LOCK_FILE));
    engines.push(lock);
    lock.exec("PRAGMA busy_timeout = 500; BEGIN EXCLUSIVE");
    const engine = await openEngine(join(folder, DATABASE_FILE));
    engines.unshift(engine);
    engine.exec("PRAGMA journal_mode = WAL");
    engine.exec("PRAGMA synchronous = FULL");
    engine.exec("PRAGMA foreign_keys = ON");
    const database = new Database(engine, closeAll);
    const told = migrate(database, steps, folder, (from) => backUp(database, folder, from));
    if (told.ok) return good(database);
    database.close();
    return told;
  } catch (error) {
    closeAll();
    const known = storageIssue(folder, error);
    if (known === null) throw error;
    return bad(known);
  }
}

/** A copy of the whole database as it stands, beside it. */
function backUp(database: Database, folder: string, from: number): void {
  let name = join(folder, `before-step-${from + 1}.db`);
  for (let count = 2; existsSync(name); count++) name = join(folder, `before-step-${from + 1}-${count}.db`);
  database.run("VACUUM INTO ?", name);
}

/** What went wrong with the disk, as an issue; null for anything that is our own bug. */
export function storageIssue(place: string, error: unknown): Issue | null {
  if (!(error instanceof Error)) return null;
  const system = "code" in error ? String(error.code) : "";
  const words = error.message;
  if (system === "ENOSPC" || system === "EDQUOT" || /database or disk is full/i.test(words)) {
    return issue(place, "disk-full", "the disk is full");
  }
  if (/database is locked/i.test(words)) return issue(place, "data-folder-in-use", `${place} is used by another athwart`);
  if (/file is not a database|database disk image is malformed/i.test(words)) {
    return issue(place, "data-folder-damaged", `${join(place, DATABASE_FILE)}: ${words}`);
  }
  const refused = ["EACCES", "EPERM", "EROFS", "ENOTDIR", "EEXIST", "EIO", "EMFILE"].includes(system);
  if (refused || /unable to open database|readonly database|attempt to write a readonly|disk I\/O error/i.test(words)) {
    return issue(place, "data-folder-not-usable", `${place}: ${system === "" ? words : system}`);
  }
  return null;
}
