import type { CrossAnswer } from "../../core/plan/index.ts";
import { LANES_RULE, lanesInWords, squareDeparturesInWords, wayName } from "../../words/index.ts";
import { wrap } from "./wrap.ts";

/** A line for each way through the traffic lanes, with degrees off square, and from when one heading is square; null where there are none. */
export function lanesText(answer: CrossAnswer): string | null {
  const { prepared, squareDepartures } = answer;
  if ((prepared.passage.lanes ?? []).length === 0) return null;
  const zone = prepared.passage.shipZone;
  const lines = answer.ways.flatMap(({ way }) => {
    if (way.kind === "fails") return [];
    const words = lanesInWords(way, zone) ?? "meets none";
    return [wrap(`${wayName(way.name)}: ${words}`, 80, "      ", way === answer.advised ? "→ " : "  ")];
  });
  const square = squareDepartures === null ? "" : ` ${squareDeparturesInWords(squareDepartures, answer.departAt, zone)}`;
  return `Traffic lanes:\n${lines.join("\n")}\n\n${wrap(`${LANES_RULE}${square}`)}`;
}
