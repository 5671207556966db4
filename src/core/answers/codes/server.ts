import type { CodeTable } from "../code-table.ts";

/** What the page, or whoever asks in its place, asks of the server. */
export const serverCodes = {
  "request-not-understood": {
    kind: "input",
    meaning: "What was asked of the server is not put as it must be.",
    whatToDo: "See /api/openapi.json for how each thing is asked.",
  },
  "not-found": {
    kind: "input",
    meaning: "There is nothing of that name or number here.",
    whatToDo: "Look at the list of passages: it may have been removed.",
  },
  "asked-from-elsewhere": {
    kind: "input",
    meaning: "Another site, or another name for this computer, asked: only athwart's own page may.",
    whatToDo: "Open the page at the address that athwart open prints.",
  },
  "revision-moved-on": {
    kind: "input",
    meaning: "The passage was changed since it was read: in another window, it may be.",
    whatToDo: "Reload the page and make the change anew.",
  },
  "not-run-yet": {
    kind: "input",
    meaning: "The departures of this passage are still being tried.",
    whatToDo: "Wait for the run that is named beside this.",
  },
  "demo-stays": {
    kind: "input",
    meaning: "A demo is always there and can't be removed.",
    whatToDo: "Leave it, or undo what was changed in it.",
  },
  "no-change-to-walk": {
    kind: "input",
    meaning: "There is no change to take back, or none to make again.",
    whatToDo: "Nothing: the passage stands as it is.",
  },
  "upload-too-large": {
    kind: "input",
    meaning: "What was sent is larger, or more, than is taken at once.",
    whatToDo: "Ask the source for a smaller area, fewer days or fewer fields; send fewer files at a time.",
  },
  "upload-not-understood": {
    kind: "input",
    meaning: "What was sent is no whole upload of files.",
    whatToDo: "Send the files again, from the page.",
  },
  "file-name-unfit": {
    kind: "input",
    meaning: "A file has a name that can't be kept.",
    whatToDo: "Give it a plain name of letters and figures, at most 120 long, and send it again.",
  },
  "file-not-here": {
    kind: "input",
    meaning: "The passage has no stored file of that name.",
    whatToDo: "Send the file first, then name it as a source.",
  },
  "desk-lost": {
    kind: "input",
    meaning: "The work was broken off within the program, and was begun anew; nothing that was saved is lost.",
    whatToDo: "Ask again; if it happens again, the files may be larger than this computer's memory allows.",
  },
  "program-gone": {
    kind: "input",
    meaning: "The program that serves the page does not answer.",
    whatToDo: "Start it again with athwart open; the page finds it by itself, and what was typed is sent then.",
  },
  "server-fault": {
    kind: "input",
    meaning: "Something is wrong within athwart itself.",
    whatToDo: "Ask again; if it stays so, tell whoever looks after athwart what was done and this code.",
  },
} as const satisfies CodeTable;
