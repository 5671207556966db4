import type { CodeTable } from "../code-table.ts";

/** Where waves on a current have no answer. */
export const seaCodes = {
  "seas-not-told-apart": {
    kind: "noAnswer",
    meaning: "Swell and wind sea can't be told apart from one height and period, and on a current they must be judged apart.",
    whatToDo: "Give the swell and the wind sea each by itself, or the swell with the wind and its fetch.",
  },
} as const satisfies CodeTable;
