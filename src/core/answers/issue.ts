import { type Code, codes } from "./codes.ts";

/** One thing wrong with what was given. */
export interface Issue {
  /** Where: a key's path in a document (`boat.draught`), a flag (`--at`), or a file's place (`letter line 4`). */
  readonly path: string;
  readonly code: Code;
  /** What was found, as typed, and what was expected, in a sentence. */
  readonly message: string;
  /** What to do; the registry's own words where the place has nothing better. */
  readonly whatToDo: string;
}

/** A parsed value, or every issue that stood in the way. */
export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly issues: readonly Issue[] };

/** Makes an issue; `whatToDo` falls back to the registry's. */
export function issue(path: string, code: Code, message: string, whatToDo: string = codes[code].whatToDo): Issue {
  return { path, code, message, whatToDo };
}

export function good<T>(value: T): Parsed<T> {
  return { ok: true, value };
}

export function bad(...issues: readonly Issue[]): { readonly ok: false; readonly issues: readonly Issue[] } {
  return { ok: false, issues };
}

/** Thrown at doors where a union would be in the way; holds all the issues at once. */
export class BadInput extends Error {
  readonly issues: readonly Issue[];
  constructor(issues: readonly Issue[]) {
    super(issues.map((one) => `${one.path}: ${one.message}`).join("\n"));
    this.name = "BadInput";
    this.issues = issues;
  }
}
