import type { CodeTable } from "../code-table.ts";

/** Files of forecasts and currents: what can be wrong with their bytes, and what is sound but not read. */
export const fileCodes = {
  "file-not-opened": {
    kind: "input",
    meaning: "A file that is named can't be opened.",
    whatToDo: "Check the name and the folder: paths in a passage file are relative to that file.",
  },
  "file-truncated": {
    kind: "input",
    meaning: "The file ends before it should: its end was lost on the way.",
    whatToDo: "Fetch the file again and compare its size with what the sender says.",
  },
  "file-not-recognised": {
    kind: "input",
    meaning: "The file is not of a kind that is read here.",
    whatToDo: "Give a forecast or current as GRIB or NetCDF; open the file in a text editor if it came from a web page.",
  },
  "file-lies": {
    kind: "input",
    meaning: "The file contradicts itself: a length, a count or a date in it can't be true.",
    whatToDo: "Fetch the file again; if it stays so, tell whoever made it, and use another source.",
  },
  "file-too-large": {
    kind: "input",
    meaning: "A field, or the file as a whole, holds more than is read at once.",
    whatToDo: "Ask for a smaller area or a coarser grid.",
  },
  "stray-bytes": {
    kind: "input",
    meaning: "Bytes that belong to no message stood in the file and were passed over.",
    whatToDo: "Nothing, if they are a heading of the e-mail or bulletin; else fetch the file again.",
  },
  "edition-not-read": {
    kind: "input",
    meaning: "The message is of a GRIB edition that is not read.",
    whatToDo: "Ask for the same fields as GRIB edition 1 or 2.",
  },
  "packing-not-read": {
    kind: "input",
    meaning: "The values are packed in a way that is not read.",
    whatToDo: "Ask for the same fields with simple packing.",
  },
  "grid-not-read": {
    kind: "input",
    meaning: "The field stands on a grid that is not read.",
    whatToDo: "Ask for the same fields on a regular latitude and longitude grid.",
  },
  "product-not-read": {
    kind: "input",
    meaning: "The message holds a kind of product that is not read.",
    whatToDo: "Ask for plain forecast fields, at an instant or over one interval, with members one by one.",
  },
  "calendar-not-read": {
    kind: "input",
    meaning: "The file counts its days by a calendar that is not that of real dates.",
    whatToDo: "Give a forecast; files of climate models with 360-day or leapless years can't be used.",
  },
  "time-not-read": {
    kind: "input",
    meaning: "The file doesn't say in a way that can be read when its values hold.",
    whatToDo: 'Give a file whose time has a unit such as "hours since 2030-06-01 00:00".',
  },
  "component-missing": {
    kind: "input",
    meaning: "A current or wind has only one of its two components, for some or all times.",
    whatToDo: "Ask for both the east and the north component.",
  },
  "component-alone": {
    kind: "input",
    meaning: "A current or wind has only one of its two components in this file; it serves together with a file that has the other.",
    whatToDo: "Name both files as one source (`files` in the passage file), or give both to inspect at once.",
  },
  "unit-not-known": {
    kind: "input",
    meaning: "A field has no unit, or one that is not known, and is not used.",
    whatToDo: "Ask the source for speeds in m/s, cm/s or knots, heights in metres or feet, periods in seconds.",
  },
  "level-chosen": {
    kind: "input",
    meaning: "The field is given at other heights or depths than the usual one, and one was chosen.",
    whatToDo: "Check that the height or depth named suits: currents at the surface, wind at 10 metres.",
  },
  "field-doubtful": {
    kind: "input",
    meaning: "A field may be one thing or another, and is not used.",
    whatToDo: "Give a file whose fields carry the standard names of the CF conventions, or plain names such as water_u or air_u.",
  },
  "times-repeated": {
    kind: "input",
    meaning: "The same time is given more than once; the first is used.",
    whatToDo: "Nothing, if files were joined with an overlap; else ask for the file again.",
  },
  "time-gap": {
    kind: "input",
    meaning: "The forecast leaves out some of its times.",
    whatToDo: "Between the times around a gap the field is only a guess: fetch the file again, or use another source.",
  },
  "files-repeat": {
    kind: "input",
    meaning: "The same times of the same run stand in more than one of the files.",
    whatToDo: "Nothing: they are used once.",
  },
  "files-disagree": {
    kind: "input",
    meaning: "Two files of the same run, or of none that is said, give different values for one time; the file named first is used.",
    whatToDo: "Leave out the older file, or name the better one first.",
  },
  "members-unequal": {
    kind: "input",
    meaning: "The members of the ensemble are not all given for the same times.",
    whatToDo: "Fetch the file again; the members that fall short can't be counted for the whole passage.",
  },
  "grids-differ": {
    kind: "input",
    meaning: "The same field is given on more than one grid.",
    whatToDo: "Give each grid in a file of its own, the better one first.",
  },
  "several-runs": {
    kind: "input",
    meaning: "The file holds several runs of the forecast; each is kept apart.",
    whatToDo: "Nothing: the newest run that covers the passage is used.",
  },
  "outside-passage": {
    kind: "input",
    meaning: "A field in the file does not reach the waters or the days of the passage.",
    whatToDo: "Get a file for these waters and days.",
  },
  "value-implausible": {
    kind: "input",
    meaning: "Values no sea or wind could have were taken as missing.",
    whatToDo: "Look at the file: it may mark missing values without saying so, or its unit may be wrong.",
  },
  "value-doubtful": {
    kind: "input",
    meaning: "Values have hardly ever been met with at sea, and are used as they stand.",
    whatToDo: "Look at the file: its unit may be another than it says, such as feet for metres or knots for metres a second.",
  },
  "fill-doubtful": {
    kind: "input",
    meaning: "The file calls a value missing that may well be one, such as 0.",
    whatToDo: "Look at the places and times that are named; tell whoever made the file.",
  },
  "step-empty": {
    kind: "input",
    meaning: "A field has a time at which it holds no value anywhere.",
    whatToDo: "Count that time as not given: between those around it the field is only a guess.",
  },
  "tide-only": {
    kind: "input",
    meaning: "The current is its tidal part alone.",
    whatToDo: "Add what the wind and the ocean's own currents do, or use a source that holds them.",
  },
  "tide-left-out": {
    kind: "input",
    meaning: "The current is given without its tidal part.",
    whatToDo: "Use a source with the tide in it wherever streams turn.",
  },
  "nothing-of-use": {
    kind: "input",
    meaning: "The file can be read, but no current, wind, gust or sea in it can be used.",
    whatToDo: "See what it holds and why each field is not used, and ask the source for what is missing.",
  },
} as const satisfies CodeTable;
