import { dirname } from "node:path";
import { bad, good, type Issue, type Parsed } from "../core/answers/index.ts";
import { checkBoat } from "../core/boat/index.ts";
import type { GridData } from "../core/fields/index.ts";
import { type Gathered, type GatheredLetter, type Passage, type Prepared, prepare } from "../core/plan/index.ts";
import { type Letter, readLetter } from "../formats/bulletin/index.ts";
import type { ForecastReading, Oddity } from "../formats/forecast/index.ts";
import type { PassageDocument } from "../formats/passage/index.ts";
import { parseSailTable } from "../formats/sail-table/index.ts";
import { cropAround } from "./crop-around.ts";
import { withTides } from "./fill-in-tides.ts";
import { FileGatherer } from "./gather-files.ts";
import { gatherLand } from "./gather-land.ts";
import { filesIn, type NamedFiles } from "./named-files.ts";
import { readPassageFile } from "./passage-text.ts";
import { readNamedText } from "./text-file.ts";

/** A passage file with all it names read and put together. */
export interface OpenedPassage {
  readonly path: string;
  readonly document: PassageDocument;
  readonly prepared: Prepared;
  /** What it was put together with, for threads that do so again. */
  readonly gathered: Gathered;
  /** The forecast and current files read, each once, with what is odd about them. */
  readonly readings: readonly ForecastReading[];
  /** What is odd about files that make one source together. */
  readonly together: readonly Oddity[];
  readonly letters: readonly { readonly file: string; readonly letter: Letter }[];
}

/** Reads a passage file and every file it names. All issues come back at once; a file named twice is read once. */
export async function openPassage(path: string): Promise<Parsed<OpenedPassage>> {
  const read = await readPassageFile(path);
  return read.ok ? openDocument(read.value, path, filesIn(dirname(path))) : read;
}

/** The same of a passage that has been read, from wherever the files that it names lie. `path` stands for it in what comes back. */
export async function openDocument(document: PassageDocument, path: string, named: NamedFiles): Promise<Parsed<OpenedPassage>> {
  const issues: Issue[] = [];
  const passage = withTides(await withSailTable(document, named, issues), issues);
  const files = new FileGatherer(named, cropAround(passage), issues);
  const letters: { file: string; letter: Letter }[] = [];
  const water: Gathered["water"][number][] = [];
  for (const [i, source] of passage.waterSources.entries()) {
    const place = `water.sources[${i}]`;
    if (source.kind === "files") water.push(await files.gridsOf(source.files, place));
    else if (source.kind === "sum") {
      const parts: (readonly GridData[] | null)[] = [];
      for (const [k, part] of source.parts.entries())
        parts.push(part.kind === "files" ? await files.gridsOf(part.files, `${place}.sum[${k}]`) : null);
      water.push({ parts });
    } else water.push(null);
  }
  const weather: Gathered["weather"][number][] = [];
  for (const [i, source] of passage.weatherSources.entries()) {
    const place = `weather.sources[${i}]`;
    if (source.kind === "files") weather.push(await files.gridsOf(source.files, place));
    else if (source.kind === "letter") {
      const letter = await letterOf(named, source, place, issues);
      if (letter !== null) letters.push({ file: source.file, letter });
      weather.push(letter === null ? null : gathered(source.file, letter));
    } else weather.push(null);
  }
  const land = await gatherLand(passage, named, issues);
  if (issues.length > 0) return bad(...issues);
  const gatheredAll: Gathered = { water, weather, land };
  const prepared = prepare(passage, gatheredAll);
  if (!prepared.ok) return prepared;
  const { readings, together } = files;
  return good({ path, document, prepared: prepared.value, gathered: gatheredAll, readings, together, letters });
}

async function letterOf(
  named: NamedFiles,
  source: Extract<Passage["weatherSources"][number], { kind: "letter" }>,
  place: string,
  issues: Issue[],
): Promise<Letter | null> {
  const text = await readNamedText(named, source.file, place, "letter");
  const letter = text.ok
    ? readLetter(text.value, { zone: source.zone, issued: source.issued, strikeOutLines: source.strikeOutLines, path: source.file })
    : text;
  if (letter.ok) return letter.value;
  issues.push(...letter.issues);
  return null;
}

function gathered(name: string, letter: Letter): GatheredLetter {
  return { name, issuedAt: letter.issuedAt, wind: letter.wind, sea: letter.sea };
}

/** The passage with its table of speeds under sail read, where the table stands in a file of its own. */
async function withSailTable(document: PassageDocument, named: NamedFiles, issues: Issue[]): Promise<Passage> {
  const { passage, sailTableFile } = document;
  if (sailTableFile === null || passage.boat.sail === null) return passage;
  const text = await readNamedText(named, sailTableFile, "boat.sail.table", "table of speeds under sail");
  const points = text.ok ? parseSailTable(text.value, sailTableFile) : text;
  if (!points.ok) {
    issues.push(...points.issues);
    return passage;
  }
  const boat = { ...passage.boat, sail: { ...passage.boat.sail, points: points.value } };
  issues.push(...checkBoat(boat));
  return { ...passage, boat };
}
