/** One thing wrong with what was given, as the server says it. */
export interface ShownIssue {
  readonly path: string;
  readonly code: string;
  readonly message: string;
  readonly whatToDo: string;
}

/** What came of asking the server. */
export type Answered<T> =
  | { readonly kind: "told"; readonly value: T }
  /** It answered that it can't or won't; `run` is a run that would bring the answer. */
  | { readonly kind: "refused"; readonly status: number; readonly issues: readonly ShownIssue[]; readonly run: string | null }
  /** Nobody answered: the program has stopped. */
  | { readonly kind: "unreachable" }
  /** We no longer wanted it. */
  | { readonly kind: "dropped" };

/** Reads the issues of a refusal; an answer without any gets one that says what came. */
export function issuesIn(body: unknown, status: number): readonly ShownIssue[] {
  const listed = isRecord(body) && Array.isArray(body["issues"]) ? body["issues"].filter(isRecord) : [];
  const issues = listed.map((one) => ({
    path: textOf(one["path"]),
    code: textOf(one["code"]),
    message: textOf(one["message"]),
    whatToDo: textOf(one["whatToDo"]),
  }));
  if (issues.length > 0) return issues;
  return [{ path: "", code: "server-fault", message: `The program answered with status ${status} and no reason.`, whatToDo: "Try again." }];
}

/** The run that a refusal or an answer names, under `run.id`. */
export function runIn(body: unknown): string | null {
  const run = isRecord(body) ? body["run"] : null;
  if (typeof run === "string") return run;
  return isRecord(run) && typeof run["id"] === "string" ? run["id"] : null;
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

const textOf = (value: unknown): string => (typeof value === "string" ? value : "");
