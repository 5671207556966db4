import type { AfterArrival, LyingSpell, Prepared, Untenable } from "../core/plan/index.ts";
import { LYING_SECONDS } from "../core/plan/index.ts";
import { decidedInWords, noAnswerInWords } from "./say-limit.ts";
import { wholeKnots } from "./say-quantity.ts";
import { dayAndClockNear, zoneLabel } from "./say-time.ts";

/** The days after the arrival in sentences: how the anchorage lies, and when the way home is open. Times are the arrival's. */
export function afterArrivalInWords({ berthAt, anchorage, home }: AfterArrival, prepared: Prepared): readonly string[] {
  const zone = prepared.passage.arrivalZone;
  const say = (at: number): string => dayAndClockNear(at, berthAt, zone);
  const days = LYING_SECONDS / 86400;
  const sentences: string[] = [];
  if (anchorage !== null)
    sentences.push(
      `${anchorage.stated.name} for ${days} days from ${say(berthAt)} ${zoneLabel(berthAt, zone)}: ${spellsInWords(anchorage.spells, say, zone)}.`,
    );
  const offices = (prepared.passage.gates ?? []).some((gate) => gate.office !== null) ? "; offices on it are not reckoned" : "";
  const { opens } = home;
  if (opens !== null) {
    const span = opens.from === opens.until ? `at ${say(opens.from)}` : `${say(opens.from)} to ${say(opens.until)}`;
    sentences.push(`The way home to ${prepared.passage.from.name} is first open ${span}, by the same limits${offices}.`);
  } else {
    const first = home.rows[0];
    const why = first === undefined ? "" : `; on ${say(first.departAt)}: ${decidedInWords(first, zone).words}`;
    sentences.push(`The way home to ${prepared.passage.from.name} is not open within ${days} days as far as is known${why}.`);
  }
  return sentences;
}

function spellsInWords(spells: readonly LyingSpell[], say: (at: number) => string, zone: string): string {
  if (spells.every((spell) => spell.kind === "holds")) return "it holds all that time";
  return spells
    .map((spell, i) => {
      const end = i === spells.length - 1 ? "" : ` until ${say(spell.until)}`;
      if (spell.kind === "holds") return `it holds${end}`;
      if (spell.kind === "notJudged") return `${i === 0 ? "" : "then "}${noAnswerInWords(spell.why, zone)}`;
      return `untenable${end === "" ? ` from ${say(spell.from)} on` : end}, ${untenableInWords(spell.worst)}`;
    })
    .join("; ");
}

function untenableInWords({ felt, value, never, open }: Untenable): string {
  const side = open ? " from where it lies open" : "";
  if (felt === "seaHeightMetres") return `sea up to ${value.toFixed(1)} m, never above ${never.toFixed(1)} m`;
  return `${felt === "gustMps" ? "gusts" : "wind"} up to ${wholeKnots(value)}${side}, never above ${wholeKnots(never)}`;
}
