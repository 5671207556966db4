import type { Prepared } from "../../core/plan/index.ts";
import { duration, sourcesInWords } from "../../words/index.ts";
import type { BoardTold } from "./board-told.ts";

/** A forecast or bulletin older than this is said loudly (common practice: they are made anew at least once a day). */
export const STALE_AFTER_SECONDS = 24 * 3600;

/** Every source in words; stale ones and what has none loudly. `nowAt`: UTC epoch seconds, or null where ages are not told. */
export function sourcesToldOf(prepared: Prepared, nowAt: number | null): BoardTold["sources"] {
  const dated = [...prepared.currents, ...prepared.winds, ...prepared.seas];
  return sourcesInWords(prepared).map((words, i) => {
    const issuedAt = dated[i]?.issuedAt ?? null;
    const ageSeconds = nowAt === null || issuedAt === null || nowAt < issuedAt ? null : nowAt - issuedAt;
    const age = ageSeconds === null ? "" : `; ${ageInWords(ageSeconds)} old`;
    const wanting = i >= dated.length && (words.includes("no source") || words.includes("not judged"));
    return { words: `${words}${age}`, loud: wanting || (ageSeconds !== null && ageSeconds > STALE_AFTER_SECONDS) };
  });
}

function ageInWords(seconds: number): string {
  const days = Math.floor(seconds / 86400);
  return days === 0 ? duration(seconds) : `${days} d ${Math.floor((seconds - days * 86400) / 3600)} h`;
}
