import type { FastestWay, UnderSail } from "../core/passage/index.ts";
import { nmFromMetres } from "../core/units/index.ts";
import { iso, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";

/** The fastest way: the yardstick of a departure; under sail a bound, with the plan that comes of it. */
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
    crossCheckedInKnownWater: fastest.crossCheckedInKnownWater,
    headings: fastest.nodes.map(({ at, headingDegTrue }) => ({ at: iso(at), headingDegTrue: rounded(headingDegTrue, 2) })),
    underSail: fastest.underSail === null ? null : underSailJson(fastest.underSail, fastest.departAt),
  };
}

function underSailJson({ handling, plan }: UnderSail, departAt: number) {
  const assumed = { tackingIsFree: true as const, ...handling };
  if (plan.kind === "fails") return { ...assumed, plan: { arrives: false as const, why: noAnswerJson(plan.why) } };
  return {
    ...assumed,
    plan: {
      arrives: true as const,
      openWaterUntil: iso(plan.arrivalAt),
      durationSeconds: rounded(plan.arrivalAt - departAt, 1),
      tacks: plan.tacks,
      gybes: plan.gybes,
      throughWaterNm: rounded(nmFromMetres(plan.throughWaterMetres), 3),
      overGroundNm: rounded(nmFromMetres(plan.overGroundMetres), 3),
      boards: plan.boards.map((board) => ({
        sailed: board.sailed,
        windOver: board.windOver,
        after: board.after,
        fromAt: iso(board.fromAt),
        untilAt: iso(board.untilAt),
        acrossNm: rounded(nmFromMetres(board.alongMetres), 3),
        headingDegTrue: rounded(board.headingDegTrue, 2),
        lastHeadingDegTrue: rounded(board.lastHeadingDegTrue, 2),
        trueWindAngleDeg: rounded(board.trueWindAngleDeg, 1),
      })),
    },
  };
}
