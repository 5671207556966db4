import { createHash } from "node:crypto";
import { z } from "zod";
import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { Database } from "./database.ts";
import type { Migration } from "./migrations.ts";

const appliedRow = z.object({ number: z.number(), name: z.string(), checksum: z.string() });

/** The checksum by which a step that was applied is known again. */
export function checksumOf({ number, name, sql }: Migration): string {
  return createHash("sha256").update(`${number}\0${name}\0${sql}`).digest("hex");
}

/**
 * Brings a database to the newest form, each step in a transaction of its own that is held to the step's tests before it counts. `backup`
 * is called before the first step that changes a database in use. Gives how many steps were made. A database from a newer program, or one
 * whose applied steps are not ours, is an issue.
 */
export function migrate(
  database: Database,
  steps: readonly Migration[],
  place: string,
  backup: (fromNumber: number) => void,
): Parsed<number> {
  database.script("CREATE TABLE IF NOT EXISTS migrations (number INTEGER PRIMARY KEY, name TEXT NOT NULL, checksum TEXT NOT NULL) STRICT");
  const applied = database.all("SELECT number, name, checksum FROM migrations ORDER BY number").map((row) => appliedRow.parse(row));
  for (const [i, one] of applied.entries()) {
    const step = steps[i];
    if (step === undefined) {
      return bad(
        issue(
          place,
          "data-folder-newer",
          `the database has been brought to step ${applied.length}, and this athwart knows ${steps.length}`,
        ),
      );
    }
    if (one.number !== step.number || one.checksum !== checksumOf(step)) {
      return bad(
        issue(place, "data-folder-damaged", `step ${one.number} of the database, “${one.name}”, is not the one that is known here`),
      );
    }
  }
  const missing = steps.slice(applied.length);
  if (missing.length > 0 && applied.length > 0) backup(applied.length);
  for (const step of missing) apply(database, step);
  return good(missing.length);
}

function apply(database: Database, step: Migration): void {
  database.inTransaction(() => {
    database.script(step.sql);
    for (const test of [...step.tests, "SELECT 'a broken reference in ' || \"table\" FROM pragma_foreign_key_check"]) {
      const found = database.one(test);
      if (found !== undefined)
        throw new Error(`step ${step.number}, “${step.name}”, fails its test: ${Object.values(found as object).join(" ")}`);
    }
    database.run("INSERT INTO migrations (number, name, checksum) VALUES (?, ?, ?)", step.number, step.name, checksumOf(step));
  });
}
