import { afterToldOf, boardToldOf, departureTold, departureToldOf, inspectJson } from "../../api/index.ts";
import { BadInput, bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import { afterArrivalAt, refugesAt, stagingFor, tryDeparture } from "../../core/plan/index.ts";
import { epochSeconds } from "../../core/units/index.ts";
import { paperSheet } from "../../sheet/index.ts";
import { inspectFile, libraryFiles, passageNeeds } from "../../storage/index.ts";
import { fullTime, zoneLabel } from "../../words/index.ts";
import type { DeskAnswers, DeskAsk, DeskProgress, FromDesk } from "./desk-messages.ts";
import { writeKept } from "./kept-file.ts";
import { NewestFirst } from "./newest-first.ts";
import { OpenWork, type WorkOf } from "./open-work.ts";
import { paperStyles } from "./paper-styles.ts";
import type { PassageWork } from "./passage-work.ts";
import { typedFigures } from "./typed-figures.ts";

/** So many departures that were looked at closely are remembered. Some 100 kB each. */
const MOST_REMEMBERED = 60;
/** Progress is told no oftener than this. */
const TOLD_EVERY_MILLISECONDS = 40;
/** Rehearsals begin when the page has what it opens with, and leave time to others between one and the next. */
const REHEARSE_AFTER_MILLISECONDS = 600;
const REHEARSE_EVERY_MILLISECONDS = 15;

/** Answers what is asked of the desk. */
export class DeskWork {
  private readonly open: OpenWork;
  private readonly tell: (message: FromDesk) => void;
  private readonly cancelled = new Set<string>();
  private readonly remembered = new Map<string, string>();
  private readonly closely = new NewestFirst();
  private readonly rehearsed = new WeakSet<PassageWork>();

  constructor(keptFolder: string, builtFolder: string | null, tell: (message: FromDesk) => void) {
    this.open = new OpenWork(keptFolder, builtFolder);
    this.tell = tell;
  }

  /** `id`: the number under which it is asked, by which it may be forgotten. */
  async answer(ask: DeskAsk, id: number): Promise<Parsed<DeskAnswers[keyof DeskAnswers]>> {
    switch (ask.kind) {
      case "cancel":
        this.cancelled.add(ask.run);
        return good(null);
      case "forget":
        this.closely.drop(ask.of);
        return good(null);
      case "inspect":
        return this.inspect(ask);
      case "run":
        return this.run(ask);
      case "board": {
        const opened = await this.open.of(ask.passage);
        if (!opened.ok) return opened;
        void this.rehearse(opened.value);
        return good(this.board(opened.value, ask.nowAt));
      }
      case "departure": {
        const opened = await this.open.of(ask.passage);
        if (!opened.ok) return opened;
        const told = await this.closely.take(id, () => this.departure(opened.value, ask.departAt));
        return told === null ? nobodyWaits() : good(told);
      }
      case "after": {
        const opened = await this.open.of(ask.passage);
        return opened.ok ? good(this.remember("after", opened.value, ask.departAt, () => after(opened.value, ask.departAt))) : opened;
      }
      case "paper": {
        const opened = await this.open.of(ask.passage);
        if (!opened.ok) return opened;
        const html = await this.closely.take(id, () => this.paper(opened.value, ask.departAt, ask.nowAt));
        return html === null ? nobodyWaits() : good(html);
      }
    }
  }

  private board({ document, work }: WorkOf, nowAt: number): DeskAnswers["board"] {
    const judged = work.judge(work.preparedBy(document));
    if (judged === null) return { json: null, whole: false };
    // What is invented lies at times of its own: its age is none of today's.
    const told = boardToldOf(judged.answer, typedFigures(document), document.passage.invented ? null : nowAt, work.sky);
    return { json: JSON.stringify(told), whole: judged.missing.length === 0 };
  }

  /** Judges and tells boards that nobody hears of, once for each passage, while nothing else is asked. */
  private async rehearse({ document, work }: WorkOf): Promise<void> {
    if (!work.isTried || this.rehearsed.has(work)) return;
    this.rehearsed.add(work);
    await restFor(REHEARSE_AFTER_MILLISECONDS);
    for (const answer of work.rehearsals(work.preparedBy(document))) {
      JSON.stringify(boardToldOf(answer, typedFigures(document), null, work.sky));
      await restFor(REHEARSE_EVERY_MILLISECONDS);
    }
  }

  private async run({ run, passage, nowAt }: Extract<DeskAsk, { kind: "run" }>): Promise<Parsed<DeskAnswers["run"]>> {
    const opened = await this.open.of(passage);
    if (!opened.ok) return opened;
    const { document, work } = opened.value;
    const tellBoard = (): void => {
      const { json } = this.board(opened.value, nowAt);
      if (json !== null) this.tell({ run, board: json });
    };
    let toldAt = 0;
    const step = async (progress: DeskProgress): Promise<boolean> => {
      const now = performance.now();
      if (now - toldAt >= TOLD_EVERY_MILLISECONDS || progress.done === progress.of) {
        toldAt = now;
        this.tell({ run, progress });
      }
      // What was asked meanwhile comes first.
      await new Promise((resolve) => setImmediate(resolve));
      return this.cancelled.has(run);
    };
    const stopped = await work.run(work.preparedBy(document), step, tellBoard);
    this.cancelled.delete(run);
    if (stopped) return good({ cancelled: true, kept: null });
    tellBoard();
    const sizeBytes = await writeKept(this.open.keptPath(work.key), work.done(), work.plane);
    return good({ cancelled: false, kept: sizeBytes === null ? null : { key: work.key, sizeBytes } });
  }

  private async inspect({ passage, path, name }: Extract<DeskAsk, { kind: "inspect" }>): Promise<Parsed<DeskAnswers["inspect"]>> {
    const document = this.open.document(passage.text);
    if (!document.ok) return document;
    const stored = passage.files.map((file) => ({ ...file, sizeBytes: 0 }));
    const needs = await passageNeeds(
      document.value,
      "the passage",
      libraryFiles([...stored, { name, hash: "", sizeBytes: 0 }], () => path),
    );
    if (!needs.ok) return needs;
    try {
      const file = await inspectFile(path, { zone: null, issued: null, strikeOutLines: [], needs: needs.value, calledName: name });
      if (!file.ok) return file;
      const { files } = inspectJson([file.value], null);
      const named = needs.value.namedFiles.includes(name);
      return good({ entry: JSON.stringify(files[0]), kind: file.value.kind, named });
    } catch (error) {
      if (error instanceof BadInput) return bad(...error.issues);
      throw error;
    }
  }

  /** The answer that was given before for the same passage, to the letter. */
  private remember(kind: string, one: WorkOf, departAt: number, make: () => string): string {
    const key = keyOf(kind, one, departAt);
    return this.keep(key, this.remembered.get(key) ?? make());
  }

  private keep(key: string, known: string): string {
    this.remembered.delete(key);
    this.remembered.set(key, known);
    for (const oldest of [...this.remembered.keys()].slice(0, -MOST_REMEMBERED)) this.remembered.delete(oldest);
    return known;
  }

  /** One departure looked at closely, giving way between the parts of the work. */
  private async departure(one: WorkOf, departAt: number): Promise<string> {
    const { document, work } = one;
    const key = keyOf("departure", one, departAt);
    const known = this.remembered.get(key);
    if (known !== undefined) return this.keep(key, known);
    const prepared = work.preparedBy(document);
    const answer = work.judge(prepared)?.answer ?? null;
    const close = await work.close(prepared, departAt, answer, giveWay);
    await giveWay();
    return this.keep(key, JSON.stringify(departureToldOf(close, refugesAt(prepared, departAt), answer)));
  }

  /** The sheet of paper; before the departures have been tried, with the one departure for a board. */
  private async paper(one: WorkOf, departAt: number, nowAt: number): Promise<string> {
    const { document, work } = one;
    const told = departureTold.parse(JSON.parse(await this.departure(one, departAt)));
    const prepared = work.preparedBy(document);
    const board = work.judge(prepared)?.answer ?? tryDeparture(prepared, epochSeconds(departAt));
    const zone = document.passage.shipZone;
    return paperSheet(boardToldOf(board, typedFigures(document), document.passage.invented ? null : nowAt, work.sky), told, {
      printedAt: fullTime(nowAt, zone),
      zoneWords: `all times ship's time, ${zoneLabel(departAt, zone)}`,
      styles: paperStyles(),
    });
  }
}

/** Lets what was asked meanwhile be answered first. */
function giveWay(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}

function restFor(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds).unref());
}

function keyOf(kind: string, { document, work }: WorkOf, departAt: number): string {
  return `${kind} ${work.key} ${work.isTried} ${departAt} ${document.text}`;
}

function nobodyWaits(): Parsed<never> {
  return bad(issue("", "desk-lost", "nobody waits for this any more"));
}

function after({ document, work }: WorkOf, departAt: number): string {
  const prepared = work.preparedBy(document);
  const known = work.known(work.judge(prepared)?.answer ?? null, departAt);
  const row = known?.row ?? tryDeparture(prepared, epochSeconds(departAt)).rows[0];
  const berthAt = row?.arrivalAt ?? null;
  const afterArrival = berthAt === null ? null : afterArrivalAt(prepared, departAt, berthAt);
  return JSON.stringify({ sentences: afterToldOf({ prepared, afterArrival, staging: stagingFor(prepared, departAt) }) });
}
