import { resolve } from "node:path";
import { BadInput, bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import type { SailPoint } from "../core/boat/index.ts";
import type { LandArea } from "../core/coast/index.ts";
import { quoted } from "../core/units/index.ts";
import { type Letter, readLetter } from "../formats/bulletin/index.ts";
import { readAhead } from "../formats/bytes/index.ts";
import { type ForecastReading, readForecast, recogniseFile } from "../formats/forecast/index.ts";
import { readLandAreas } from "../formats/geojson/index.ts";
import { parseSailTable } from "../formats/sail-table/index.ts";
import { cropAround } from "./crop-around.ts";
import { bytesFromFile, type FileBytes } from "./file-bytes.ts";
import { LONGEST_LAND_BYTES } from "./gather-land.ts";
import { type OpenedPassage, openPassage } from "./open-passage.ts";
import type { PassageNeeds } from "./passage-needs.ts";
import { type Serving, servingOfGrids, servingOfLetter } from "./serving.ts";
import { cannotOpen, kindOfFile, LONGEST_TEXT_BYTES, readTextFile } from "./text-file.ts";
import { looksLikeGeojson, textKind } from "./text-kind.ts";

/** A file that was looked into, by its kind. `serving` is null where no passage was named, or the kind is not held against one. */
export type InspectedFile = { readonly name: string; readonly sizeBytes: number; readonly serving: Serving | null } & (
  | { readonly kind: "forecast"; readonly reading: ForecastReading }
  | { readonly kind: "letter"; readonly letter: Letter }
  | { readonly kind: "land"; readonly areas: readonly LandArea[] }
  | { readonly kind: "sailTable"; readonly points: readonly SailPoint[] }
  | { readonly kind: "passage"; readonly opened: OpenedPassage }
);

export interface InspectOptions {
  /** What is stated beside a letter; null and empty where the passage or the letter itself says it. */
  readonly zone: string | null;
  readonly issued: string | null;
  readonly strikeOutLines: readonly number[];
  /** The passage to hold the file against, or null. */
  readonly needs: PassageNeeds | null;
  /** What the file is called, where its path is not its name. */
  readonly calledName?: string;
}

/** So much of a file tells text from anything else. */
const PEEK_BYTES = 4096;

/** Looks into one file, whatever it is: told by what it holds, never by its name. Everything that is wrong with it comes back at once. */
export async function inspectFile(path: string, options: InspectOptions): Promise<Parsed<InspectedFile>> {
  const name = options.calledName ?? path;
  let source: FileBytes;
  try {
    source = await bytesFromFile(path);
  } catch (error) {
    return bad(...(error instanceof BadInput ? error.issues.map((one) => ({ ...one, path: name })) : [cannotOpen(name, name, error)]));
  }
  try {
    const start = await source.read(0, Math.min(PEEK_BYTES, source.sizeBytes));
    const recognised = await recogniseFile(source);
    // A web page or an archive is named by the forecast's reader; a passage may be written as JSON.
    const mayBeOurs = recognised.kind === "other" && /^a (?:text|JSON document)\b/.test(recognised.words);
    const longestBytes = looksLikeGeojson(new TextDecoder().decode(start)) ? LONGEST_LAND_BYTES : LONGEST_TEXT_BYTES;
    const isText = mayBeOurs && kindOfFile(start) === "text" && source.sizeBytes <= longestBytes;
    return isText ? await inspectText(path, source.sizeBytes, longestBytes, options) : await inspectForecast(name, source, options);
  } catch (error) {
    if (error instanceof BadInput) return bad(...error.issues);
    throw error;
  } finally {
    await source.close();
  }
}

async function inspectForecast(name: string, source: FileBytes, { needs }: InspectOptions): Promise<Parsed<InspectedFile>> {
  const crop = needs === null ? null : cropAround(needs.passage);
  const read = await readForecast(readAhead(source), { name, crop, contentsOnly: needs === null });
  if (!read.ok) return read;
  const reading = read.value;
  const here = new Set(reading.grids.flatMap((grid) => grid.quantities));
  const outside = reading.contents.flatMap(({ quantity }) => (quantity === null || here.has(quantity) ? [] : [quantity]));
  return good({
    name,
    sizeBytes: source.sizeBytes,
    kind: "forecast",
    reading,
    serving: needs === null ? null : servingOfGrids(reading.grids, outside, needs),
  });
}

async function inspectText(path: string, sizeBytes: number, longestBytes: number, options: InspectOptions): Promise<Parsed<InspectedFile>> {
  const name = options.calledName ?? path;
  const text = await readTextFile(path, name, "text", longestBytes, name);
  if (!text.ok) return text;
  const about = { name, sizeBytes, serving: null };
  switch (textKind(text.value)) {
    case "passage": {
      const opened = await openPassage(path);
      return opened.ok ? good({ ...about, kind: "passage", opened: opened.value }) : opened;
    }
    case "land": {
      const areas = readLandAreas(text.value, name);
      return areas.ok ? good({ ...about, kind: "land", areas: areas.value }) : areas;
    }
    case "sailTable": {
      const points = parseSailTable(text.value, name);
      return points.ok ? good({ ...about, kind: "sailTable", points: points.value }) : points;
    }
    case "letter": {
      const letter = readLetter(text.value, { ...besideLetter(name, options), path: name });
      if (!letter.ok) return bad(...(options.calledName === undefined ? withFlag(letter.issues, options.strikeOutLines) : letter.issues));
      const serving = options.needs === null ? null : servingOfLetter(letter.value, options.needs);
      return good({ ...about, kind: "letter", letter: letter.value, serving });
    }
    case "other": {
      const begins = quoted((text.value.trim().split(/[\r\n]/)[0] ?? "").slice(0, 60));
      return bad(
        issue(
          name,
          "file-not-recognised",
          `This is a text that begins ${begins}: neither a passage, a letter, a sail table nor GeoJSON.`,
          "A passage begins with the line `athwart: passage/1`, a letter has lines as THU 0600-1200 NE 12-16 G20, a sail table has wind speeds across its first line and true wind angles down, GeoJSON holds areas of land or to keep out of.",
        ),
      );
    }
  }
}

/** What stops a letter can be stated by flags here, without a passage file. */
function withFlag(issues: readonly Issue[], strikeOutLines: readonly number[]): readonly Issue[] {
  const lines = issues.flatMap((one) => (one.code === "letter-line-not-understood" ? [Number(/line (\d+)$/.exec(one.path)?.[1])] : []));
  const out = [...new Set([...strikeOutLines, ...lines])].sort((a, b) => a - b).join(",");
  return issues.map((one) => {
    if (one.code === "letter-line-not-understood") return { ...one, whatToDo: `Here type --strike-out ${out}. ${one.whatToDo}` };
    if (one.code === "letter-issue-missing") return { ...one, whatToDo: `Here type --issued "2027-04-06 1910 UTC-10". ${one.whatToDo}` };
    if (one.code === "zone-missing") return { ...one, whatToDo: `Here type --zone UTC-10. ${one.whatToDo}` };
    return one;
  });
}

/** What is stated beside a letter: what was typed, else what the passage says of the letter of this name. */
function besideLetter(path: string, { zone, issued, strikeOutLines, needs }: InspectOptions): Omit<InspectOptions, "needs"> {
  const said = needs?.passage.weatherSources.find((one) => one.kind === "letter" && resolve(needs.folder, one.file) === resolve(path));
  if (said?.kind !== "letter") return { zone, issued, strikeOutLines };
  return {
    zone: zone ?? said.zone,
    issued: issued ?? said.issued,
    strikeOutLines: strikeOutLines.length > 0 ? strikeOutLines : said.strikeOutLines,
  };
}
