import type { NoAnswer } from "../../answers/index.ts";
import type { RunThere } from "../../passage/index.ts";
import type { Barred, EntranceJudge } from "./judge-entrance.ts";
import type { RefugeToTry } from "./refuges-of.ts";
import { OPEN_TOGETHER_SECONDS, opensAt } from "./where-to-wait.ts";

/**
 * What must be left of the usable fuel when the boat comes to the entrance, as a share of it: a tenth, against a head sea and a slow way in
 * (common practice). The usable fuel leaves the skipper's own reserve out already, so that this is beyond it.
 */
export const FUEL_KEPT_SHARE = 0.1;

/** Why a refuge is struck out: its entrance, or the fuel. */
export type StruckOut = Barred | { readonly kind: "fuel"; readonly leftLitres: number; readonly keptLitres: number };

/** One way to one refuge. */
export interface RefugeRun {
  readonly refuge: RefugeToTry;
  readonly distanceMetres: number;
  readonly run: RunThere;
  /** At the berth: the arrival at the entrance and the pilotage after it; null where it does not arrive. */
  readonly berthAt: number | null;
  /** At the entrance, against all that is usable; null where the burn or the usable fuel is not stated. */
  readonly fuelLeftLitres: number | null;
  /** `enter`: it can be entered on arrival; `notJudged`: not known, which is never "can be entered". */
  readonly verdict: "enter" | "struckOut" | "notJudged";
  /** Everything that speaks against it on arrival; empty where it can be entered or does not arrive. */
  readonly struckOut: readonly StruckOut[];
}

/** Where to wait when nothing can be entered: stand off this entrance until it opens. */
export interface WaitOff {
  readonly refuge: RefugeToTry;
  readonly arrivalAt: number;
  readonly opensAt: number;
}

/** What a run comes to. `usedLitres`: burnt before it begins. */
export function refugeRun(
  refuge: RefugeToTry,
  run: RunThere,
  distanceMetres: number,
  judge: EntranceJudge,
  fuel: { readonly usedLitres: number; readonly usableLitres: number } | null,
): RefugeRun {
  if (run.kind === "fails") {
    const verdict = isUnknown(run.why) ? "notJudged" : "struckOut";
    return { refuge, distanceMetres, run, berthAt: null, fuelLeftLitres: null, verdict, struckOut: [] };
  }
  const struckOut: StruckOut[] = [...judge.at(run.arrivalAt)];
  let fuelLeftLitres: number | null = null;
  if (fuel !== null) {
    fuelLeftLitres = fuel.usableLitres - fuel.usedLitres - run.fuelLitres;
    const keptLitres = FUEL_KEPT_SHARE * fuel.usableLitres;
    // Without the engine no fuel is wanted.
    if (run.fuelLitres > 0 && fuelLeftLitres < keptLitres) struckOut.push({ kind: "fuel", leftLitres: fuelLeftLitres, keptLitres });
  }
  const known = struckOut.filter((one) => one.kind !== "notJudged");
  return {
    refuge,
    distanceMetres,
    run,
    berthAt: run.arrivalAt + (refuge.pilotageSeconds ?? 0),
    fuelLeftLitres,
    verdict: struckOut.length === 0 ? "enter" : known.length > 0 ? "struckOut" : "notJudged",
    struckOut,
  };
}

/** Whether it is data that is wanting, and not a way. */
function isUnknown(why: NoAnswer): boolean {
  return "coveredUntil" in why;
}

/** The soonest that can be entered first, then the others by their arrival, those without any last. */
export function inOrder(runs: readonly RefugeRun[]): readonly RefugeRun[] {
  const arrival = ({ run }: RefugeRun): number => (run.kind === "arrives" ? run.arrivalAt : Number.MAX_VALUE);
  const rank = ({ verdict }: RefugeRun): number => (verdict === "enter" ? 0 : 1);
  return [...runs].sort((a, b) => rank(a) - rank(b) || arrival(a) - arrival(b));
}

/** Where to wait: of the entrances that open soonest the one before which the waiting is shortest; null where none opens in time. */
export function whereToWait(runs: readonly RefugeRun[], judgeOf: (refuge: RefugeToTry) => EntranceJudge): WaitOff | null {
  const waits: WaitOff[] = [];
  for (const { refuge, run, struckOut } of runs) {
    if (run.kind === "fails" || struckOut.some((one) => one.kind === "fuel")) continue;
    const opens = opensAt(judgeOf(refuge), run.arrivalAt);
    if (opens !== null) waits.push({ refuge, arrivalAt: run.arrivalAt, opensAt: opens });
  }
  const soonest = Math.min(...waits.map((one) => one.opensAt));
  const together = waits.filter((one) => one.opensAt - soonest <= OPEN_TOGETHER_SECONDS);
  const waiting = (one: WaitOff): number => one.opensAt - one.arrivalAt;
  return together.reduce<WaitOff | null>((best, one) => (best === null || waiting(one) < waiting(best) ? one : best), null);
}
