import { readFileSync } from "node:fs";
import { join } from "node:path";
import { good, type Parsed } from "../core/answers/index.ts";
import { editEntries, type PassageDocument, readPassage } from "../formats/passage/index.ts";
import type { Library, PassageEntry, PassageWritten } from "../storage/index.ts";
import { Desk, type DeskOptions } from "./desk/desk.ts";
import type { DeskAnswers, DeskPassage } from "./desk/desk-messages.ts";
import { boardKey } from "./desk/run-key.ts";
import { ReadDocuments } from "./read-documents.ts";
import { type Run, Runs, whatIsRun } from "./runs.ts";

/** A board that was told within this time may be told again as it was. Ours. */
const TOLD_AGAIN_SECONDS = 600;

/** A board is kept for the next start when it has stood for so long: it is only a saving, and nobody waits for it. */
const KEEP_BOARD_AFTER_MILLISECONDS = 200;

/** After so many edits one is read no faster: measured. They begin when the page has what it opens with. */
const REHEARSALS = 20;
const REHEARSE_AFTER_MILLISECONDS = 700;
const REHEARSE_EVERY_MILLISECONDS = 15;

type ToldBoard = Promise<Parsed<DeskAnswers["board"]>>;

/** What came of a change. `boardJson` null: a run must bring it. */
export interface Changed {
  readonly entry: PassageEntry;
  readonly boardJson: string | null;
  readonly run: Run | null;
}

export interface OfficeOptions {
  readonly library: Library;
  /** Seconds of the UTC epoch. */
  readonly now: () => number;
  readonly fault: (why: string) => void;
  readonly deskScript?: URL;
  /** Answers that were made with the build; null: none. */
  readonly builtFolder: string | null;
}

/** Where the library, the desk and the runs meet: whoever asks, one run goes for a passage, of the passage as it stands. */
export class Office {
  readonly library: Library;
  readonly runs = new Runs();
  /** Passages as they were read last. */
  readonly documents = new ReadDocuments();
  readonly desk: Desk;
  private readonly now: () => number;
  /** By passage, the key of the board that the desk answered last. */
  private readonly lastBoards = new Map<string, string>();
  /** By passage, the board that is still to be kept. */
  private readonly toKeep = new Map<string, { readonly key: string; readonly json: string }>();
  /** What was asked of the desk before it was wanted, by the key of its board. */
  private foreseen: { readonly key: string; readonly told: ToldBoard } | null = null;
  private closed = false;
  private hasRehearsed = false;
  private readonly builtFolder: string | null;

  constructor({ library, now, fault, deskScript, builtFolder }: OfficeOptions) {
    this.library = library;
    this.now = now;
    this.builtFolder = builtFolder;
    const options: DeskOptions = {
      keptFolder: library.answers.folder,
      builtFolder,
      progress: (run, data) => this.runs.tell(run, { event: "progress", data }),
      board: (run, json) => this.runs.tell(run, { event: "board", json }),
      fault,
      ...(deskScript === undefined ? {} : { script: deskScript }),
    };
    this.desk = new Desk(options);
  }

  /** The passage with its files, for the desk. */
  forDesk(id: string): Parsed<DeskPassage> {
    const text = this.library.text(id);
    return text.ok ? good(this.withFiles(id, text.value)) : text;
  }

  private withFiles(id: string, text: string): DeskPassage {
    const files = this.library.filesOf(id).map(({ name, hash }) => ({ name, hash, path: this.library.contents.pathOf(hash) }));
    const document = this.documents.known(text);
    return { text, files, ...(document === null ? {} : { document }) };
  }

  /**
   * A passage is about to be changed to this document: the desk judges its board while the change is written. It is told by `board` alone,
   * of a passage that stands so, and so never of a change that was not written.
   */
  foresee(id: string, document: PassageDocument): void {
    this.documents.remember(document);
    const passage = this.withFiles(id, document.text);
    this.foreseen = { key: boardKey(passage), told: this.askBoard(passage) };
  }

  private askBoard(passage: DeskPassage): ToldBoard {
    return this.desk.ask<"board">({ kind: "board", passage, nowAt: this.now() });
  }

  private toldBoard(key: string, passage: DeskPassage): ToldBoard {
    const { foreseen } = this;
    this.foreseen = null;
    return foreseen?.key === key ? foreseen.told : this.askBoard(passage);
  }

  /** The document of a passage as it stands. */
  document(id: string): Parsed<PassageDocument> {
    const text = this.library.text(id);
    return text.ok ? this.documents.read(text.value, "the passage") : text;
  }

  /** Runs a passage: the run that is going for it as it stands, else a new one; one of the passage as it stood before is cancelled. */
  run(id: string): Parsed<Run> {
    const passage = this.forDesk(id);
    if (!passage.ok) return passage;
    const going = this.runs.goingFor(id);
    if (going !== null) {
      if (going.of === whatIsRun(passage.value)) return good(going);
      this.cancel(going.id);
    }
    const run = this.runs.begin(id, passage.value);
    void this.follow(run, passage.value);
    return good(run);
  }

  private async follow(run: Run, passage: DeskPassage): Promise<void> {
    const told = await this.desk.ask<"run">({ kind: "run", run: run.id, passage, nowAt: this.now() });
    if (!told.ok) return this.runs.tell(run.id, { event: "failed", issues: told.issues });
    const { kept, cancelled } = told.value;
    const boardJson = run.board?.json;
    if (!cancelled && boardJson !== undefined) {
      const key = boardKey(passage);
      this.toKeep.delete(run.passageId);
      this.library.answers.keepBoard(run.passageId, key, boardJson);
      this.lastBoards.set(run.passageId, key);
    }
    if (kept !== null) this.library.answers.enter(kept.key, run.passageId, kept.sizeBytes);
    this.runs.tell(run.id, cancelled ? { event: "cancelled" } : { event: "done" });
  }

  /** Whoever listens hears of it at once; the desk leaves the run after the departure that it is at. */
  cancel(runId: string): void {
    const run = this.runs.get(runId);
    if (run === null || run.end !== null) return;
    void this.desk.ask<"cancel">({ kind: "cancel", run: runId });
    this.runs.tell(runId, { event: "cancelled" });
  }

  /** The board where the departures have been tried, else the run that tries them. Chances that are wanting are run in any case. */
  async board(id: string): Promise<Parsed<{ readonly boardJson: string | null; readonly run: Run | null }>> {
    const passage = this.forDesk(id);
    if (!passage.ok) return passage;
    void this.rehearse(id);
    const key = boardKey(passage.value);
    const kept = this.keptBoard(id, key);
    if (kept !== null) {
      // Once that is on its way the desk opens the passage, for what will be asked next, and runs what it has not kept.
      setImmediate(() => {
        if (this.closed) return;
        void this.toldBoard(key, passage.value).then((told) => told.ok && !told.value.whole && this.run(id));
      });
      return good({ boardJson: kept, run: null });
    }
    const told = await this.toldBoard(key, passage.value);
    if (!told.ok) return told;
    const { json, whole } = told.value;
    if (json !== null && whole) {
      if (this.lastBoards.get(id) !== key) this.keepLater(id, { key, json });
      this.lastBoards.set(id, key);
      return good({ boardJson: json, run: null });
    }
    const run = this.run(id);
    return run.ok ? good({ boardJson: json, run: run.value }) : run;
  }

  /** Whether `board` has an answer at once, of an earlier start or of the build. */
  isBoardKept(id: string): boolean {
    const passage = this.forDesk(id);
    return passage.ok && this.keptBoard(id, boardKey(passage.value)) !== null;
  }

  private keepLater(id: string, board: { readonly key: string; readonly json: string }): void {
    if (this.toKeep.size === 0) setTimeout(() => this.keepBoards(), KEEP_BOARD_AFTER_MILLISECONDS).unref();
    this.toKeep.set(id, board);
  }

  private keepBoards(): void {
    for (const [id, { key, json }] of this.toKeep) this.library.answers.keepBoard(id, key, json);
    this.toKeep.clear();
  }

  /**
   * The board of an earlier start, until the desk has answered in this one. How old a source is stands on it: only what is invented, or was
   * told just now, may be told again.
   */
  private keptBoard(id: string, key: string): string | null {
    if (this.lastBoards.has(id)) return null;
    const entry = this.library.entry(id);
    if (!entry.ok) return null;
    const kept = this.library.answers.boardOf(id, key);
    // Only boards of invented waters are made with the build.
    if (kept === null) return entry.value.invented ? this.builtBoard(key) : null;
    return entry.value.invented || Math.abs(this.now() - kept.madeAt) < TOLD_AGAIN_SECONDS ? kept.json : null;
  }

  /**
   * Edits that nobody asked for, made once and thrown away while the page is at rest: so that the first that is asked for is read as fast as
   * the tenth. The desk rehearses its own part.
   */
  private async rehearse(id: string): Promise<void> {
    const document = this.hasRehearsed ? null : this.document(id);
    if (!document?.ok) return;
    this.hasRehearsed = true;
    const { name } = document.value.passage;
    for (let round = 0; round < REHEARSALS; round++) {
      await new Promise((resolve) => setTimeout(resolve, round === 0 ? REHEARSE_AFTER_MILLISECONDS : REHEARSE_EVERY_MILLISECONDS).unref());
      editEntries(document.value, [{ path: "name", typed: `${name} ${round}` }]);
    }
  }

  private builtBoard(key: string): string | null {
    if (this.builtFolder === null) return null;
    try {
      return readFileSync(join(this.builtFolder, boardFileName(key)), "utf8");
    } catch {
      // It is only a saving: what is not there is judged from the run, or run.
      return null;
    }
  }

  /** The board that was told of a passage as it stands, and the name of a file to keep it under with a build; null: none was. */
  boardToKeep(id: string): { readonly fileName: string; readonly json: string } | null {
    this.keepBoards();
    const key = this.lastBoards.get(id);
    const kept = key === undefined ? null : this.library.answers.boardOf(id, key);
    return key === undefined || kept === null ? null : { fileName: boardFileName(key), json: kept.json };
  }

  /** The sheet of paper for one departure, HTML. */
  paper(passage: DeskPassage, departAt: number): Promise<Parsed<string>> {
    return this.desk.ask<"paper">({ kind: "paper", passage, departAt, nowAt: this.now() });
  }

  /** What a change that is on the disk brings: the board judged anew, or a run; a passage that can't be opened says why in its run. */
  async changed(entry: PassageEntry): Promise<Parsed<Changed>> {
    const going = this.runs.goingFor(entry.id);
    const passage = this.forDesk(entry.id);
    if (going !== null && passage.ok && going.of !== whatIsRun(passage.value)) this.cancel(going.id);
    const board = await this.board(entry.id);
    if (board.ok) return good({ entry, ...board.value });
    const run = this.run(entry.id);
    return run.ok ? good({ entry, boardJson: null, run: run.value }) : run;
  }

  /** Nothing may be asked any more. */
  get isClosed(): boolean {
    return this.closed;
  }

  async close(): Promise<void> {
    this.closed = true;
    for (const run of this.runs.going()) this.runs.tell(run.id, { event: "cancelled" });
    await this.desk.close();
    this.keepBoards();
    this.library.close();
  }
}

const boardFileName = (key: string): string => `${key}.board.json`;

/** What the library writes of a document. */
export function writtenOf({ text, passage: { name, invented } }: PassageDocument): PassageWritten {
  return { text, name, invented };
}

/** What the library writes of a text, where it is a passage. */
export function writtenOfText(text: string): Parsed<PassageWritten> {
  const document = readPassage(text, { name: "the passage" });
  return document.ok ? good(writtenOf(document.value)) : document;
}
