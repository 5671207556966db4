import type { CodeTable } from "../code-table.ts";

/** What can be wrong with a forecaster's letter. */
export const bulletinCodes = {
  "letter-not-text": {
    kind: "input",
    meaning: "The file is not a letter in plain text, or is far too long for one.",
    whatToDo: "Save the e-mail's text alone as a plain text file in UTF-8.",
  },
  "letter-line-not-understood": {
    kind: "input",
    meaning: "A line of the letter is neither its issue line, nor its zone, nor a forecast line.",
    whatToDo:
      "If the line may be left out, write its number beside `letter:` in the passage file, as `strikeOut: [5]`; else mend it, as THU 0600-1200 NE 12-16 G20 SEA 2-3 ft @ 9 s.",
  },
  "letter-until-missing": {
    kind: "input",
    meaning: "A forecast line says when it begins but not when it ends.",
    whatToDo: "Write both times, as THU 0600-1200, or the day alone for the whole day.",
  },
  "letter-until-before-from": {
    kind: "input",
    meaning: "A forecast line ends before it begins.",
    whatToDo: "Where it runs past midnight name the second day, as THU 1800-FRI 0600; midnight at the end of a day is 2400.",
  },
  "letter-date-doubtful": {
    kind: "input",
    meaning: "A weekday may mean the first such day after the letter's issue or the one a week later.",
    whatToDo: "Write the date in place of the weekday (2027-04-13 0600-1200 ...).",
  },
  "letter-issue-missing": {
    kind: "input",
    meaning: "Nothing says when the letter was issued, so its weekdays can't be counted.",
    whatToDo: "Add the line `Issued 2027-04-06 1910 UTC-10` to the letter, or put the key `issued` beside `letter:` in the passage file.",
  },
  "letter-issue-doubtful": {
    kind: "input",
    meaning: "The letter's issue time is stated more than once, and differently.",
    whatToDo: "Keep the right one and take the other away, or add the wrong line's number to strikeOut.",
  },
  "letter-zone-doubtful": {
    kind: "input",
    meaning: "The letter's zone is stated more than once, and differently.",
    whatToDo: "Keep the right one and take the other away.",
  },
  "letter-no-forecast": {
    kind: "input",
    meaning: "The letter holds no forecast line at all.",
    whatToDo: "Check that the right file is named; quoted lines (beginning with >) are not read.",
  },
  "letter-strike-out-needless": {
    kind: "input",
    meaning: "A line is struck out that was understood, or that the letter does not have.",
    whatToDo: "Take its number out of strikeOut. Line numbers count from 1, blank lines included.",
  },
} as const satisfies CodeTable;
