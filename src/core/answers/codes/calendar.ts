import type { CodeTable } from "../code-table.ts";

/** What can be wrong with a zone, a date or a time as written. */
export const calendarCodes = {
  "zone-unknown": {
    kind: "input",
    meaning: "The zone is none that is known.",
    whatToDo: "Write UTC alone, UTC with hours, as UTC-10 or UTC+5:30, or a name as Pacific/Tahiti.",
  },
  "zone-missing": {
    kind: "input",
    meaning: "A time stands without a zone, and none is stated for it.",
    whatToDo: "Write the zone after the time, as in 2027-04-08 0600 UTC-10.",
  },
  "time-not-understood": {
    kind: "input",
    meaning: "The text is not a date and a time, or something is left over.",
    whatToDo: "Write it as 2027-04-08 0600, with a zone after it where another than the stated one is meant.",
  },
  "time-missing": {
    kind: "input",
    meaning: "A date stands without a time of day.",
    whatToDo: "Write the time after the date, as 2027-04-08 0600.",
  },
  "date-missing": {
    kind: "input",
    meaning: "A time of day or a weekday stands without a date, and nothing says from when to count.",
    whatToDo: "Write the date before the time, as 2027-04-08 0600.",
  },
  "date-ambiguous": {
    kind: "input",
    meaning: "The date may be read with the day first or with the month first.",
    whatToDo: "Write the year first, as 2027-04-08.",
  },
  "date-doubtful": {
    kind: "input",
    meaning: "The weekday or time may mean the day that the counting starts on or a later one.",
    whatToDo: "Write the date itself, as 2027-04-08 0600.",
  },
  "date-not-real": {
    kind: "input",
    meaning: "There is no such day, or no such time of day.",
    whatToDo: "Mend the date or the time.",
  },
  "weekday-mismatch": {
    kind: "input",
    meaning: "The date does not fall on the weekday that is written beside it.",
    whatToDo: "Mend the weekday or the date.",
  },
  "time-skipped": {
    kind: "input",
    meaning: "The clocks are put forward over this time, so that it never comes.",
    whatToDo: "Write the time with its offset from UTC.",
  },
  "time-ambiguous": {
    kind: "input",
    meaning: "The clocks are put back over this time, so that it comes twice.",
    whatToDo: "Write the time with its offset from UTC.",
  },
} as const satisfies CodeTable;
