import { AstroTime, NextMoonQuarter, SearchMoonQuarter } from "astronomy-engine";
import { type EpochSeconds, epochSeconds } from "../../units/index.ts";
import { highsAndLows, type TideTurn } from "./highs-and-lows.ts";
import type { TideCurve } from "./tide-curve.ts";
import { knownConstants, type TideStation } from "./tide-station.ts";

const DAY = 86400;
/** The greatest or least range is looked for from so long before the phase to so long after it: springs come late, a day or two commonly. */
const BEFORE_PHASE_SECONDS = 2.5 * DAY;
const AFTER_PHASE_SECONDS = 4.5 * DAY;
/** Ranges are taken over a lunar day, four turns, so that a high that is followed by a lesser one doesn't pass for springs. */
const TURNS_A_LUNAR_DAY = 4;
/** Above this form number the tide goes by the moon's declination and not by its phase (A. Courtier, 1938; common practice). */
const MAINLY_DIURNAL_FORM = 1.5;

const PHASES = ["new", "first quarter", "full", "last quarter"] as const;

export interface MoonPhase {
  readonly phase: (typeof PHASES)[number];
  readonly at: EpochSeconds;
}

/** New and full moons and quarters in [from, until), in order of time. */
export function moonPhases(from: EpochSeconds, until: EpochSeconds): readonly MoonPhase[] {
  const phases: MoonPhase[] = [];
  let next = SearchMoonQuarter(new AstroTime(new Date(from * 1000)));
  for (;;) {
    const at = epochSeconds(next.time.date.getTime() / 1000);
    const phase = PHASES[next.quarter];
    if (phase === undefined) throw new Error(`no quarter of the moon: ${next.quarter}`);
    if (at >= until) return phases;
    phases.push({ phase, at });
    next = NextMoonQuarter(next);
  }
}

/** Mean ranges and the form of a station's tide. */
export interface TideForm {
  /** (K1 + O1)/(M2 + S2): below 0.25 semidiurnal, to 1.5 mixed, to 3 mixed and mainly diurnal, above that diurnal. */
  readonly formNumber: number;
  /** 2(M2 + S2), metres. */
  readonly meanSpringRangeMetres: number;
  /** 2|M2 − S2|, metres. */
  readonly meanNeapRangeMetres: number;
}

/** The form of a station's tide from its constants; null where it has no M2, or its constants can't be used. */
export function tideForm(station: TideStation): TideForm | null {
  const constants = knownConstants(station);
  if (!constants.ok) return null;
  const of = (name: string): number => constants.value.find(({ constituent }) => constituent.name === name)?.amplitudeMetres ?? 0;
  const [m2, s2] = [of("M2"), of("S2")];
  if (m2 === 0) return null;
  return {
    formNumber: (of("K1") + of("O1")) / (m2 + s2),
    meanSpringRangeMetres: 2 * (m2 + s2),
    meanNeapRangeMetres: 2 * Math.abs(m2 - s2),
  };
}

/** Springs or neaps: the greatest or least range over a lunar day near a phase of the moon. */
export interface SpringsOrNeaps {
  readonly kind: "springs" | "neaps";
  /** The middle of that lunar day. */
  readonly at: EpochSeconds;
  /** Its mean range, metres. */
  readonly rangeMetres: number;
  readonly moon: MoonPhase;
}

/**
 * Springs and neaps that belong to the phases of the moon in [from, until), told by range: one for each phase. Null where the tide is
 * mainly diurnal (form number above 1.5): there the moon's phase doesn't make them.
 */
export function springsAndNeaps(curve: TideCurve, from: EpochSeconds, until: EpochSeconds): readonly SpringsOrNeaps[] | null {
  const form = tideForm(curve.station);
  if (form === null || form.formNumber > MAINLY_DIURNAL_FORM) return null;
  const turns = highsAndLows(curve, epochSeconds(from - BEFORE_PHASE_SECONDS - DAY), epochSeconds(until + AFTER_PHASE_SECONDS + DAY));
  const ranges = rangesByLunarDay(turns);
  return moonPhases(from, until).flatMap((moon) => {
    const kind = moon.phase === "new" || moon.phase === "full" ? "springs" : "neaps";
    const near = ranges.filter(({ at }) => at >= moon.at - BEFORE_PHASE_SECONDS && at <= moon.at + AFTER_PHASE_SECONDS);
    const best = near.reduce<DayRange | null>((a, b) => {
      if (a === null) return b;
      return (kind === "springs" ? b.rangeMetres > a.rangeMetres : b.rangeMetres < a.rangeMetres) ? b : a;
    }, null);
    return best === null ? [] : [{ kind, ...best, moon }];
  });
}

interface DayRange {
  readonly at: EpochSeconds;
  readonly rangeMetres: number;
}

function rangesByLunarDay(turns: readonly TideTurn[]): readonly DayRange[] {
  const ranges: DayRange[] = [];
  for (let i = 0; i + TURNS_A_LUNAR_DAY < turns.length; i++) {
    const day = turns.slice(i, i + TURNS_A_LUNAR_DAY + 1);
    const [first, last] = [day[0] as TideTurn, day[TURNS_A_LUNAR_DAY] as TideTurn];
    let sum = 0;
    for (let k = 0; k < TURNS_A_LUNAR_DAY; k++) sum += Math.abs((day[k + 1] as TideTurn).heightMetres - (day[k] as TideTurn).heightMetres);
    ranges.push({ at: epochSeconds((first.at + last.at) / 2), rangeMetres: sum / TURNS_A_LUNAR_DAY });
  }
  return ranges;
}
