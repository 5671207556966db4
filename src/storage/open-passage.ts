import { dirname, resolve } from "node:path";
import { BadInput, bad, good, type Issue, type Parsed } from "../core/answers/index.ts";
import { checkBoat } from "../core/boat/index.ts";
import type { GridData } from "../core/fields/index.ts";
import { type Gathered, type GatheredLetter, type Passage, type Prepared, prepare } from "../core/plan/index.ts";
import { type Letter, readLetter } from "../formats/bulletin/index.ts";
import { readAhead } from "../formats/bytes/index.ts";
import { type Crop, type ForecastReading, readForecast } from "../formats/forecast/index.ts";
import type { PassageDocument } from "../formats/passage/index.ts";
import { parseSailTable } from "../formats/sail-table/index.ts";
import { cropAround } from "./crop-around.ts";
import { bytesFromFile } from "./file-bytes.ts";
import { readPassageFile } from "./passage-text.ts";
import { cannotOpen, readTextFile } from "./text-file.ts";

/** A passage file with all it names read and put together. */
export interface OpenedPassage {
  readonly path: string;
  readonly document: PassageDocument;
  readonly prepared: Prepared;
  /** The forecast and current files read, each once, with what is odd about them. */
  readonly readings: readonly ForecastReading[];
  readonly letters: readonly { readonly file: string; readonly letter: Letter }[];
}

/** Reads a passage file and every file it names. All issues come back at once; a file named twice is read once. */
export async function openPassage(path: string): Promise<Parsed<OpenedPassage>> {
  const read = await readPassageFile(path);
  if (!read.ok) return read;
  const document = read.value;
  const folder = dirname(path);
  const issues: Issue[] = [];
  const passage = await withSailTable(document, folder, issues);
  const crop = cropAround(passage);
  const readings = new Map<string, ForecastReading | null>();
  const gridsOf = async (file: string, place: string): Promise<readonly GridData[]> => {
    let reading = readings.get(file);
    if (reading === undefined) {
      reading = await readForecastFile(resolve(folder, file), file, place, crop, issues);
      readings.set(file, reading);
    }
    return reading?.grids ?? [];
  };
  const letters: { file: string; letter: Letter }[] = [];
  const water: Gathered["water"][number][] = [];
  for (const [i, source] of passage.waterSources.entries()) {
    water.push(source.kind === "file" ? await gridsOf(source.file, `water.sources[${i}]`) : null);
  }
  const weather: Gathered["weather"][number][] = [];
  for (const [i, source] of passage.weatherSources.entries()) {
    const place = `weather.sources[${i}]`;
    if (source.kind === "file") weather.push(await gridsOf(source.file, place));
    else if (source.kind === "letter") {
      const letter = await letterOf(resolve(folder, source.file), source, place, issues);
      if (letter !== null) letters.push({ file: source.file, letter });
      weather.push(letter === null ? null : gathered(source.file, letter));
    } else weather.push(null);
  }
  if (issues.length > 0) return bad(...issues);
  const prepared = prepare(passage, { water, weather });
  if (!prepared.ok) return prepared;
  const known = [...readings.values()].filter((one): one is ForecastReading => one !== null);
  return good({ path, document, prepared: prepared.value, readings: known, letters });
}

/** A forecast or current file, cropped; null (and issues) when it can't be read. */
async function readForecastFile(
  path: string,
  name: string,
  place: string,
  crop: Crop | null,
  issues: Issue[],
): Promise<ForecastReading | null> {
  let source: Awaited<ReturnType<typeof bytesFromFile>>;
  try {
    source = await bytesFromFile(path);
  } catch (error) {
    issues.push(
      ...(error instanceof BadInput
        ? error.issues.map((one) => ({ ...one, path: place, message: `${path}: ${one.message}` }))
        : [cannotOpen(path, place, error)]),
    );
    return null;
  }
  try {
    const reading = await readForecast(readAhead(source), { name, crop });
    if (reading.ok) return reading.value;
    issues.push(...reading.issues);
    return null;
  } finally {
    await source.close();
  }
}

async function letterOf(
  path: string,
  source: Extract<Passage["weatherSources"][number], { kind: "letter" }>,
  place: string,
  issues: Issue[],
): Promise<Letter | null> {
  const text = await readTextFile(path, place, "letter");
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
async function withSailTable(document: PassageDocument, folder: string, issues: Issue[]): Promise<Passage> {
  const { passage, sailTableFile } = document;
  if (sailTableFile === null || passage.boat.sail === null) return passage;
  const text = await readTextFile(resolve(folder, sailTableFile), "boat.sail.table", "table of speeds under sail");
  const points = text.ok ? parseSailTable(text.value, sailTableFile) : text;
  if (!points.ok) {
    issues.push(...points.issues);
    return passage;
  }
  const boat = { ...passage.boat, sail: { ...passage.boat.sail, points: points.value } };
  issues.push(...checkBoat(boat));
  return { ...passage, boat };
}
