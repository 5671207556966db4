import type { CodeTable } from "../code-table.ts";

/** Gates on the way: where they have no answer, and what can be wrong with how they are stated. */
export const gateCodes = {
  "gate-no-opening": {
    kind: "noAnswer",
    meaning: "A gate does not open at all in the time looked at.",
    whatToDo: "Check its hours, season and holidays in the passage file, or choose departures on other days.",
  },
  "gate-times-not-given": {
    kind: "noAnswer",
    meaning: "The values stated for a gate do not reach the time at which the boat is there.",
    whatToDo: "Give its slacks, windows or heights for that day in the passage file; until then the departure is no better than marginal.",
  },
  "entrance-not-judged": {
    kind: "noAnswer",
    meaning: "What a bar or a cut asks for is not known for the time at which the boat is there.",
    whatToDo:
      "Add a forecast of the sea or the wind that reaches that time, or state the sea's period there; until then the departure is no better than marginal.",
  },
  "gate-never-opens": {
    kind: "input",
    meaning: "A gate is stated without anything that says when it can be passed.",
    whatToDo: "Give it one of opens, windows, around, sill, stream, bar, byEye or light; or take it out.",
  },
  "gate-heights-apart": {
    kind: "input",
    meaning: "Stated heights of the tide stand too far apart for a straight line between them.",
    whatToDo: "Give a height at least every hour, from a tide table's curve.",
  },
  "inlet-none": {
    kind: "input",
    meaning: "A passage has no gate whose clock could be told.",
    whatToDo: "Add the bar, the cut or the bridge to `gates` in the passage file.",
  },
  "hours-without-length": {
    kind: "input",
    meaning: "Hours begin and end at one time.",
    whatToDo: "Write 0000 and 2400 for the whole day, or strike the hours out.",
  },
} as const satisfies CodeTable;
