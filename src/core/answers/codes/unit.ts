import type { CodeTable } from "../code-table.ts";

/** What can be wrong with a quantity as written: a length, a speed, a bearing, a position, a wind, a sea. */
export const unitCodes = {
  "quantity-not-understood": {
    kind: "input",
    meaning: "The text is not a quantity of the kind that belongs here, or something is left over after it.",
    whatToDo: "Write the quantity and its unit alone, as the message shows.",
  },
  "unit-missing": {
    kind: "input",
    meaning: "A number stands without its unit.",
    whatToDo: "Write the unit after the number.",
  },
  "unit-unknown": {
    kind: "input",
    meaning: "The unit is not one that is read here.",
    whatToDo: "Use one of the units that the message lists.",
  },
  "unit-doubtful": {
    kind: "input",
    meaning: "The unit has two readings that differ.",
    whatToDo: "Write the unit out so that it can be read one way only.",
  },
  "bare-gallon": {
    kind: "input",
    meaning: "A gallon may be a US gallon or an imperial gallon; they differ by a fifth.",
    whatToDo: "Write US gal, imp gal or litres: 48 US gal, 180 L.",
  },
  "comma-in-number": {
    kind: "input",
    meaning: "A comma inside a number may stand for the decimal point or for thousands.",
    whatToDo: "Write the number with a decimal point and without a comma.",
  },
  "out-of-range": {
    kind: "input",
    meaning: "The value lies outside what this quantity can be.",
    whatToDo: "Check the number, its sign and its unit.",
  },
  "sense-missing": {
    kind: "input",
    meaning: "A variation or a deviation stands without E or W.",
    whatToDo: "Write E or W after the degrees.",
  },
  "bearing-other-north": {
    kind: "input",
    meaning: "The bearing is counted from another north than the one that is asked for.",
    whatToDo: "Convert the bearing and write it from the north that the message names.",
  },
  "hemisphere-missing": {
    kind: "input",
    meaning: "A latitude stands without N or S, or a longitude without E or W.",
    whatToDo: "Write N or S after the latitude and E or W after the longitude.",
  },
  "range-upside-down": {
    kind: "input",
    meaning: "A range begins with its greater end.",
    whatToDo: "Write the smaller number first, or mend the number that is wrong.",
  },
  "gust-below-wind": {
    kind: "input",
    meaning: "The gust is weaker than the wind it blows in.",
    whatToDo: "Mend the wind or the gust.",
  },
  "wind-speed-missing": {
    kind: "input",
    meaning: "A wind has a direction but no speed.",
    whatToDo: "Write the speed after the direction, as in NE 12-16 G20.",
  },
  "wind-direction-missing": {
    kind: "input",
    meaning: "A wind has a speed but no direction.",
    whatToDo: "Write the direction first, or VRB where it is variable.",
  },
  "arc-doubtful": {
    kind: "input",
    meaning: "A range of directions has opposite ends, so that it may run either way round.",
    whatToDo: "Name ends that are less than half a circle apart, or write VRB.",
  },
} as const satisfies CodeTable;
