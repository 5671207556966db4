/** One step of the database's form. Once released its SQL never changes: what was applied is known by its checksum. */
export interface Migration {
  /** From 1, without gaps. */
  readonly number: number;
  readonly name: string;
  readonly sql: string;
  /** Queries that must give no row when the step has been made; each gives what is wrong. */
  readonly tests: readonly string[];
}

export const migrations: readonly Migration[] = [
  {
    number: 1,
    name: "passages, their revisions and files, kept answers",
    sql: `
      CREATE TABLE passages (
        id TEXT PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64),
        origin TEXT NOT NULL CHECK (origin IN ('demo', 'opened')),
        name TEXT NOT NULL,
        invented INTEGER NOT NULL CHECK (invented IN (0, 1)),
        source_path TEXT,
        source_hash TEXT,
        place INTEGER NOT NULL,
        revision INTEGER NOT NULL CHECK (revision >= 1),
        saved_at INTEGER NOT NULL,
        FOREIGN KEY (id, place) REFERENCES revisions (passage_id, place) DEFERRABLE INITIALLY DEFERRED
      ) STRICT;
      CREATE TABLE revisions (
        passage_id TEXT NOT NULL REFERENCES passages (id) ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
        place INTEGER NOT NULL CHECK (place >= 1),
        text TEXT NOT NULL,
        made_at INTEGER NOT NULL,
        PRIMARY KEY (passage_id, place)
      ) STRICT;
      CREATE TABLE files (
        passage_id TEXT NOT NULL REFERENCES passages (id) ON DELETE CASCADE,
        name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 255),
        hash TEXT NOT NULL CHECK (length(hash) = 64),
        size_bytes INTEGER NOT NULL CHECK (size_bytes >= 0),
        added_at INTEGER NOT NULL,
        PRIMARY KEY (passage_id, name)
      ) STRICT;
      CREATE INDEX files_by_hash ON files (hash);
      CREATE TABLE kept_answers (
        key TEXT PRIMARY KEY CHECK (length(key) = 64),
        passage_id TEXT NOT NULL REFERENCES passages (id) ON DELETE CASCADE,
        file TEXT NOT NULL,
        size_bytes INTEGER NOT NULL,
        used_at INTEGER NOT NULL
      ) STRICT;
      CREATE TABLE kept_boards (
        passage_id TEXT PRIMARY KEY REFERENCES passages (id) ON DELETE CASCADE,
        key TEXT NOT NULL CHECK (length(key) = 64),
        json TEXT NOT NULL,
        made_at INTEGER NOT NULL
      ) STRICT;
      CREATE INDEX kept_by_passage ON kept_answers (passage_id, used_at);
    `,
    tests: [
      "SELECT 'no table ' || wanted.column1 FROM (VALUES ('passages'), ('revisions'), ('files'), ('kept_answers'), ('kept_boards')) AS wanted WHERE NOT EXISTS (SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = wanted.column1 AND sql LIKE '%STRICT%')",
      "SELECT 'no index ' || wanted.column1 FROM (VALUES ('files_by_hash'), ('kept_by_passage')) AS wanted WHERE NOT EXISTS (SELECT 1 FROM sqlite_master WHERE type = 'index' AND name = wanted.column1)",
    ],
  },
];
