import { bad, good, issue, type Parsed } from "../core/answers/index.ts";
import { quoted } from "../core/units/index.ts";
import { DEMOS, type Demo, demoNamed, FIRST_DEMO, type OpenedPassage, openPassage } from "../storage/index.ts";

/** How every command takes a demo's name, and says so. */
export const DEMO_OPTION = "--demo [NAME]";
export const DEMO_NAMES = DEMOS.map(({ name }) => name).join(", ");
export const DEMO_WORDS = `use the demo's passage, or another's: ${DEMO_NAMES}`;

/**
 * The words of a command line with each `--demo` joined to its name: that of the first where what follows is no demo's name, so that a
 * file may follow.
 */
export function withDemosNamed(words: readonly string[]): readonly string[] {
  return words.flatMap((word, i) => {
    if (word === "--demo") return [`--demo=${demoNamed(words[i + 1] ?? "")?.name ?? FIRST_DEMO.name}`];
    return words[i - 1] === "--demo" && demoNamed(word) !== null ? [] : [word];
  });
}

/** The demo of a name that was typed. */
export function demoTyped(name: string): Parsed<Demo> {
  const found = demoNamed(name);
  if (found !== null) return good(found);
  return bad(issue("--demo", "argument-not-understood", `${quoted(name.slice(0, 40))} is no demo; there are ${namesInWords()}`));
}

/** A passage file that was named, or a demo's; null where neither was, an issue where both were. */
export function pathGiven(file: string | undefined, demo: string | undefined): Parsed<string | null> {
  if (demo === undefined) return good(file ?? null);
  const typed = demoTyped(demo);
  if (!typed.ok) return typed;
  if (file === undefined) return good(typed.value.path);
  return bad(issue("--demo", "options-clash", `either a passage file or --demo, not both; the demos are ${namesInWords()}`));
}

/** Opens the passage a command was given, or a demo's. */
export async function openGiven(file: string | undefined, demo: string | undefined): Promise<Parsed<OpenedPassage>> {
  const path = pathGiven(file, demo);
  if (!path.ok) return path;
  if (path.value === null) return bad(issue("PASSAGE", "argument-missing", "no passage file was named"));
  return openPassage(path.value);
}

/** A passage's path as it is typed in a command: a demo's by its name. */
export function typedAs(path: string): string {
  const demo = DEMOS.find((one) => one.path === path);
  if (demo !== undefined) return demo === FIRST_DEMO ? "--demo" : `--demo ${demo.name}`;
  return /\s/.test(path) ? `"${path}"` : path;
}

const namesInWords = (): string => DEMOS.map(({ name }) => name).join(" and ");
