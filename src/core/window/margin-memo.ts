import type { Exposure } from "./exposure.ts";
import type { Margin } from "./judged.ts";
import type { Limit } from "./limit.ts";
import { type CoveredSpan, judge, passesNever } from "./margin.ts";

/** So many limits are remembered of one exposure before those of long ago are dropped. */
const MOST_REMEMBERED = 48;

interface Remembered {
  readonly margins: Map<string, Margin>;
  readonly passes: Map<string, boolean>;
}

/**
 * Margins that were judged before: where one limit of several is changed, the others are not judged again. For exposures of one passage,
 * whose sources cover the same time whenever they are asked. Exposures are known by identity; a limit by its figures.
 */
export class MarginMemo {
  private readonly known = new WeakMap<Exposure, Remembered>();

  /** As `judge`. The margin's own limit has the same figures, and may be an older object. */
  judge(exposure: Exposure, limit: Limit, key: string, covers: CoveredSpan | null): Margin {
    const { margins } = this.of(exposure);
    let margin = margins.get(key);
    if (margin === undefined) {
      margin = judge(exposure, limit, covers);
      if (margins.size >= MOST_REMEMBERED) margins.clear();
      margins.set(key, margin);
    }
    return margin;
  }

  /** As `passesNever`. */
  passesNever(exposure: Exposure, limit: Limit, key: string): boolean {
    const { passes } = this.of(exposure);
    let passed = passes.get(key);
    if (passed === undefined) {
      passed = passesNever(exposure, limit);
      if (passes.size >= MOST_REMEMBERED) passes.clear();
      passes.set(key, passed);
    }
    return passed;
  }

  private of(exposure: Exposure): Remembered {
    let known = this.known.get(exposure);
    if (known === undefined) {
      known = { margins: new Map(), passes: new Map() };
      this.known.set(exposure, known);
    }
    return known;
  }
}

/** The figures that make a limit, as a text that is the same where they are. */
export function limitFigures(limit: Limit): string {
  const { felt, happy, never, during, toleratedSeconds } = limit;
  return `${felt} ${happy} ${never} ${during} ${toleratedSeconds} ${limit.during === "once" ? (limit.calmMps ?? "") : ""}`;
}
