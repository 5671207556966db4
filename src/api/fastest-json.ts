import type { FastestWay } from "../core/passage/index.ts";
import { nmFromMetres } from "../core/units/index.ts";
import { iso, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";

/** The fastest way: the yardstick of a departure. */
export function fastestJson(fastest: FastestWay) {
  if (fastest.kind === "fails") return { arrives: false as const, why: noAnswerJson(fastest.why) };
  return {
    arrives: true as const,
    openWaterFrom: iso(fastest.departAt),
    openWaterUntil: iso(fastest.arrivalAt),
    durationSeconds: rounded(fastest.arrivalAt - fastest.departAt, 1),
    throughWaterNm: rounded(nmFromMetres(fastest.throughWaterMetres), 3),
    overGroundNm: rounded(nmFromMetres(fastest.overGroundMetres), 3),
    crossChecked: fastest.crossChecked,
    whyNotCrossChecked: fastest.whyNotCrossChecked,
    headings: fastest.nodes.map(({ at, headingDegTrue }) => ({ at: iso(at), headingDegTrue: rounded(headingDegTrue, 2) })),
  };
}
