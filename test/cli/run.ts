import { runProgram } from "../../src/cli/program.ts";

export interface Outcome {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

const kept = new Map<string, Promise<Outcome>>();

/** Runs the program in process on the words after its name; the same words are run once. */
export function run(...words: readonly string[]): Promise<Outcome> {
  const key = JSON.stringify(words);
  const known = kept.get(key);
  if (known !== undefined) return known;
  let out = "";
  let err = "";
  const ended = runProgram(words, {
    out: (text) => {
      out += text;
    },
    error: (text) => {
      err += text;
    },
    now: () => 1807012800,
  }).then((code) => ({ code, out, err }));
  kept.set(key, ended);
  return ended;
}

/** As `run`, the answer as JSON; it must be one object. */
export async function runJson(...words: readonly string[]): Promise<Readonly<Record<string, unknown>>> {
  const { out } = await run(...words, "--json");
  const answer: unknown = JSON.parse(out);
  if (typeof answer !== "object" || answer === null || Array.isArray(answer)) throw new Error(`no object: ${out.slice(0, 80)}`);
  return Object.fromEntries(Object.entries(answer));
}

/** A value deep inside an answer: `at(answer, "files", 0, "kind")`. */
export function at(value: unknown, ...steps: readonly (string | number)[]): unknown {
  return steps.reduce<unknown>((inner, step) => {
    if (typeof inner !== "object" || inner === null) throw new Error(`nothing at ${step} of ${JSON.stringify(inner)}`);
    const entry = Object.entries(inner).find(([key]) => key === String(step));
    if (entry === undefined) throw new Error(`no ${step} among ${Object.keys(inner).join(", ")}`);
    return entry[1];
  }, value);
}

/** The words of a command line as a shell would part them: by spaces, but for what stands in double quotes. */
export function wordsOf(line: string): string[] {
  return [...line.matchAll(/"([^"]*)"|(\S+)/g)].map((found) => found[1] ?? found[2] ?? "");
}

/** The demo's folder and the departure that the tests look at. */
export const DEMO = "demo/morrel";
export const DEPARTURE = "2027-04-07 2200";
