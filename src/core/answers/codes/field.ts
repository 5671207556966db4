import type { CodeTable } from "../code-table.ts";

/** Where a field of current, wind or sea has nothing to say. */
export const fieldCodes = {
  "not-covered-place": {
    kind: "noAnswer",
    meaning: "The forecast or current does not reach this place.",
    whatToDo: "Give a source that covers the whole crossing, or say in the passage file what the water does where it is unknown.",
  },
  "not-covered-time": {
    kind: "noAnswer",
    meaning: "The forecast or current does not reach this time.",
    whatToDo: "Get a later run, or choose a departure whose whole passage lies inside the forecast.",
  },
  "not-covered-variable": {
    kind: "noAnswer",
    meaning: "No source gives this quantity at all.",
    whatToDo: "Add a source that gives it, or take the limit that needs it out of the passage file.",
  },
  "current-not-fit": {
    kind: "noAnswer",
    meaning:
      "A forecast's current was held against a tidal station there and differs from it too much: it has not the tide of these waters.",
    whatToDo:
      "Put the tidal streams before the forecast in `water.sources` (`streams: [all]`), or add them to it (`sum`) where it leaves the tide out.",
  },
} as const satisfies CodeTable;
