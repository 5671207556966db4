import { getBuiltinModule } from "node:process";

/** What may be bound or read: text, numbers, nothing, bytes. */
export type SqlValue = string | number | bigint | null | Uint8Array;

/** The part of the engine that is used here: what `node:sqlite` and the package for Node 20 have in common. */
export interface SqlEngine {
  exec(sql: string): void;
  prepare(sql: string): SqlStatement;
  close(): void;
}

export interface SqlStatement {
  run(...values: SqlValue[]): { readonly changes: number | bigint };
  get(...values: SqlValue[]): unknown;
  all(...values: SqlValue[]): unknown[];
  /** Lets the statement go, where the engine does not do so itself when the database is closed. */
  [Symbol.dispose]?(): void;
}

type Engine = new (path: string) => SqlEngine;

/** The first Node whose own SQLite needs no flag. */
const OWN_FROM = [22, 13] as const;

let engine: Engine | null = null;

/** Opens a database file with Node's own SQLite where it has one, else with the package that stands in for it. Throws the engine's error. */
export async function openEngine(path: string): Promise<SqlEngine> {
  engine ??= (await ownEngine()) ?? (await packagedEngine());
  return new engine(path);
}

async function packagedEngine(): Promise<Engine> {
  const { DatabaseSync } = await import("@photostructure/sqlite");
  return DatabaseSync;
}

async function ownEngine(): Promise<Engine | null> {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major < OWN_FROM[0] || (major === OWN_FROM[0] && minor < OWN_FROM[1])) return null;
  // Node calls its own SQLite experimental on the error stream, which is no news to a skipper.
  const { emitWarning } = process;
  process.emitWarning = () => {};
  try {
    const own: unknown = getBuiltinModule("node:sqlite");
    return hasEngine(own) ? own.DatabaseSync : null;
  } finally {
    process.emitWarning = emitWarning;
  }
}

function hasEngine(own: unknown): own is { readonly DatabaseSync: Engine } {
  return typeof own === "object" && own !== null && "DatabaseSync" in own && typeof own.DatabaseSync === "function";
}
