import type { CodeTable } from "../code-table.ts";

/** What was typed after a command. */
export const commandCodes = {
  "argument-missing": {
    kind: "input",
    meaning: "A command needs a word that was not typed.",
    whatToDo: "Name the file, or ask the command for --help; --demo tries it on the demo.",
  },
  "argument-not-understood": {
    kind: "input",
    meaning: "What was typed after a command can't be used.",
    whatToDo: "Ask the command for --help: it shows what it takes, with examples.",
  },
  "command-unknown": {
    kind: "input",
    meaning: "There is no such command.",
    whatToDo: "Type athwart --help for the commands.",
  },
  "option-unknown": {
    kind: "input",
    meaning: "The command has no such option.",
    whatToDo: "Ask the command for --help: it shows its options, with examples.",
  },
  "options-clash": {
    kind: "input",
    meaning: "Two things were typed of which only one can hold.",
    whatToDo: "Leave one of them out.",
  },
} as const satisfies CodeTable;
