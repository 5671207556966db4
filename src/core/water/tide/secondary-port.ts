import { bad, good, type Issue, issue, type Parsed } from "../../answers/index.ts";
import { type EpochSeconds, epochSeconds } from "../../units/index.ts";
import { heightByCosine } from "./between-turns.ts";
import { highsAndLows, type TideTurn } from "./highs-and-lows.ts";
import type { TideCurve } from "./tide-curve.ts";
import type { StationFacts } from "./tide-station.ts";

/** A day: no time difference is longer. */
const LONGEST_DIFFERENCE_SECONDS = 86400;
/** Within so long there is a turn, before and after, also of a diurnal tide at its least. */
const KEPT_MARGIN_SECONDS = 3 * 86400;

/** A value that is the same at every tide, or given at two levels of the reference port's height and run straight between and beyond. */
export type AtLevels = number | { readonly levels: readonly [Level, Level] };

export interface Level {
  /** The reference port's height at which the value holds, metres above its datum. */
  readonly referenceHeightMetres: number;
  readonly value: number;
}

/** Differences of one kind of turn: seconds later than the reference, and metres to be added or a ratio to be multiplied. */
export interface TurnDifferences {
  readonly laterSeconds: AtLevels;
  readonly height: { readonly kind: "metres" | "ratio"; readonly by: AtLevels };
}

/** A port whose tide is told by its differences from another's: heights are above its own `datum`. */
export interface SecondaryStation extends StationFacts {
  readonly datum: string;
  readonly referenceId: string;
  readonly high: TurnDifferences;
  readonly low: TurnDifferences;
}

/** What is wrong with the differences (`tide-differences-range`, `tide-reference-differs`), or the port ready to be asked. */
export function secondaryPort(station: SecondaryStation, reference: TideCurve, path = "differences"): Parsed<SecondaryPort> {
  const issues: Issue[] = [];
  if (station.referenceId !== reference.station.id) {
    const message = `the differences of ${station.name} are from ${station.referenceId}, not from ${reference.station.id}`;
    issues.push(issue(`${path}.reference`, "tide-reference-differs", message));
  }
  for (const kind of ["high", "low"] as const) {
    const { laterSeconds, height } = station[kind];
    const wrong = (key: string, message: string) => issues.push(issue(`${path}.${kind}.${key}`, "tide-differences-range", message));
    if (!everyValue(laterSeconds, (value) => Math.abs(value) <= LONGEST_DIFFERENCE_SECONDS))
      wrong("later", `a ${kind} water of ${station.name} is more than a day from its reference's`);
    if (!everyValue(height.by, (value) => (height.kind === "ratio" ? value >= 0 && value <= 10 : Math.abs(value) <= 20)))
      wrong("height", `the ${height.kind} for a ${kind} water of ${station.name} is out of bounds`);
    if (!twoLevels(laterSeconds) || !twoLevels(height.by)) wrong("levels", `two levels of ${station.name} are the same`);
  }
  return issues.length > 0 ? bad(...issues) : good(new SecondaryPort(station, reference));
}

/** A secondary port with its reference's curve. */
export class SecondaryPort {
  readonly station: SecondaryStation;
  private readonly reference: TideCurve;
  /** The turns of the days last asked for, so that a run of heights reckons them once. */
  private kept: { readonly from: number; readonly until: number; readonly turns: readonly TideTurn[] } | null = null;

  constructor(station: SecondaryStation, reference: TideCurve) {
    this.station = station;
    this.reference = reference;
  }

  get datum(): string {
    return this.station.datum;
  }

  /** Its highs and lows in [from, until): each of the reference's, moved and scaled, in order of time. */
  highsAndLows(from: EpochSeconds, until: EpochSeconds): readonly TideTurn[] {
    const reach = LONGEST_DIFFERENCE_SECONDS;
    return highsAndLows(this.reference, epochSeconds(from - reach), epochSeconds(until + reach))
      .map((turn) => differed(this.station, turn))
      .sort((one, other) => one.at - other.at)
      .filter(({ at }) => at >= from && at < until);
  }

  /** Height above its datum, metres, by the cosine rule between its turns. */
  heightAt(at: EpochSeconds): number {
    const turns = this.turnsAround(at);
    const next = turns.findIndex((turn) => turn.at > at);
    const [before, after] = [turns[next - 1], turns[next]];
    if (before === undefined || after === undefined) throw new Error(`no turns of ${this.station.name} around ${at}`);
    return heightByCosine(before, after, at);
  }

  private turnsAround(at: number): readonly TideTurn[] {
    const { kept } = this;
    if (kept !== null && at >= kept.from + KEPT_MARGIN_SECONDS && at <= kept.until - KEPT_MARGIN_SECONDS) return kept.turns;
    const [from, until] = [at - 2 * KEPT_MARGIN_SECONDS, at + 4 * KEPT_MARGIN_SECONDS];
    const turns = this.highsAndLows(epochSeconds(from), epochSeconds(until));
    this.kept = { from, until, turns };
    return turns;
  }
}

/** A turn at a secondary port from the one at its reference. */
export function differed(station: Pick<SecondaryStation, "high" | "low">, turn: TideTurn): TideTurn {
  const { laterSeconds, height } = station[turn.kind];
  const by = valueAt(height.by, turn.heightMetres);
  return {
    kind: turn.kind,
    at: epochSeconds(turn.at + valueAt(laterSeconds, turn.heightMetres)),
    heightMetres: height.kind === "ratio" ? turn.heightMetres * by : turn.heightMetres + by,
  };
}

function valueAt(given: AtLevels, referenceHeightMetres: number): number {
  if (typeof given === "number") return given;
  const [one, other] = given.levels;
  const share = (referenceHeightMetres - one.referenceHeightMetres) / (other.referenceHeightMetres - one.referenceHeightMetres);
  return one.value + share * (other.value - one.value);
}

function everyValue(given: AtLevels, holds: (value: number) => boolean): boolean {
  return typeof given === "number" ? holds(given) : given.levels.every(({ value }) => holds(value));
}

function twoLevels(given: AtLevels): boolean {
  return typeof given === "number" || given.levels[0].referenceHeightMetres !== given.levels[1].referenceHeightMetres;
}
