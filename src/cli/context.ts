import type { Issue } from "../core/answers/index.ts";
import { WIDTH, wrap } from "./text/wrap.ts";

/** What a command is given of the outside, so that it can be run in process. */
export interface CommandContext {
  out(text: string): void;
  error(text: string): void;
  /** UTC epoch seconds now; only commands that need the clock ask. */
  now(): number;
  /** Shows an address in the user's browser; left out: there is none to show it in. */
  showPage?(address: string): void;
  /** Until whoever started the program stops it; only a command that goes on by itself asks. Left out: at once. */
  untilStopped?(): Promise<void>;
}

/** Exit codes: 0 answered, 1 no answer, 2 bad input. */
export const ANSWERED = 0;
export const NO_ANSWER = 1;
export const BAD_INPUT = 2;
export type ExitCode = typeof ANSWERED | typeof NO_ANSWER | typeof BAD_INPUT;

/** Prints issues, one after another, each with its place, what is wrong and what to do; as JSON where that was asked for. */
export function tellIssues(context: CommandContext, issues: readonly Issue[], json: boolean): ExitCode {
  if (json) context.out(`${JSON.stringify({ schema: "athwart.issues/1", issues }, null, 2)}\n`);
  else {
    const head = issues.length === 1 ? "One thing stands in the way:" : `${issues.length} things stand in the way:`;
    // A cure that the next issue has word for word is told once, after the last of them.
    const told = issues.map((one, i) => {
      const next = issues[i + 1];
      const cure = next?.code === one.code && next.whatToDo === one.whatToDo ? [] : [`→ ${one.whatToDo} (${one.code})`];
      return [`  ${one.path}`, wrap(one.message, WIDTH, "    "), ...cure.map((text) => wrap(text, WIDTH, "      ", "    "))].join("\n");
    });
    context.error(`${head}\n\n${told.join("\n")}\n`);
  }
  return BAD_INPUT;
}
