import { type EpochSeconds, epochSeconds } from "../../units/index.ts";
import { curveZeroes } from "./curve-zeroes.ts";
import type { TideCurve } from "./tide-curve.ts";

/** A high or a low water: its instant, to a second, and its height above the datum of its curve, metres. */
export interface TideTurn {
  readonly kind: "high" | "low";
  readonly at: EpochSeconds;
  readonly heightMetres: number;
}

/**
 * Every high and low water in [from, until), in order of time, highs and lows in turn: also the second ones of a double tide and the
 * single ones of a diurnal day. Two that stand less than a second apart are left out together.
 */
export function highsAndLows(curve: TideCurve, from: EpochSeconds, until: EpochSeconds): readonly TideTurn[] {
  return curveZeroes(curve, "rate", 0, from, until).map(({ at, rising }) => {
    const instant = epochSeconds(at);
    return { kind: rising ? "low" : "high", at: instant, heightMetres: curve.heightAt(instant) };
  });
}

/**
 * The turns that a printed table would give: pairs of a high and a low that differ by less than `leastRangeMetres` are taken out, the
 * smallest first, until none is left (a stand of the tide with a ripple on it is one high or one low, the outermost). Highs and
 * lows still come in turn.
 */
export function withoutRipples(turns: readonly TideTurn[], leastRangeMetres: number): readonly TideTurn[] {
  const kept = [...turns];
  for (;;) {
    let at = -1;
    let least = leastRangeMetres;
    for (let i = 0; i + 1 < kept.length; i++) {
      const range = Math.abs((kept[i + 1] as TideTurn).heightMetres - (kept[i] as TideTurn).heightMetres);
      if (range < least) [at, least] = [i, range];
    }
    if (at < 0) return kept;
    kept.splice(at, 2);
  }
}

/** An instant at which the water passes a level, and whether it rises there. */
export interface LevelCrossing {
  readonly at: EpochSeconds;
  readonly rising: boolean;
}

/** Every instant in [from, until) at which the water passes a level, metres above the curve's datum, in order of time, none missed. */
export function levelCrossings(curve: TideCurve, levelMetres: number, from: EpochSeconds, until: EpochSeconds): readonly LevelCrossing[] {
  return curveZeroes(curve, "height", levelMetres, from, until).map(({ at, rising }) => ({ at: epochSeconds(at), rising }));
}
