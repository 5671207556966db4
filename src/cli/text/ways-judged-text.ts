import type { CrossAnswer } from "../../core/plan/index.ts";
import { byInWords, dayAndClock, decidedInWords, wayName } from "../../words/index.ts";

/** Each way by the skipper's limits along its own path, in a sentence; ways of one verdict stand together. Empty where no way arrives. */
export function waysJudgedText({ ways, row, prepared }: CrossAnswer): string {
  const zone = prepared.passage.shipZone;
  const names = new Map<string, string[]>();
  for (const { way, judged } of ways) {
    if (way.kind === "fails" || judged === null) continue;
    const { words, at } = decidedInWords({ ...row, verdict: judged.verdict, advised: way }, zone);
    const said = `${judged.verdict.kind}${byInWords(words)}${at === null ? "" : ` ${dayAndClock(at, zone)}`}`;
    names.set(said, [...(names.get(said) ?? []), wayName(way.name)]);
  }
  if (names.size === 0) return "";
  const told = [...names].map(([said, same]) => `${same.join(", ")}: ${said}`);
  return `By your limits, each along its own path (time in hand left out): ${told.join("; ")}.`;
}
