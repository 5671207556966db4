import { BoardSky } from "../../api/index.ts";
import {
  type CloseWays,
  type CrossAnswer,
  closeAt,
  closeJudged,
  closeWays,
  departureTimes,
  judgeLeave,
  type KeepTask,
  keepTasks,
  type LeaveAnswer,
  LeaveWork,
  ordersToTry,
  type Passage,
  type Prepared,
} from "../../core/plan/index.ts";
import type { EpochSeconds } from "../../core/units/index.ts";
import {
  ChanceMemo,
  chanceOf,
  type KeptChance,
  type KeptDeparture,
  keepChance,
  MarginMemo,
  type OrderToTry,
} from "../../core/window/index.ts";
import type { PassageDocument } from "../../formats/passage/index.ts";
import type { OpenedPassage } from "../../storage/index.ts";
import type { DeskProgress } from "./desk-messages.ts";
import { tolerationsOf } from "./run-key.ts";

/** So many departures that were looked at closely are held, some 300 kB each. */
const MOST_CLOSE = 40;
/** After so many boards judging grows no faster. Measured. */
const REHEARSALS = 16;
const A_LITTLE = 0.001;

/** What a run has brought so far, as it is stored. */
export interface WorkDone {
  readonly departures: readonly number[];
  readonly kept: readonly (KeptDeparture | null)[];
  readonly tolerations: string;
  readonly chances: readonly (readonly [number, KeptChance])[];
}

/** What was judged before. */
interface Memory {
  readonly margins: MarginMemo;
  readonly chances: ChanceMemo;
}

/** A board, and the orders whose chances are still wanting on it. */
export interface Judged {
  readonly answer: LeaveAnswer;
  readonly missing: readonly OrderToTry[];
}

/** Told after each piece of work; answers whether to stop. */
export type Step = (progress: DeskProgress) => Promise<boolean>;

/**
 * One passage with all its files open, and what has been run of it, whatever its limits: a run does what is missing and may be left at any
 * time without loss; a board is judged from what is there.
 */
export class PassageWork {
  readonly key: string;
  private readonly opened: OpenedPassage;
  private readonly departures: readonly EpochSeconds[];
  private readonly tasks: readonly KeepTask[];
  private readonly places: ReadonlyMap<number, number>;
  private readonly kept: (KeptDeparture | null)[];
  private readonly chances = new Map<number, KeptChance>();
  private tolerations = "";
  private judgedLast: { limits: Passage["limits"]; chances: number; tolerations: string; judged: Judged } | null = null;
  /** Ends with the run that was begun last. */
  private busy: Promise<void> = Promise.resolve();
  private readonly memo: Memory = { margins: new MarginMemo(), chances: new ChanceMemo() };
  private readonly closely = new Map<number, CloseWays>();
  /** Sun and light over the board. */
  readonly sky: BoardSky;

  constructor(key: string, opened: OpenedPassage) {
    this.key = key;
    this.opened = opened;
    this.sky = new BoardSky(opened.prepared.passage);
    this.departures = departureTimes(opened.prepared);
    this.tasks = keepTasks(this.departures);
    this.places = new Map(this.departures.map((at, place) => [at, place]));
    this.kept = this.tasks.map(() => null);
  }

  get plane(): Prepared["plane"] {
    return this.opened.prepared.plane;
  }

  get isTried(): boolean {
    return this.kept.every((one) => one !== null);
  }

  /** The passage with the limits of a document that differs in nothing else. */
  preparedBy({ passage: { limits } }: PassageDocument): Prepared {
    const { prepared } = this.opened;
    const passage: Passage = { ...prepared.passage, limits };
    return { ...prepared, passage };
  }

  /** The board by a document's limits, with the chances that are known; null while departures are still to be tried. */
  judge(prepared: Prepared): Judged | null {
    if (!this.isTried) return null;
    const { limits } = prepared.passage;
    const known = this.judgedLast;
    // The limits of a text that was read once are one list, and chances are only ever added.
    if (known !== null && known.limits === limits && known.chances === this.chances.size && known.tolerations === this.tolerations) {
      return known.judged;
    }
    const judged = this.judgeAnew(prepared);
    this.judgedLast = { limits, chances: this.chances.size, tolerations: this.tolerations, judged };
    return judged;
  }

  /**
   * Boards by limits that nobody asked for, each a little off those of the passage, to be thrown away: so that the first limit that is edited
   * is judged as fast as the tenth, by code that has been running. Nothing while departures are still to be tried.
   */
  *rehearsals(prepared: Prepared): Generator<LeaveAnswer> {
    const { limits } = prepared.passage;
    const memo: Memory = { margins: new MarginMemo(), chances: new ChanceMemo() };
    for (let round = 0; round < REHEARSALS && this.isTried; round++) {
      const edited = limits.map((limit, i) => (i === round % limits.length ? movedNever(limit, (round + 1) * A_LITTLE) : limit));
      yield this.judgeAnew({ ...prepared, passage: { ...prepared.passage, limits: edited } }, memo).answer;
    }
  }

  private judgeAnew(prepared: Prepared, memo = this.memo): Judged {
    const { limits } = prepared.passage;
    const board = judgeLeave(prepared, this.departures, this.allKept(), memo.margins);
    const fit = this.tolerations === tolerationsOf(prepared.passage);
    const keptChances = board.rows.map(({ departAt, verdict }) =>
      fit && verdict.kind !== "closed" ? (this.chances.get(departAt) ?? null) : null,
    );
    const missing = ordersToTry(board).filter(({ departAt }) => !fit || !this.chances.has(departAt));
    const chances = keptChances.map((kept) => (kept === null ? null : chanceOf(kept, limits, memo.chances)));
    return { answer: { ...board, keptChances, chances }, missing };
  }

  /** The departure and its line, where it stands on the board. */
  known(answer: LeaveAnswer | null, departAt: number): { kept: KeptDeparture; row: LeaveAnswer["rows"][number] } | null {
    const place = this.places.get(departAt) ?? -1;
    const [kept, row] = [this.kept[place] ?? null, answer?.rows[place]];
    return kept === null || row === undefined ? null : { kept, row };
  }

  /**
   * One departure looked at closely; what no limit changes is reckoned once, and `giveWay` is awaited between its parts. `answer`: the board
   * by the same limits, where there is one.
   */
  async close(prepared: Prepared, departAt: number, answer: LeaveAnswer | null, giveWay: () => Promise<void>): Promise<CrossAnswer> {
    const known = this.known(answer, departAt);
    if (known === null) return closeAt(prepared, departAt, null);
    let made = this.closely.get(departAt) ?? null;
    const steps = closeWays(prepared, departAt, known.kept);
    while (made === null) {
      const step = steps.next();
      if (step.done === true) made = step.value;
      else await giveWay();
    }
    this.closely.delete(departAt);
    this.closely.set(departAt, made);
    for (const oldest of [...this.closely.keys()].slice(0, -MOST_CLOSE)) this.closely.delete(oldest);
    return closeJudged(prepared, made, known);
  }

  /**
   * Does what is missing, one departure a step; between steps it waits for `step`, which stops it by answering true. `tried` hears of the
   * board once every departure has been tried and chances are still to come. One run at a time: another waits, and finds that done which the
   * first did. Answers whether it was stopped.
   */
  async run(prepared: Prepared, step: Step, tried: () => void): Promise<boolean> {
    const before = this.busy;
    let free = (): void => {};
    this.busy = new Promise((resolve) => {
      free = resolve;
    });
    await before;
    try {
      return await this.runMissing(prepared, step, tried);
    } finally {
      free();
    }
  }

  private async runMissing(prepared: Prepared, step: Step, tried: () => void): Promise<boolean> {
    const work = new LeaveWork(prepared);
    const tasks = this.tasks.map((task, place) => ({ ...task, place })).filter(({ place }) => this.kept[place] === null);
    const of = this.tasks.length;
    let done = this.tasks.length - tasks.length;
    for (const { departAt, onlyLater, place } of tasks) {
      this.kept[place] = work.keep(departAt, onlyLater);
      done++;
      if (await step({ done, of, stage: "departures" })) return true;
    }
    const tolerations = tolerationsOf(prepared.passage);
    if (this.tolerations !== tolerations) {
      this.chances.clear();
      this.tolerations = tolerations;
    }
    const missing = this.judge(prepared)?.missing ?? [];
    if (missing.length > 0) tried();
    for (const [i, order] of missing.entries()) {
      const place = this.places.get(order.departAt) ?? -1;
      this.chances.set(order.departAt, keepChance(work.tryOrder(order), this.kept[place] as KeptDeparture, prepared.passage.limits));
      if (await step({ done: i + 1, of: missing.length, stage: "chances" })) return true;
    }
    return false;
  }

  /** All that was done, for the next start. */
  done(): WorkDone {
    return {
      departures: this.tasks.map(({ departAt }) => departAt),
      kept: this.kept,
      tolerations: this.tolerations,
      chances: [...this.chances],
    };
  }

  /** Takes what was done before; anything that does not fit is left, and run anew. */
  take({ departures, kept, tolerations, chances }: WorkDone): void {
    if (departures.length !== this.tasks.length || this.tasks.some(({ departAt }, i) => departAt !== departures[i])) return;
    kept.forEach((one, i) => {
      this.kept[i] = one;
    });
    this.tolerations = tolerations;
    for (const [at, chance] of chances) this.chances.set(at, chance);
  }

  private allKept(): readonly KeptDeparture[] {
    return this.kept.filter((one): one is KeptDeparture => one !== null);
  }
}

function movedNever<L extends Passage["limits"][number]>(limit: L, share: number): L {
  return { ...limit, never: limit.never + share * (limit.never - limit.happy) };
}
