import type { OpenSpan } from "../calendar/index.ts";
import { spanAt, spanBefore } from "../calendar/index.ts";
import type { Position } from "../earth/index.ts";
import { fitsUnder, type Gate } from "./gate.ts";
import { arrivalsWithNotice, givenSpan, type NeedSpans, needsTogether } from "./gate-needs.ts";

/** Openings are looked for from two days before until a week after the day on which a leg is begun, seconds (common practice: no passage waits longer). */
export const LOOKS_BACK_SECONDS = 2 * 86400;
export const LOOKS_AHEAD_SECONDS = 7 * 86400;
/** An office is told no earlier than this before the arrival where it does not say, seconds: what the time looked at holds. */
const EARLIEST_NOTICE_SECONDS = LOOKS_BACK_SECONDS;

/** The stretch of time in which openings are looked for when a leg is begun at an instant; the same all day. */
export function lookedAt(startAt: number): OpenSpan {
  const day = Math.floor(startAt / 86400) * 86400;
  return { from: day - LOOKS_BACK_SECONDS, until: day + 86400 + LOOKS_AHEAD_SECONDS };
}

/** One thing to be passed on a leg: a gate itself, or the notice that an office wants. */
export class GateStop {
  readonly gate: Gate;
  readonly role: "gate" | "notice";
  /** Under way from the leg's beginning, waiting left out. */
  readonly afterSeconds: number;
  readonly waitSeconds: number;
  /** The boat goes under without an opening. */
  readonly fitsUnder: boolean;
  private readonly where: Position;
  private readonly kept = new Map<number, NeedSpans>();

  constructor(gate: Gate, role: "gate" | "notice", afterSeconds: number, where: Position, airDraughtMetres: number | null) {
    this.gate = gate;
    this.role = role;
    this.afterSeconds = afterSeconds;
    this.waitSeconds = role === "notice" ? 0 : gate.waitSeconds;
    this.fitsUnder = fitsUnder(gate, airDraughtMetres);
    this.where = where;
  }

  /** When it may be passed within what is looked at for a leg begun at `startAt`. */
  spans(startAt: number): NeedSpans {
    const within = lookedAt(startAt);
    const before = this.kept.get(within.from);
    if (before !== undefined) return before;
    const made = this.role === "notice" ? this.noticeSpans(within) : needsTogether(this.needs(), within, this.where);
    this.kept.set(within.from, made);
    return made;
  }

  /** What the skipper's own values cover, for the answer where they do not reach; null where nothing depends on any. */
  given(): OpenSpan | null {
    const spans = this.needs().flatMap((need) => givenSpan(need) ?? []);
    if (spans.length === 0) return null;
    return { from: Math.max(...spans.map((one) => one.from)), until: Math.min(...spans.map((one) => one.until)) };
  }

  /** The last instant at which an office can be told of an arrival: within its hours, as long before as it asks; null where there is none. */
  noticeBy(arrivalAt: number): number | null {
    const notice = this.gate.office?.notice ?? null;
    if (this.role !== "notice" || notice === null) return null;
    const latest = arrivalAt - notice.leastSeconds;
    const { open } = needsTogether(this.needs(), this.hoursBefore(lookedAt(arrivalAt), notice.mostSeconds), this.where);
    return spanAt(open, latest) !== null ? latest : (spanBefore(open, latest)?.until ?? null);
  }

  private needs(): Gate["needs"] {
    return this.fitsUnder ? this.gate.needs.filter(({ kind }) => kind !== "clock" && kind !== "notDuring") : this.gate.needs;
  }

  private noticeSpans(within: OpenSpan): NeedSpans {
    const notice = this.gate.office?.notice;
    if (notice == null) throw new Error(`no notice is wanted at ${this.gate.name}`);
    const most = notice.mostSeconds ?? Math.max(EARLIEST_NOTICE_SECONDS, notice.leastSeconds);
    const { open, maybe } = needsTogether(this.needs(), this.hoursBefore(within, notice.mostSeconds), this.where);
    const arrivals = (hours: readonly OpenSpan[]): readonly OpenSpan[] => arrivalsWithNotice(hours, notice.leastSeconds, most);
    return { open: arrivals(open), maybe: arrivals(maybe) };
  }

  private hoursBefore({ from, until }: OpenSpan, mostSeconds: number | null): OpenSpan {
    return { from: from - Math.max(mostSeconds ?? 0, LOOKS_BACK_SECONDS), until };
  }
}
