import type { Exposure } from "./exposure.ts";
import type { Margin } from "./judged.ts";
import { isMaximum, isOnce, type Limit } from "./limit.ts";
import { type CoveredSpan, type Extreme, extremeOf, judge, passesNever } from "./margin.ts";

/** So many limits are remembered; of more those asked about longest ago go. */
const MOST_REMEMBERED = 48;

/**
 * Margins that were judged before: where one limit of several is changed, the others are not judged again, and of the changed one what its
 * figures do not alter is known. For exposures of one passage, whose sources cover the same time whenever they are asked. Exposures are
 * known by identity; a limit by its figures.
 */
export class MarginMemo {
  private readonly places = new WeakMap<Exposure, number>();
  private count = 0;
  private readonly limits = new Map<string, LimitMemo>();
  private readonly extremes = new Map<string, Extreme[]>();

  /** The place of an exposure in what is remembered. */
  placeOf(exposure: Exposure): number {
    const known = this.places.get(exposure);
    if (known !== undefined) return known;
    const place = this.count++;
    this.places.set(exposure, place);
    return place;
  }

  /** What is remembered of a limit; `covers` as for `judge`. */
  of(limit: Limit, covers: CoveredSpan | null): LimitMemo {
    const key = limitFigures(limit);
    const known = this.limits.get(key) ?? new LimitMemo(limit, covers, this.extremesFor(limit));
    this.limits.delete(key);
    this.limits.set(key, known);
    for (const oldest of [...this.limits.keys()].slice(0, -MOST_REMEMBERED)) this.limits.delete(oldest);
    return known;
  }

  private extremesFor(limit: Limit): Extreme[] {
    const key = `${limit.felt} ${limit.during} ${isMaximum(limit)}`;
    const known = this.extremes.get(key) ?? [];
    this.extremes.set(key, known);
    return known;
  }
}

/** One limit on all exposures that were judged by it. Every margin is of `limit` itself, the first of these figures. */
export class LimitMemo {
  private readonly limit: Limit;
  private readonly covers: CoveredSpan | null;
  private readonly extremes: Extreme[];
  private readonly margins: Margin[] = [];
  private readonly passes: boolean[] = [];

  constructor(limit: Limit, covers: CoveredSpan | null, extremes: Extreme[]) {
    this.limit = limit;
    this.covers = covers;
    this.extremes = extremes;
  }

  /** As the function `judge`; `place` is the exposure's. */
  judge(exposure: Exposure, place: number): Margin {
    const known = this.margins[place];
    if (known !== undefined) return known;
    const margin = judge(exposure, this.limit, this.covers, this.extreme(exposure, place));
    this.margins[place] = margin;
    return margin;
  }

  /** As the function `passesNever`. */
  passesNever(exposure: Exposure, place: number): boolean {
    const known = this.passes[place];
    if (known !== undefined) return known;
    const passed = passesNever(exposure, this.limit, this.extreme(exposure, place));
    this.passes[place] = passed;
    return passed;
  }

  private extreme(exposure: Exposure, place: number): Extreme | null {
    if (isOnce(this.limit)) return null;
    const known = this.extremes[place] ?? extremeOf(exposure, this.limit);
    this.extremes[place] = known;
    return known;
  }
}

/** The figures that make a limit, as a text that is the same where they are. */
function limitFigures(limit: Limit): string {
  const { felt, happy, never, during, toleratedSeconds } = limit;
  return `${felt} ${happy} ${never} ${during} ${toleratedSeconds} ${limit.during === "once" ? (limit.calmMps ?? "") : ""}`;
}
