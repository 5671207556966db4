import type { EntranceJudge } from "./judge-entrance.ts";

/** Longer than this one does not stand off an entrance, seconds: a day (common practice; beyond it one decides anew). */
export const LONGEST_WAIT_SECONDS = 24 * 3600;
/** Entrances that open within this of the soonest are taken to open together, and the one with the least waiting is chosen, seconds. */
export const OPEN_TOGETHER_SECONDS = 30 * 60;
/** How often an entrance is looked at while one waits for the weather, and how closely its opening is told, seconds. */
const LOOK_EVERY_SECONDS = 600;
const WITHIN_SECONDS = 30;

/**
 * When an entrance can first be gone through by a boat that stands off it from `arrivalAt`: at first light, or when wind and sea have
 * gone down; null where the depth bars it, where it stays shut for a day, or the forecast does not reach so far.
 */
export function opensAt(judge: EntranceJudge, arrivalAt: number): number | null {
  let before = arrivalAt;
  let at = arrivalAt;
  while (at - arrivalAt <= LONGEST_WAIT_SECONDS) {
    const barred = judge.at(at);
    if (barred.length === 0) return at === arrivalAt || before === at ? at : openedBetween(judge, before, at);
    if (barred.some((one) => one.kind === "depth" || one.kind === "notJudged")) return null;
    const dark = barred.find((one) => one.kind === "dark");
    if (dark?.kind !== "dark") {
      before = at;
      at += LOOK_EVERY_SECONDS;
    } else if (dark.firstLightAt === null) return null;
    else {
      // Until first light nothing else matters: it is looked at then.
      at = Math.max(dark.firstLightAt, at + 1);
      before = at;
    }
  }
  return null;
}

function openedBetween(judge: EntranceJudge, shut: number, open: number): number {
  let low = shut;
  let high = open;
  while (high - low > WITHIN_SECONDS) {
    const middle = (low + high) / 2;
    if (judge.at(middle).length === 0) high = middle;
    else low = middle;
  }
  return high;
}
