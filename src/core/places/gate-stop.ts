import type { OpenSpan } from "../calendar/index.ts";
import { spanAt, spanBefore } from "../calendar/index.ts";
import type { Position } from "../earth/index.ts";
import type { Entrance, EntranceReading } from "./entrance/entrance.ts";
import { type EntranceStates, statesOfEntrance } from "./entrance/entrance-states.ts";
import { type EntrancePlace, type EntranceSurroundings, forecastSpan } from "./entrance/entrance-water.ts";
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

/** Where a gate is passed, and what its entrance is judged with; `around` null: the passage has nothing of the kind. */
export interface StopPlace extends EntrancePlace {
  readonly around: EntranceSurroundings | null;
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
  private readonly place: StopPlace;
  private readonly kept = new Map<number, NeedSpans>();

  constructor(gate: Gate, role: "gate" | "notice", afterSeconds: number, place: StopPlace, airDraughtMetres: number | null) {
    this.gate = gate;
    this.role = role;
    this.afterSeconds = afterSeconds;
    this.waitSeconds = role === "notice" ? 0 : gate.waitSeconds;
    this.fitsUnder = fitsUnder(gate, airDraughtMetres);
    this.place = place;
  }

  /** When it may be passed within what is looked at for a leg begun at `startAt`. */
  spans(startAt: number): NeedSpans {
    const within = lookedAt(startAt);
    const before = this.kept.get(within.from);
    if (before !== undefined) return before;
    const made = this.role === "notice" ? this.noticeSpans(within) : this.needsWithin(within);
    this.kept.set(within.from, made);
    return made;
  }

  /** What the skipper's own values cover, for the answer where they do not reach; null where nothing depends on any. */
  given(): OpenSpan | null {
    const spans = this.needs().flatMap((need) => this.givenOf(need) ?? []);
    if (spans.length === 0) return null;
    return { from: Math.max(...spans.map((one) => one.from)), until: Math.min(...spans.map((one) => one.until)) };
  }

  /** The last instant at which an office can be told of an arrival: within its hours, as long before as it asks; null where there is none. */
  noticeBy(arrivalAt: number): number | null {
    const notice = this.gate.office?.notice ?? null;
    if (this.role !== "notice" || notice === null) return null;
    const latest = arrivalAt - notice.leastSeconds;
    const { open } = this.needsWithin(this.hoursBefore(lookedAt(arrivalAt), notice.mostSeconds));
    return spanAt(open, latest) !== null ? latest : (spanBefore(open, latest)?.until ?? null);
  }

  /** Where it is passed. */
  get where(): Position {
    return this.place.where;
  }

  /** What it asks of a boat: one that fits under needs no opening. */
  needs(): Gate["needs"] {
    return this.fitsUnder ? this.gate.needs.filter(({ kind }) => kind !== "clock" && kind !== "notDuring") : this.gate.needs;
  }

  /** The figures of its entrance at an instant; null for a gate that is none. */
  entranceAt(at: number): EntranceReading | null {
    const need = this.needs().find((one) => one.kind === "entrance");
    return need === undefined || this.role === "notice" ? null : this.statesOf(need.entrance).reader.at(at);
  }

  /** The states of an entrance among its needs. */
  readonly statesOf = (entrance: Entrance): EntranceStates => {
    const { around } = this.place;
    if (around === null) throw new Error(`${this.gate.name} is an entrance without tides, streams and weather`);
    return statesOfEntrance(entrance, around, this.place);
  };

  private needsWithin(within: OpenSpan): NeedSpans {
    return needsTogether(this.needs(), within, this.where, this.statesOf);
  }

  private givenOf(need: Gate["needs"][number]): OpenSpan | null {
    if (need.kind !== "entrance") return givenSpan(need);
    return this.place.around === null ? null : forecastSpan(need.entrance, this.place.around);
  }

  private noticeSpans(within: OpenSpan): NeedSpans {
    const notice = this.gate.office?.notice;
    if (notice == null) throw new Error(`no notice is wanted at ${this.gate.name}`);
    const most = notice.mostSeconds ?? Math.max(EARLIEST_NOTICE_SECONDS, notice.leastSeconds);
    const { open, maybe } = this.needsWithin(this.hoursBefore(within, notice.mostSeconds));
    const arrivals = (hours: readonly OpenSpan[]): readonly OpenSpan[] => arrivalsWithNotice(hours, notice.leastSeconds, most);
    return { open: arrivals(open), maybe: arrivals(maybe) };
  }

  private hoursBefore({ from, until }: OpenSpan, mostSeconds: number | null): OpenSpan {
    return { from: from - Math.max(mostSeconds ?? 0, LOOKS_BACK_SECONDS), until };
  }
}
