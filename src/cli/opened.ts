import { fileURLToPath } from "node:url";
import { bad, issue, type Parsed } from "../core/answers/index.ts";
import { type OpenedPassage, openPassage } from "../storage/index.ts";

/** The demo's passage file, in the package beside `dist` and `src`. */
export const DEMO_PASSAGE = fileURLToPath(new URL("../../demo/morrel/passage.yaml", import.meta.url));

/** Opens the passage a command was given, or the demo's. */
export async function openGiven(file: string | undefined, demo: boolean): Promise<Parsed<OpenedPassage>> {
  if (demo && file !== undefined) return bad(issue("--demo", "options-clash", "either a passage file or --demo, not both"));
  if (demo) return openPassage(DEMO_PASSAGE);
  if (file === undefined) return bad(issue("PASSAGE", "argument-missing", "no passage file was named"));
  return openPassage(file);
}
