import type { CodeTable } from "../code-table.ts";

/** Where waves on a current have no answer. */
export const seaCodes = {
  "seas-not-told-apart": {
    kind: "noAnswer",
    meaning: "Swell and wind sea can't be told apart from one height and period, and on a current they must be judged apart.",
    whatToDo: "Give the swell and the wind sea each by itself, or the swell with the wind and its fetch.",
  },
  "swell-not-known": {
    kind: "noAnswer",
    meaning: "No source gives a sea there: the wind's own sea is reckoned from the wind, but what swell runs is not known.",
    whatToDo:
      "Add a forecast of the sea, or state the swell under `weather` in the passage file, as `swell: 1.2 m @ 11 s`, or `swell: none` where none comes in.",
  },
} as const satisfies CodeTable;
