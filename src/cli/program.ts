import { Command, CommanderError } from "commander";
import { BadInput, type Code, type Issue, issue } from "../core/answers/index.ts";
import type { AddCommand } from "./add-command.ts";
import { anchorCommand } from "./anchor-command.ts";
import { ANSWERED, BAD_INPUT, type CommandContext, type ExitCode, tellIssues } from "./context.ts";
import { crossCommand } from "./cross-command.ts";
import { inletCommand } from "./inlet-command.ts";
import { inspectCommand } from "./inspect-command.ts";
import { leaveCommand } from "./leave-command.ts";
import { openCommand } from "./open-command.ts";
import { withDemosNamed } from "./opened.ts";
import { refugesCommand } from "./refuges-command.ts";
import { skyCommand } from "./sky-command.ts";
import { steerCommand } from "./steer-command.ts";
import { tideCommand } from "./tide-command.ts";
import { variationCommand } from "./variation-command.ts";
import { waveCommand } from "./wave-command.ts";

const COMMANDS: readonly AddCommand[] = [
  openCommand,
  inspectCommand,
  leaveCommand,
  crossCommand,
  refugesCommand,
  inletCommand,
  steerCommand,
  skyCommand,
  tideCommand,
  variationCommand,
  anchorCommand,
  waveCommand,
];

/** The program, apart from running it. `done` is called once by the command that ran. */
export function createProgram(context: CommandContext, done: (code: ExitCode) => void): Command {
  const program = new Command("athwart");
  program
    .description("Decide whether, when and how to cross a strait whose water moves. A planning aid; not for navigation.")
    .version("0.1.0", "--version", "print the version")
    .helpOption("--help", "print this")
    .helpCommand(false)
    .exitOverride();
  for (const add of COMMANDS) add(program, context, done);
  // What commander finds wrong is told by `runProgram`, as every other issue is.
  const output = { writeOut: (text: string) => context.out(text), writeErr: (text: string) => context.error(text), outputError: () => {} };
  program.configureOutput(output);
  for (const command of program.commands) command.exitOverride().helpOption("--help", "print this").configureOutput(output);
  return program;
}

/** Runs the program on the words after its name and tells the exit code; nothing is thrown for bad input. */
export async function runProgram(words: readonly string[], context: CommandContext): Promise<number> {
  let code: number = BAD_INPUT;
  const program = createProgram(context, (ended) => {
    code = ended;
  });
  try {
    await program.parseAsync([...withDemosNamed(words)], { from: "user" });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) {
      if (error.exitCode === 0) return ANSWERED;
      return error.code === "commander.help" ? BAD_INPUT : tellIssues(context, [wordsIssue(error)], words.includes("--json"));
    }
    if (error instanceof BadInput) return tellIssues(context, error.issues, words.includes("--json"));
    throw error;
  }
}

/** What is wrong with the words themselves, as an issue: an unknown command or option, one too many, one without its value. */
function wordsIssue(error: CommanderError): Issue {
  const [first = "", ...hints] = error.message.replace(/^error: /, "").split("\n");
  const word = /'([^']+)'/.exec(first)?.[1] ?? "";
  const flag = /--[a-z-]+/.exec(word)?.[0] ?? (word === "" ? "athwart" : word);
  const code = codeOf(error.code);
  const cure = code === "argument-missing" ? "Ask the command for --help: it shows what it takes, with examples." : undefined;
  return issue(flag, code, [first, ...hints].join(" ").trim(), cure);
}

function codeOf(code: string): Code {
  switch (code) {
    case "commander.unknownCommand":
      return "command-unknown";
    case "commander.unknownOption":
      return "option-unknown";
    case "commander.missingArgument":
    case "commander.missingMandatoryOptionValue":
    case "commander.optionMissingArgument":
      return "argument-missing";
    default:
      return "argument-not-understood";
  }
}
