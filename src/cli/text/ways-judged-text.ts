import type { CrossAnswer } from "../../core/plan/index.ts";
import { wayName, wayVerdictInWords } from "../../words/index.ts";

/** Each way by the skipper's limits along its own path, in a sentence; ways of one verdict stand together. Empty where no way arrives. */
export function waysJudgedText(answer: CrossAnswer): string {
  const names = new Map<string, string[]>();
  for (const one of answer.ways) {
    const said = wayVerdictInWords(one, answer);
    if (said !== "") names.set(said, [...(names.get(said) ?? []), wayName(one.way.name)]);
  }
  if (names.size === 0) return "";
  const told = [...names].map(([said, same]) => `${same.join(", ")}: ${said}`);
  return `By your limits, each along its own path (time in hand left out): ${told.join("; ")}.`;
}
