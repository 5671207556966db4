import type { Command } from "commander";
import type { CommandContext, ExitCode } from "./context.ts";

/** A command adds itself to the program and tells how it ended by `done`. */
export type AddCommand = (program: Command, context: CommandContext, done: (code: ExitCode) => void) => void;
