import type { NoAnswer } from "../answers/index.ts";
import { commonSpans, movedSpans, type OpenSpan, spanAfter, spanAt, spanBefore } from "../calendar/index.ts";
import type { Position } from "../earth/index.ts";
import type { EntranceLack, EntranceReason } from "./entrance/entrance.ts";
import type { Gate } from "./gate.ts";
import { type GateStop, lookedAt } from "./gate-stop.ts";

/** A gate gone through: from when she lay before it, and when she passed. */
export interface GatePassed {
  readonly gate: Gate;
  readonly role: GateStop["role"];
  readonly reachedAt: number;
  readonly passedAt: number;
  /** For a notice: the last instant to give it. */
  readonly noticeBy: number | null;
  readonly fitsUnder: boolean;
}

/** A gate that is shut to a boat. */
export interface GateMissed {
  readonly kind: "missed";
  readonly gate: Gate;
  readonly role: GateStop["role"];
  /** When she is there at the earliest. */
  readonly reachedAt: number;
  /** What of its entrance shuts it then; none for what goes by the clock or by stated times. */
  readonly shutBy: readonly EntranceReason[];
  /** The opening before, and by how much she is late for it; null where there was none. */
  readonly late: { readonly opening: OpenSpan; readonly seconds: number } | null;
  /** The opening after, and how much longer she would have to wait for it than can be waited; null where there is none. */
  readonly early: { readonly opening: OpenSpan; readonly seconds: number } | null;
}

/** What ends a chain: a gate missed, one that never opens in the time looked at, or one of which it is not known. */
export type GateFault = GateMissed | GateUnanswered<"noOpening"> | GateUnanswered<"notGiven">;
interface GateUnanswered<Kind extends string> {
  readonly kind: Kind;
  readonly gate: Gate;
  readonly role: GateStop["role"];
  readonly why: GateNoAnswer;
}
type GateNoAnswer = Extract<NoAnswer, { readonly gate: string }>;

/** A chain of gates gone through from one beginning. */
export interface ChainRun {
  readonly startAt: number;
  /** In order; those behind a fault are left out. */
  readonly passed: readonly GatePassed[];
  /** Null where all are passed. */
  readonly fault: GateFault | null;
  /** Until when the leg may be begun so that all are still passed, and what shuts then; null where nothing shuts in the time looked at, or there is a fault. */
  readonly shuts: { readonly at: number; readonly gate: Gate } | null;
}

/**
 * The gates of one leg, in order. A boat passes each while it is open, and lies before it no longer than can be waited there. Of all that
 * can be done she does what brings her through the last one soonest, and waits as late as that allows: before the gate that is shut
 * where she can, else before an earlier one.
 */
export class GateChain {
  readonly stops: readonly GateStop[];
  private readonly where: Position;
  private readonly starts = new Map<number, readonly OpenSpan[]>();

  /** `where`: the place that answers are told of. */
  constructor(stops: readonly GateStop[], where: Position) {
    this.stops = stops.toSorted((a, b) => a.afterSeconds - b.afterSeconds);
    this.where = where;
  }

  run(startAt: number): ChainRun {
    const open = this.goThrough(startAt, (stop) => stop.spans(startAt).open);
    if (open.kind === "through") {
      const passed = this.scheduleOf(startAt, open.arrivals);
      return { startAt, passed, fault: null, shuts: this.shutsAfter(startAt) };
    }
    const passed = this.scheduleOf(startAt, open.arrivals);
    const maybe = this.goThrough(startAt, (stop) => stop.spans(startAt).maybe);
    if (maybe.kind === "through") return { startAt, passed, fault: this.notKnown(open.at, open.reached, "notGiven"), shuts: null };
    // Shut whatever is not known.
    return { startAt, passed: passed.slice(0, maybe.at), fault: this.missed(startAt, maybe.at, maybe.reached), shuts: null };
  }

  /** From when to when the leg may be begun so that every gate is passed, within what is looked at for `startAt`. */
  passableStarts(startAt: number): readonly OpenSpan[] {
    const within = lookedAt(startAt);
    const before = this.starts.get(within.from);
    if (before !== undefined) return before;
    // Backward: a gate may be reached so long before it is passed as can be waited there.
    let starts: readonly OpenSpan[] = [within];
    for (let k = this.stops.length - 1; k >= 0; k--) {
      const stop = this.stops[k] as GateStop;
      const earlier = this.stops[k - 1]?.afterSeconds ?? 0;
      const reached = movedSpans(commonSpans(starts, stop.spans(startAt).open), -stop.waitSeconds, 0);
      starts = movedSpans(reached, earlier - stop.afterSeconds);
    }
    this.starts.set(within.from, starts);
    return starts;
  }

  private shutsAfter(startAt: number): ChainRun["shuts"] {
    const last = this.stops[this.stops.length - 1];
    const at = spanAt(this.passableStarts(startAt), startAt)?.until ?? startAt;
    if (last === undefined || at + last.afterSeconds >= lookedAt(startAt).until) return null;
    const late = this.goThrough(at + 1, (stop) => stop.spans(startAt).open);
    return { at, gate: (late.kind === "stuck" ? (this.stops[late.at] as GateStop) : last).gate };
  }

  /** All instants at which each gate can be passed, as far as the chain goes. */
  private goThrough(startAt: number, spansOf: (stop: GateStop) => readonly OpenSpan[]): Through | Stuck {
    const arrivals: Reach[] = [];
    let leaves: readonly OpenSpan[] = [{ from: startAt, until: startAt }];
    let before = 0;
    for (const [at, stop] of this.stops.entries()) {
      const reached = movedSpans(leaves, stop.afterSeconds - before);
      leaves = commonSpans(movedSpans(reached, 0, stop.waitSeconds), spansOf(stop));
      if (leaves.length === 0) return { kind: "stuck", arrivals, at, reached };
      arrivals.push({ reached, passes: leaves });
      before = stop.afterSeconds;
    }
    return { kind: "through", arrivals };
  }

  /** Backward from the soonest passing of the last gate gone through: each gate reached as early as serves. */
  private scheduleOf(startAt: number, arrivals: readonly Reach[]): readonly GatePassed[] {
    const passed: GatePassed[] = [];
    let passedAt = arrivals[arrivals.length - 1]?.passes[0]?.from ?? startAt;
    for (let k = arrivals.length - 1; k >= 0; k--) {
      const stop = this.stops[k] as GateStop;
      const { reached } = arrivals[k] as Reach;
      const reachedAt = soonestFrom(reached, passedAt - stop.waitSeconds, passedAt);
      const { gate, role, fitsUnder } = stop;
      passed.unshift({ gate, role, reachedAt, passedAt, noticeBy: stop.noticeBy(passedAt), fitsUnder });
      passedAt = reachedAt - (stop.afterSeconds - (this.stops[k - 1]?.afterSeconds ?? 0));
    }
    return passed;
  }

  private missed(startAt: number, at: number, reached: readonly OpenSpan[]): GateFault {
    const stop = this.stops[at] as GateStop;
    const { open } = stop.spans(startAt);
    const reachedAt = (reached[0] as OpenSpan).from;
    const latest = (reached[reached.length - 1] as OpenSpan).until + stop.waitSeconds;
    const before = spanBefore(open, reachedAt);
    const after = spanAfter(open, reachedAt);
    if (before === null && after === null) return this.notKnown(at, reached, "noOpening");
    return {
      kind: "missed",
      gate: stop.gate,
      role: stop.role,
      reachedAt,
      shutBy: stop.entranceAt(reachedAt)?.reasons.filter((reason) => reason.kind !== "notJudged") ?? [],
      late: before === null ? null : { opening: before, seconds: reachedAt - before.until },
      early: after === null ? null : { opening: after, seconds: Math.max(0, after.from - latest) },
    };
  }

  private notKnown(at: number, reached: readonly OpenSpan[], kind: "noOpening" | "notGiven"): GateFault {
    const stop = this.stops[at] as GateStop;
    const { gate, role } = stop;
    const reachedAt = (reached[0] as OpenSpan).from;
    const given = kind === "noOpening" ? lookedAt(reachedAt) : stop.given();
    const of = {
      kind: "noAnswer",
      gate: gate.name,
      at: reachedAt,
      where: this.where,
      coveredFrom: given?.from ?? null,
      coveredUntil: given?.until ?? null,
    } as const;
    const lacks = kind === "notGiven" ? lacksOf(stop, reachedAt) : [];
    const why: GateNoAnswer =
      lacks.length > 0
        ? { ...of, code: "entrance-not-judged", lacks }
        : { ...of, code: kind === "noOpening" ? "gate-no-opening" : "gate-times-not-given" };
    return { kind, gate, role, why };
  }
}

/** When a gate can be reached, and when it can be passed. */
interface Reach {
  readonly reached: readonly OpenSpan[];
  readonly passes: readonly OpenSpan[];
}
interface Through {
  readonly kind: "through";
  readonly arrivals: readonly Reach[];
}
interface Stuck {
  readonly kind: "stuck";
  readonly arrivals: readonly Reach[];
  /** The gate she can't pass, and when she can be there. */
  readonly at: number;
  readonly reached: readonly OpenSpan[];
}

/** What is not known of a gate's entrance at an instant. */
function lacksOf(stop: GateStop, at: number): readonly EntranceLack[] {
  const reasons = stop.entranceAt(at)?.reasons ?? [];
  return [...new Set(reasons.flatMap((reason) => (reason.kind === "notJudged" ? [reason.lacks] : [])))];
}

/** The first instant of a set from `from` on; `latest` is in it where rounding leaves none. */
function soonestFrom(spans: readonly OpenSpan[], from: number, latest: number): number {
  for (const span of spans) if (span.until >= from) return Math.min(latest, Math.max(span.from, from));
  return latest;
}
