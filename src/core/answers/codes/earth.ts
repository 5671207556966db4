import type { CodeTable } from "../code-table.ts";

/** Where the earth has no answer: its magnetic field, its poles, waters too wide for one sheet, a compass that can't be steered by. */
export const earthCodes = {
  "variation-model-years": {
    kind: "noAnswer",
    meaning: "The magnetic model does not hold in this year, so there is no variation: headings are true, not compass.",
    whatToDo: "Give the boat's variation from a current chart in the passage file, or use a program with a newer magnetic model.",
  },
  "variation-field-weak": {
    kind: "noAnswer",
    meaning: "The earth's horizontal field is too weak here for a magnetic compass: headings are true, not compass.",
    whatToDo: "Steer by a gyro or a satellite compass here; do not trust a magnetic one.",
  },
  "deviation-heading-range": {
    kind: "input",
    meaning: "A heading on the deviation card is not from 0 to 360 degrees.",
    whatToDo: "Give each deviation by its magnetic heading, 0 to 360.",
  },
  "deviation-heading-repeated": {
    kind: "input",
    meaning: "A heading stands on the deviation card twice with different deviations.",
    whatToDo: "Keep one deviation for each magnetic heading.",
  },
  "deviation-not-steerable": {
    kind: "input",
    meaning: "The deviation changes so fast with the heading that one compass heading would mean two different ways.",
    whatToDo: "Look for a mistyped sign or heading (east positive); a compass that is really so must be adjusted before the passage.",
  },
  "waters-too-wide": {
    kind: "input",
    meaning: "The places of the passage lie too far apart for one sheet of water.",
    whatToDo: "Split the passage into legs, each with its places and its margin within 100 nm of their middle.",
  },
  "waters-at-pole": {
    kind: "input",
    meaning: "The passage lies too near a pole for bearings to be steered by.",
    whatToDo: "Check the latitudes; this program serves waters between 88° south and 88° north.",
  },
} as const satisfies CodeTable;
