import { chmodSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { migrate } from "../../../src/storage/database/migrate.ts";
import { type Migration, migrations } from "../../../src/storage/database/migrations.ts";
import { DATABASE_FILE, openDatabase, storageIssue } from "../../../src/storage/database/open-database.ts";
import type { SqlValue } from "../../../src/storage/database/sqlite.ts";
import { temporaryFolders } from "../temporary-folder.ts";

const folder = temporaryFolders();

const next: Migration = {
  number: migrations.length + 1,
  name: "a wish of tomorrow",
  sql: "CREATE TABLE wishes (wish TEXT NOT NULL) STRICT",
  tests: [],
};

async function opened(home: string, steps: readonly Migration[] = migrations) {
  const database = await openDatabase(home, steps);
  if (!database.ok) throw new Error(JSON.stringify(database.issues));
  return database.value;
}

async function codesOf(home: string, steps: readonly Migration[] = migrations): Promise<string[]> {
  const database = await openDatabase(home, steps);
  if (database.ok) {
    database.value.close();
    return [];
  }
  return database.issues.map((one) => one.code);
}

describe("the database of a data folder", () => {
  it("is made where there is none, syncs every write, and holds references", async () => {
    const database = await opened(join(folder(), "deeper", "still"));
    expect(database.one("PRAGMA journal_mode")).toEqual({ journal_mode: "wal" });
    expect(database.one("PRAGMA synchronous")).toEqual({ synchronous: 2 });
    expect(() => database.run("INSERT INTO files VALUES ('nobody', 'a', ?, 1, 1)", "0".repeat(64))).toThrow(/FOREIGN KEY/);
    expect(() => database.run("INSERT INTO kept_answers VALUES (?, 'x', 'y', 'no number', 1)", "0".repeat(64))).toThrow();
    database.close();
  });

  it("refuses to bind what an engine would take silently or die of", async () => {
    const database = await opened(folder());
    for (const value of [true, new Date(0), undefined, Number.NaN, { a: 1 }]) {
      expect(() => database.one("SELECT ?", value as unknown as SqlValue)).toThrow(/can't be stored/);
    }
    expect(database.one("SELECT ? AS it", "text")).toEqual({ it: "text" });
    database.close();
  });

  it("keeps nothing of a transaction that throws, and goes on after it", async () => {
    const database = await opened(folder());
    database.script("CREATE TABLE t (n INTEGER) STRICT");
    expect(() =>
      database.inTransaction(() => {
        database.run("INSERT INTO t VALUES (1)");
        throw new Error("halfway");
      }),
    ).toThrow("halfway");
    database.inTransaction(() => database.run("INSERT INTO t VALUES (2)"));
    expect(database.all("SELECT n FROM t")).toEqual([{ n: 2 }]);
    expect(() => database.inTransaction(() => database.inTransaction(() => 1))).toThrow(/within/);
    database.close();
  });

  it("is held by one at a time, and given back when closed", async () => {
    const home = folder();
    const first = await opened(home);
    expect(await codesOf(home)).toEqual(["data-folder-in-use"]);
    first.close();
    expect(await codesOf(home)).toEqual([]);
  });

  it("is refused where it is damaged or no database", async () => {
    const home = folder();
    writeFileSync(join(home, DATABASE_FILE), "This is a letter, and no database at all. ".repeat(200));
    expect(await codesOf(home)).toEqual(["data-folder-damaged"]);
  });

  it("is refused where the folder is a file, or may not be written", async () => {
    const home = folder();
    writeFileSync(join(home, "file"), "");
    expect(await codesOf(join(home, "file"))).toEqual(["data-folder-not-usable"]);
    if (process.getuid?.() === 0) return;
    chmodSync(home, 0o500);
    expect(await codesOf(home)).toEqual(["data-folder-not-usable"]);
  });

  it("tells a full disk and a read-only one from our own bugs", () => {
    const failed = (message: string, code?: string) => storageIssue("x", Object.assign(new Error(message), { code }))?.code ?? null;
    expect(failed("write failed", "ENOSPC")).toBe("disk-full");
    expect(failed("database or disk is full")).toBe("disk-full");
    expect(failed("attempt to write a readonly database")).toBe("data-folder-not-usable");
    expect(failed("open failed", "EROFS")).toBe("data-folder-not-usable");
    expect(failed("x is not a function")).toBeNull();
    expect(storageIssue("x", "a string")).toBeNull();
  });
});

describe("the steps of the database's form", () => {
  it("are numbered without gaps and pass their own tests on an empty database", async () => {
    expect(migrations.map((step) => step.number)).toEqual(migrations.map((_, i) => i + 1));
    const database = await opened(folder());
    for (const test of migrations.flatMap((step) => step.tests)) expect(database.one(test)).toBeUndefined();
    database.close();
  });

  it("have tests that can fail", async () => {
    const database = await opened(folder());
    for (const test of migrations.flatMap((step) => step.tests)) expect(test).toMatch(/^SELECT/);
    database.script("DROP INDEX files_by_hash; DROP TABLE kept_answers");
    const found = migrations
      .flatMap((step) => step.tests)
      .flatMap((test) => database.all(test).flatMap((row) => Object.values(row as object)));
    expect(found).toEqual(["no table kept_answers", "no index files_by_hash", "no index kept_by_passage"]);
    database.close();
  });

  it("are made once each, after a copy of the database in use", async () => {
    const home = folder();
    const first = await opened(home);
    expect(first.all("SELECT number FROM migrations")).toEqual(migrations.map(({ number }) => ({ number })));
    first.close();
    expect(readdirSync(home).filter((name) => name.startsWith("before"))).toEqual([]);
    (await opened(home, [...migrations, next])).close();
    expect(readdirSync(home).filter((name) => name.startsWith("before"))).toEqual([`before-step-${next.number}.db`]);
    const again = await opened(home, [...migrations, next]);
    expect(again.all("SELECT wish FROM wishes")).toEqual([]);
    again.close();
  });

  it("leave the database as it was where one fails its test, or can't be made", async () => {
    const home = folder();
    (await opened(home)).close();
    const failing = { ...next, tests: ["SELECT 'no wish' WHERE NOT EXISTS (SELECT 1 FROM wishes)"] };
    await expect(openDatabase(home, [...migrations, failing])).rejects.toThrow(/fails its test: no wish/);
    await expect(
      openDatabase(home, [...migrations, { ...next, sql: "CREATE TABLE wishes (wish TEXT) STRICT; NONSENSE" }]),
    ).rejects.toThrow();
    const after = await opened(home);
    expect(after.one("SELECT 1 FROM sqlite_master WHERE name = 'wishes'")).toBeUndefined();
    after.close();
  });

  it("refuse a database of a newer program, and one whose steps are not these", async () => {
    const home = folder();
    (await opened(home, [...migrations, next])).close();
    expect(await codesOf(home)).toEqual(["data-folder-newer"]);
    const changed = migrations.map((step) => ({ ...step, sql: `${step.sql} ` }));
    expect(await codesOf(home, [...changed, next])).toEqual(["data-folder-damaged"]);
  });

  it("ask for a copy before they change anything", async () => {
    const database = await opened(folder());
    const order: string[] = [];
    const noted = { ...next, tests: ["SELECT 'made' WHERE NOT EXISTS (SELECT 1 FROM sqlite_master WHERE name = 'wishes')"] };
    const backup = () => order.push(database.one("SELECT 1 FROM sqlite_master WHERE name = 'wishes'") === undefined ? "before" : "after");
    expect(migrate(database, [...migrations, noted], "x", backup)).toEqual({ ok: true, value: 1 });
    expect(migrate(database, [...migrations, noted], "x", backup)).toEqual({ ok: true, value: 0 });
    expect(order).toEqual(["before"]);
    database.close();
  });
});
