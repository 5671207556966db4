import { sunAltitudeDeg } from "../../earth/index.ts";
import { epochSeconds } from "../../units/index.ts";
import type { KeptChance } from "./kept-chance.ts";
import { ARRIVES, judgeSample, type KeptSamples, type LimitInChance } from "./kept-samples.ts";

/** So many limits are remembered of one set of samples before those of long ago are dropped. */
const MOST_REMEMBERED = 24;

/** How a sample stands to a limit, as `ChanceMemo.judged` gives it. */
export const WITHIN = 0;
export const PAST = 1;
export const UNKNOWN_HERE = 2;

/**
 * What was found of tried crossings before: where one limit of several is changed, only that one is judged again, and what no limit changes
 * is reckoned once. Samples are known by identity, and are not added to any more; a limit by what decides.
 */
export class ChanceMemo {
  private readonly samples = new WeakMap<KeptSamples, Map<string, Uint8Array>>();
  private readonly arrivals = new WeakMap<KeptSamples, Float64Array>();
  private readonly lights = new WeakMap<KeptChance, { readonly at: number; readonly altitudeDeg: number }>();

  /** One of `WITHIN`, `PAST` and `UNKNOWN_HERE` a sample; of those that do not arrive it means nothing. */
  judged(kept: KeptSamples, limit: LimitInChance): Uint8Array {
    const known = this.samples.get(kept) ?? new Map<string, Uint8Array>();
    this.samples.set(kept, known);
    const key = `${limit.felt} ${limit.during} ${limit.toleratedSeconds} ${limit.never} ${limit.never > limit.happy}`;
    let judged = known.get(key);
    if (judged === undefined) {
      judged = new Uint8Array(kept.count);
      for (let sample = 0; sample < kept.count; sample++) {
        const one = judgeSample(kept, sample, limit);
        judged[sample] = one === "within" ? WITHIN : one === "past" ? PAST : UNKNOWN_HERE;
      }
      if (known.size >= MOST_REMEMBERED) known.clear();
      known.set(key, judged);
    }
    return judged;
  }

  /** When those that arrive do, the earliest first, UTC epoch seconds. */
  arrivalsOf(kept: KeptSamples): Float64Array {
    let sorted = this.arrivals.get(kept);
    if (sorted === undefined) {
      sorted = kept.arrivalAt.filter((_, sample) => kept.ends[sample] === ARRIVES).sort();
      this.arrivals.set(kept, sorted);
    }
    return sorted;
  }

  /** The sun's altitude at the berth. */
  altitudeDegAt(kept: KeptChance, at: number): number {
    let light = this.lights.get(kept);
    if (light?.at !== at) {
      light = { at, altitudeDeg: sunAltitudeDeg(epochSeconds(at), kept.berth) };
      this.lights.set(kept, light);
    }
    return light.altitudeDeg;
  }
}
