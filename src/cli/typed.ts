import { type Issue, issue, type Parsed } from "../core/answers/index.ts";

/** Reads what was typed after flags and gathers everything wrong with it, to be told at once. */
export class Typed {
  readonly issues: Issue[] = [];

  /** The value of a flag, or null where it was not typed or can't be read (then `issues` says why). */
  read<T>(flag: string, text: string | undefined, parse: (text: string, path: string) => Parsed<T>): T | null {
    if (text === undefined) return null;
    const read = parse(text, flag);
    if (read.ok) return read.value;
    this.issues.push(...read.issues);
    return null;
  }

  /** As `read`, and complains where the flag was not typed; `example` shows how it is written. */
  need<T>(flag: string, text: string | undefined, example: string, parse: (text: string, path: string) => Parsed<T>): T | null {
    if (text === undefined) this.issues.push(issue(flag, "argument-missing", `${flag} was not typed`, `Add it, as in ${flag} ${example}.`));
    return this.read(flag, text, parse);
  }
}
