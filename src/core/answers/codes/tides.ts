import type { CodeTable } from "../code-table.ts";

/** Tides and tidal streams: constants that can't be used, heights of different datums, ports and streams told by differences from another. */
export const tideCodes = {
  "tide-constituent-unknown": {
    kind: "input",
    meaning: "A tidal constituent is none that is known, so the tide can't be reckoned without leaving it out.",
    whatToDo: "Check the constituent's name against the list it was published in; M2, S2, K1 and the like are names.",
  },
  "tide-constituent-repeated": {
    kind: "input",
    meaning: "A tidal constituent stands twice among a station's constants, maybe under two names.",
    whatToDo: "Keep one amplitude and phase for each constituent.",
  },
  "tide-constant-range": {
    kind: "input",
    meaning: "An amplitude or a phase among a station's constants is none that a tide has.",
    whatToDo: "Give amplitudes in metres from 0 to 20, phases in degrees, behind Greenwich.",
  },
  "tide-constants-none": {
    kind: "input",
    meaning: "A tide station has no constants, so that it has no tide to tell.",
    whatToDo: "Choose another station, or give its constants.",
  },
  "tide-datum-differs": {
    kind: "input",
    meaning: "Two heights are above different datums, and nothing says how far these lie apart.",
    whatToDo: "Give the height of the one datum above the other there, or take both heights from sources with the same datum.",
  },
  "tide-reference-differs": {
    kind: "input",
    meaning: "The differences of a secondary port are from another port than the one given.",
    whatToDo: "Reckon them from the reference port that they were published with.",
  },
  "tide-differences-range": {
    kind: "input",
    meaning: "The time or height differences of a secondary port are none that a port has.",
    whatToDo: "Check the differences: times within a day, ratios from 0 to 10, two levels that are not the same.",
  },
  "tide-station-unknown": {
    kind: "input",
    meaning: "No tide station has that name.",
    whatToDo: "Ask by position with --near, which gives the nearest station.",
  },
  "tide-station-several": {
    kind: "input",
    meaning: "Several tide stations have that name.",
    whatToDo: "Add the region to the name, or give the station's id.",
  },
  "stream-constant-range": {
    kind: "input",
    meaning: "A rate or a mean flow among a tidal stream's constants is none that a stream has.",
    whatToDo: "Give rates from 0 to 23 kn with their unit; the mean flow is + with the flood.",
  },
  "stream-differences-range": {
    kind: "input",
    meaning: "The differences of a subordinate stream are none that a station has.",
    whatToDo: "Check the differences: times within 7 hours, ratios above 0 and up to 10.",
  },
  "stream-reference-unknown": {
    kind: "input",
    meaning: "A subordinate stream is told from one that is not listed, or that is itself told from another.",
    whatToDo: "Add the reference to `streams` with its constants or its table; without `within` it serves as a reference only.",
  },
  "stream-range-missing": {
    kind: "input",
    meaning: "A table by hours can't be run between neaps and springs, since nobody says what ranges those are.",
    whatToDo: "State `springRange` and `neapRange`: the mean ranges at the port that the table is for.",
  },
  "stream-table-range": {
    kind: "input",
    meaning: "The two ranges of a table by hours leave nothing between neaps and springs.",
    whatToDo: "Give the mean range at springs and the smaller one at neaps, above nought.",
  },
  "stream-hours": {
    kind: "input",
    meaning: "The hours of a table by hours are not whole hours in order, or too few to hold a tide.",
    whatToDo: "Give one line for each whole hour from −6 to 6, in order; −5 to 5 at least.",
  },
} as const satisfies CodeTable;
