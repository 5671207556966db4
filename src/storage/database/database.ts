import type { SqlEngine, SqlStatement, SqlValue } from "./sqlite.ts";

/**
 * One open database. Statements are plain SQL, prepared once: the engine is synchronous, so that a check and the write that rests on it
 * can't be parted by another request, which a builder of queries that answers later would not give.
 */
export class Database {
  private readonly engine: SqlEngine;
  private readonly end: () => void;
  private readonly prepared = new Map<string, SqlStatement>();
  private within = false;

  /** `end` closes the engine, and gives back what was taken with it. */
  constructor(engine: SqlEngine, end: () => void) {
    this.engine = engine;
    this.end = end;
  }

  /** Changes something; how many rows it changed. */
  run(sql: string, ...values: SqlValue[]): number {
    return Number(this.statement(sql).run(...checked(values)).changes);
  }

  /** The first row, or undefined. */
  one(sql: string, ...values: SqlValue[]): unknown {
    return this.statement(sql).get(...checked(values));
  }

  all(sql: string, ...values: SqlValue[]): readonly unknown[] {
    return this.statement(sql).all(...checked(values));
  }

  /** Runs statements that bind nothing. */
  script(sql: string): void {
    this.engine.exec(sql);
  }

  /** All of it or nothing: what is written is on the disk when this returns. */
  inTransaction<T>(work: () => T): T {
    if (this.within) throw new Error("a transaction within a transaction");
    this.within = true;
    try {
      this.engine.exec("BEGIN IMMEDIATE");
      try {
        const result = work();
        this.engine.exec("COMMIT");
        return result;
      } catch (error) {
        this.engine.exec("ROLLBACK");
        throw error;
      }
    } finally {
      this.within = false;
    }
  }

  /** Closes it and gives back its lock, which a statement that is still held would keep. */
  close(): void {
    for (const statement of this.prepared.values()) statement[Symbol.dispose]?.();
    this.prepared.clear();
    this.end();
  }

  private statement(sql: string): SqlStatement {
    const known = this.prepared.get(sql);
    if (known !== undefined) return known;
    const made = this.engine.prepare(sql);
    this.prepared.set(sql, made);
    return made;
  }
}

/** A date or a boolean would pass silently on one engine and end the process on another: what can't be stored is our own bug. */
function checked(values: readonly SqlValue[]): SqlValue[] {
  for (const value of values as readonly unknown[]) {
    const fits =
      value === null ||
      typeof value === "string" ||
      typeof value === "bigint" ||
      value instanceof Uint8Array ||
      (typeof value === "number" && Number.isFinite(value));
    if (!fits) throw new Error(`a value that can't be stored: ${typeof value} ${String(value)}`);
  }
  return [...values];
}
