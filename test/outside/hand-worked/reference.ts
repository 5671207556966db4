import { readFileSync } from "node:fs";

/** What the independent script reckons (`references/make_limits.py`); hours are after midnight UTC of Thursday 4 June 2026. */
export interface LimitsReference {
  readonly shift: {
    readonly cases: readonly {
      readonly departH: number;
      readonly arriveH: number;
      readonly productKn2: number;
      readonly margin: number;
      readonly firstPastNeverH: number | null;
    }[];
    readonly lastOpenDepartureH: number;
  };
  readonly hand: {
    readonly cases: readonly {
      readonly departH: number;
      readonly margin: number;
      readonly inHandMinutes: number;
      readonly doors: { readonly later: boolean; readonly stop: boolean; readonly slower: boolean };
    }[];
  };
  readonly eyeball: {
    readonly cases: readonly {
      readonly departH: number;
      readonly lowestSunDeg: number;
      readonly leastOffBowDeg: number;
      readonly closedBy: string | null;
    }[];
    readonly firstPassableH: number;
    readonly lastPassableH: number;
  };
  readonly fuel: {
    readonly wholeNm: number;
    readonly engineH: number;
    readonly burntLitres: number;
    readonly leftLitres: number;
    readonly reserveLitres: number;
    readonly margin: number;
    readonly worstTurnBack: { readonly atH: number; readonly backH: number; readonly allLitres: number; readonly acrossNm: number };
  };
}

export const limitsReference = (): LimitsReference =>
  JSON.parse(readFileSync(new URL("../references/limits.json", import.meta.url), "utf8"));
