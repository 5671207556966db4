import type { CodeTable } from "../code-table.ts";

/** The data folder and what is kept in it. */
export const storageCodes = {
  "data-folder-not-usable": {
    kind: "input",
    meaning: "The folder in which passages and files are kept can't be made, read or written.",
    whatToDo: "Give this user the right to write there, or name another folder in ATHWART_HOME.",
  },
  "data-folder-in-use": {
    kind: "input",
    meaning: "Another athwart is at work on the same data folder.",
    whatToDo: "Use the page that is open already, or end the other one first; ATHWART_HOME names another folder.",
  },
  "data-folder-newer": {
    kind: "input",
    meaning: "The data folder was written by a newer athwart than this one.",
    whatToDo: "Use the newer athwart, or name another folder in ATHWART_HOME.",
  },
  "data-folder-damaged": {
    kind: "input",
    meaning: "The database in the data folder is damaged, or is none of athwart's.",
    whatToDo: "Move the folder aside and start anew; passages that were saved as files can be opened again.",
  },
  "disk-full": {
    kind: "input",
    meaning: "There is no room left on the disk, and nothing was kept of what was sent.",
    whatToDo: "Make room on the disk and send it again.",
  },
} as const satisfies CodeTable;
