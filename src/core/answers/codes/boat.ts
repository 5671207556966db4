import type { CodeTable } from "../code-table.ts";

/** What is wrong with a boat as stated, or with its table of speeds under sail. */
export const boatCodes = {
  "boat-out-of-range": {
    kind: "input",
    meaning: "A figure of the boat can't be: negative, nought, or beyond any small cruising boat.",
    whatToDo: "Check the figure and its unit.",
  },
  "boat-incomplete": {
    kind: "input",
    meaning: "The way the boat goes needs something that isn't given.",
    whatToDo: "Give what is missing, or say that the boat goes in another way (`power`, `sail`, `motor-sail`).",
  },
  "boat-speed-unknown": {
    kind: "input",
    meaning: "Neither the speed under power nor the length of the waterline is given.",
    whatToDo: "Give the speed through the water at the cruising setting, or the waterline so that it can be estimated.",
  },
  "boat-contradiction": {
    kind: "input",
    meaning: "Two figures of the boat contradict each other.",
    whatToDo: "Check both figures and their units.",
  },
  "leeway-coefficient-doubtful": {
    kind: "input",
    meaning: "The leeway coefficient is not of the size that the rule K·sin(heel)/V² needs (degrees × knots²).",
    whatToDo:
      "Give K for the sine of the heel, about 464 for a boat of 12 m; a figure near 8 belongs to heel in degrees: multiply it by 57.3.",
  },
  "sail-table-angle": {
    kind: "input",
    meaning: "A true wind angle of the sail table is not from 0 to 180 degrees, or the angles don't ascend.",
    whatToDo: "Give angles off the bow from 0 to 180 degrees, each once, ascending.",
  },
  "sail-table-wind": {
    kind: "input",
    meaning: "A wind speed of the sail table can't be, or the wind speeds don't ascend.",
    whatToDo: "Give true wind speeds in knots, each once, ascending.",
  },
  "sail-table-speed": {
    kind: "input",
    meaning: "A speed in the sail table can't be.",
    whatToDo: "Give the speed through the water in knots, with a point before the decimals.",
  },
  "sail-table-hole": {
    kind: "input",
    meaning: "The sail table has an empty place.",
    whatToDo: "Fill it from the certificate or by measuring, or leave the whole angle or the whole wind speed out.",
  },
  "sail-table-duplicate": {
    kind: "input",
    meaning: "The sail table gives a speed twice for one angle and wind.",
    whatToDo: "Take one of the two out.",
  },
  "sail-table-too-small": {
    kind: "input",
    meaning: "The sail table does not hold enough to sail by.",
    whatToDo: "Give at least two true wind angles, the widest 120 degrees or more, in at least one wind speed above 0.",
  },
  "sail-table-layout": {
    kind: "input",
    meaning: "The text is not laid out as a sail table: wind speeds across in the first line, then a line for each true wind angle.",
    whatToDo: "Put a word and the wind speeds in the first line, and in each line after it an angle and as many boat speeds.",
  },
  "sail-table-made-good": {
    kind: "input",
    meaning: "A line of the sail table gives best beat or run, not the speed at an angle.",
    whatToDo: "Take the line out: it gives speed made good or best angles, not speed through the water at a true wind angle.",
  },
} as const satisfies CodeTable;
