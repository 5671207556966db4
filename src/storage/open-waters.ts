import { bad, good, type Issue, type Parsed } from "../core/answers/index.ts";
import { type Waters, watersOf } from "../core/plan/index.ts";
import type { PassageDocument } from "../formats/passage/index.ts";
import { withTides } from "./fill-in-tides.ts";
import { readPassageFile } from "./passage-text.ts";

/** A passage file with its tides and streams; none of the files that it names has been opened. */
export interface OpenedWaters {
  readonly document: PassageDocument;
  readonly waters: Waters;
}

/** Reads a passage file alone and makes its tides and streams ready, stations that ship filled in. */
export async function openWaters(path: string): Promise<Parsed<OpenedWaters>> {
  const document = await readPassageFile(path);
  if (!document.ok) return document;
  const issues: Issue[] = [];
  const passage = withTides(document.value.passage, issues);
  if (issues.length > 0) return bad(...issues);
  const waters = watersOf(passage);
  return waters.ok ? good({ document: document.value, waters: waters.value }) : waters;
}
