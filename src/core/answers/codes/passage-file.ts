import type { CodeTable } from "../code-table.ts";

/** What can be wrong with a passage file: its form, its keys, and what does not fit together. */
export const passageFileCodes = {
  "passage-syntax": {
    kind: "input",
    meaning: "The file is not well-formed YAML or JSON.",
    whatToDo: "Mend the line that is named; put quotes around a value with odd signs in it.",
  },
  "passage-too-large": {
    kind: "input",
    meaning: "The file is larger, or its entries stand deeper inside each other, than those of any passage file.",
    whatToDo: "Check that this is the passage file and not another.",
  },
  "passage-yaml-feature": {
    kind: "input",
    meaning: "The file uses a feature of YAML that a passage file does without: anchors, aliases, tags, directives, several documents.",
    whatToDo: "Write the value out; put quotes around a value that begins with &, *, ! or %.",
  },
  "duplicate-key": {
    kind: "input",
    meaning: "A key stands twice in one place, and only one of them can hold.",
    whatToDo: "Strike one of the two out.",
  },
  "not-a-passage": {
    kind: "input",
    meaning: "The file does not say that it is a passage file, and of which version.",
    whatToDo: "Begin it with the line `athwart: passage/1`, if it is one.",
  },
  "passage-too-new": {
    kind: "input",
    meaning: "The file was written for a newer version of the program.",
    whatToDo: "Install the newer program; this one would not understand the file's keys.",
  },
  "unknown-key": {
    kind: "input",
    meaning: "A passage file has no such key at this place.",
    whatToDo: "Write the key that was meant, or strike it out.",
  },
  "missing-key": {
    kind: "input",
    meaning: "A key that is needed is not there.",
    whatToDo: "Add the key.",
  },
  "empty-value": {
    kind: "input",
    meaning: "A key stands without a value.",
    whatToDo: "Write the value after the key, or strike the key out.",
  },
  "wrong-shape": {
    kind: "input",
    meaning: "A single value, a list or a group of keys stands where another of them belongs.",
    whatToDo: "Write it as the reference of the passage file shows.",
  },
  "unknown-word": {
    kind: "input",
    meaning: "The value is not one of the words that are known here.",
    whatToDo: "Write one of the words that the message names.",
  },
  "list-too-short": {
    kind: "input",
    meaning: "A list has fewer entries than are needed.",
    whatToDo: "Add entries.",
  },
  "choose-one": {
    kind: "input",
    meaning: "Of several keys just one must stand here.",
    whatToDo: "Keep the one that is meant; give further sources as entries of their own.",
  },
  "key-out-of-place": {
    kind: "input",
    meaning: "A key stands beside others that it does not go with.",
    whatToDo: "Move the key to where it belongs, or strike it out.",
  },
  "same-place": {
    kind: "input",
    meaning: "The crossing begins where it ends.",
    whatToDo: "Check both positions.",
  },
  "route-too-long": {
    kind: "input",
    meaning: "The open-water leg is longer than is reckoned here.",
    whatToDo: "Check degrees and hemispheres of both positions, or part the passage.",
  },
  "place-far-off": {
    kind: "input",
    meaning: "A place lies so far from the route that it must be a slip.",
    whatToDo: "Check the degrees and the hemisphere of the position.",
  },
  "point-repeated": {
    kind: "input",
    meaning: "A pilotage leg names one point twice in a row.",
    whatToDo: "Strike one of them out.",
  },
  "times-upside-down": {
    kind: "input",
    meaning: "A stretch of time ends before it begins.",
    whatToDo: "Check both times and their zones.",
  },
  "periods-overlap": {
    kind: "input",
    meaning: "Two periods of one source claim the same time.",
    whatToDo: "Mend the times, or give the second forecast as a source of its own.",
  },
  "leave-too-long": {
    kind: "input",
    meaning: "More days of departures are asked for than any forecast reaches.",
    whatToDo: "Check the year and month of both times.",
  },
  "section-not-ascending": {
    kind: "input",
    meaning: "The section across a stream does not run from left to right.",
    whatToDo: "Put the entries in order of their distance from the axis, left of it negative.",
  },
  "limit-without-margin": {
    kind: "input",
    meaning: "A limit's two figures are the same, so that no margin can be reckoned between them.",
    whatToDo: "Give two figures: where you are still untroubled, and where you would never go.",
  },
  "limit-upside-down": {
    kind: "input",
    meaning: "A limit's two figures are in the wrong order.",
    whatToDo: "Change them about, or check their units.",
  },
  "no-limits": {
    kind: "input",
    meaning: "The passage names no limit at all.",
    whatToDo: "Set at least one limit, such as `wind: {happy: 14 kn, never: 22 kn}`.",
  },
  "name-twice": {
    kind: "input",
    meaning: "Two entries of one list have the same name, so that an answer could not tell them apart.",
    whatToDo: "Give one of them another name.",
  },
  "name-unknown": {
    kind: "input",
    meaning: "An entry is referred to by a name that nothing in that list has.",
    whatToDo: "Write the name as it stands in the list, or add the entry.",
  },
  "area-not-sound": {
    kind: "input",
    meaning: "The corners of an area do not enclose one: they repeat, lie in one line, or its edges cross.",
    whatToDo: "Give each corner once, in order round the area as on the chart.",
  },
  "no-such-entry": {
    kind: "input",
    meaning: "The passage file has no single value at the place that was to be changed, or the new one can't stand there.",
    whatToDo: "Name a value that stands in the file, as `boat.draught`.",
  },
} as const satisfies CodeTable;
