import type { AfterArrival } from "../core/plan/index.ts";
import { knotsFromMps } from "../core/units/index.ts";
import { iso, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";
import { rowJson } from "./row-json.ts";

const FELT_KEYS = { windMps: "windKn", gustMps: "gustKn", seaHeightMetres: "seaHeightMetres" } as const;

/** The days after the arrival at the berth. */
export function afterArrivalJson({ berthAt, anchorage, home }: AfterArrival, burnKnown: boolean) {
  return {
    berthAt: iso(berthAt),
    anchorage:
      anchorage === null
        ? null
        : {
            name: anchorage.stated.name,
            spells: anchorage.spells.map((spell) => {
              const span = { from: iso(spell.from), until: iso(spell.until), kind: spell.kind };
              if (spell.kind === "holds") return span;
              if (spell.kind === "notJudged") return { ...span, why: noAnswerJson(spell.why) };
              const { felt, value, never, open } = spell.worst;
              const inUnit = (one: number): number => rounded(felt === "seaHeightMetres" ? one : knotsFromMps(one), 2);
              return { ...span, felt: FELT_KEYS[felt], value: inUnit(value), never: inUnit(never), fromOpenSector: open };
            }),
          },
    home: {
      opensFrom: home.opens === null ? null : iso(home.opens.from),
      opensUntil: home.opens === null ? null : iso(home.opens.until),
      departures: home.rows.map((row) => rowJson(row, burnKnown)),
    },
  };
}
