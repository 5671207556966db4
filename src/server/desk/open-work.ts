import { join } from "node:path";
import type { Parsed } from "../../core/answers/index.ts";
import { good } from "../../core/answers/index.ts";
import type { PassageDocument } from "../../formats/passage/index.ts";
import { libraryFiles, openDocument } from "../../storage/index.ts";
import { ReadDocuments } from "../read-documents.ts";
import type { DeskPassage } from "./desk-messages.ts";
import { readKept } from "./kept-file.ts";
import { PassageWork } from "./passage-work.ts";
import { runKey } from "./run-key.ts";

/** So many passages are held open at once. Ours: each costs its grids and what was run of it. */
const MOST_OPEN = 3;

/** How a passage is called where an issue must name it. */
const ITS_NAME = "the passage";

export interface WorkOf {
  readonly document: PassageDocument;
  readonly work: PassageWork;
}

/** The passages that are held open, those used last at the end; one that two ask for at once is opened once. */
export class OpenWork {
  private readonly open = new Map<string, Promise<Parsed<PassageWork>>>();
  private readonly documents = new ReadDocuments();
  private readonly keptFolder: string;
  private readonly builtFolder: string | null;

  constructor(keptFolder: string, builtFolder: string | null) {
    this.keptFolder = keptFolder;
    this.builtFolder = builtFolder;
  }

  /** The work on a passage as it stands, with what was run of it before. */
  async of(passage: DeskPassage): Promise<Parsed<WorkOf>> {
    if (passage.document !== undefined) this.documents.remember(passage.document);
    const document = this.document(passage.text);
    if (!document.ok) return document;
    const key = runKey(document.value, passage);
    const known = this.open.get(key) ?? this.begin(key, document.value, passage);
    this.open.delete(key);
    this.open.set(key, known);
    for (const oldest of [...this.open.keys()].slice(0, -MOST_OPEN)) this.open.delete(oldest);
    const work = await known;
    if (work.ok) return good({ document: document.value, work: work.value });
    this.open.delete(key);
    return work;
  }

  /** The document of a text; of one asked about lately the same as before. */
  document(text: string): Parsed<PassageDocument> {
    return this.documents.read(text, ITS_NAME);
  }

  keptPath(key: string): string {
    return join(this.keptFolder, `${key}.kept`);
  }

  private async begin(key: string, document: PassageDocument, { files }: DeskPassage): Promise<Parsed<PassageWork>> {
    const paths = new Map(files.map(({ hash, path }) => [hash, path]));
    const stored = files.map(({ name, hash }) => ({ name, hash, sizeBytes: 0 }));
    const opened = await openDocument(
      document,
      ITS_NAME,
      libraryFiles(stored, (hash) => paths.get(hash) ?? hash),
    );
    if (!opened.ok) return opened;
    const work = new PassageWork(key, opened.value);
    const own = await readKept(this.keptPath(key), work.plane);
    const done = own ?? (this.builtFolder === null ? null : await readKept(join(this.builtFolder, `${key}.kept`), work.plane));
    if (done !== null) work.take(done);
    return good(work);
  }
}
