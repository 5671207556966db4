import { BadInput, type Issue, issue } from "../core/answers/index.ts";
import { readAhead } from "../formats/bytes/index.ts";
import { type Crop, type ForecastReading, type JoinedReadings, joinReadings, readForecast } from "../formats/forecast/index.ts";
import { bytesFromFile } from "./file-bytes.ts";
import type { NamedFiles } from "./named-files.ts";
import { cannotOpen, notThere } from "./text-file.ts";

/** Groups of quantities that a passage is run and judged with; the rest of a file is not loaded. */
const WANTED: ReadonlySet<string> = new Set(["current", "wind", "gust", "sea height", "sea period"]);

/** Reads the forecast and current files that a passage names, each once, cropped, and puts together those of one source. */
export class FileGatherer {
  /** Every file read, in the order first named. */
  readonly readings: ForecastReading[] = [];
  /** What is odd about files of one source together. */
  readonly together: JoinedReadings["oddities"][number][] = [];
  private readonly known = new Map<string, ForecastReading | null>();
  private readonly files: NamedFiles;
  private readonly crop: Crop | null;
  private readonly issues: Issue[];

  /** Files that can't be read are told in `issues`. */
  constructor(files: NamedFiles, crop: Crop | null, issues: Issue[]) {
    this.files = files;
    this.crop = crop;
    this.issues = issues;
  }

  /** What the files of one source give together. `place` says where the passage names them. */
  async gridsOf(files: readonly string[], place: string): Promise<JoinedReadings["grids"]> {
    const readings: ForecastReading[] = [];
    for (const name of await this.expanded(files, place)) {
      const reading = await this.read(name, place);
      if (reading !== null) readings.push(reading);
    }
    const joined = joinReadings(readings);
    for (const oddity of joined.oddities) {
      if (!this.together.some((one) => one.code === oddity.code && one.message === oddity.message)) this.together.push(oddity);
    }
    return joined.grids;
  }

  private async read(name: string, place: string): Promise<ForecastReading | null> {
    const known = this.known.get(name);
    if (known !== undefined) return known;
    const reading = await readForecastFile(this.files, name, place, this.crop, this.issues);
    this.known.set(name, reading);
    // Whether a component stays alone is told once all the files are put together.
    if (reading !== null) this.readings.push({ ...reading, oddities: reading.oddities.filter((one) => one.code !== "component-alone") });
    return reading;
  }

  /** The names with `*` replaced by what there is, in the order of the alphabet. */
  private async expanded(files: readonly string[], place: string): Promise<string[]> {
    const names: string[] = [];
    for (const name of files) {
      const found = await this.files.matching(name);
      if (found === null || found.length === 0) {
        const said = found === null ? "the folder can't be read" : "there is no file of such a name";
        this.issues.push(issue(place, "file-not-opened", `${name}: ${said}`));
      } else names.push(...found);
    }
    return [...new Set(names)];
  }
}

/** A forecast or current file, cropped; null (and issues) when it can't be read. */
async function readForecastFile(
  files: NamedFiles,
  name: string,
  place: string,
  crop: Crop | null,
  issues: Issue[],
): Promise<ForecastReading | null> {
  const path = files.pathOf(name);
  if (path === null) {
    issues.push(notThere(files.shownAs(name), place));
    return null;
  }
  const shown = files.shownAs(name);
  let source: Awaited<ReturnType<typeof bytesFromFile>>;
  try {
    source = await bytesFromFile(path);
  } catch (error) {
    issues.push(
      ...(error instanceof BadInput
        ? error.issues.map((one) => ({ ...one, path: place, message: `${shown}: ${one.message}` }))
        : [cannotOpen(shown, place, error)]),
    );
    return null;
  }
  try {
    const reading = await readForecast(readAhead(source), { name, crop, wanted: WANTED });
    if (reading.ok) return reading.value;
    issues.push(...reading.issues);
    return null;
  } finally {
    await source.close();
  }
}
