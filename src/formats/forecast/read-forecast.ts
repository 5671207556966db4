import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { openNetcdf } from "../netcdf/index.ts";
import { Allowance, MOST_VARIABLES } from "./allowance.ts";
import type { Crop, ForecastReading } from "./forecast-reading.ts";
import { readGribForecast } from "./grib-forecast.ts";
import { readNetcdfForecast } from "./netcdf-forecast.ts";
import { Oddities } from "./oddities.ts";
import type { FoundInFile } from "./read-about.ts";
import { recogniseFile } from "./recognise.ts";

export interface ForecastRequest {
  /** The file's name, for messages. */
  readonly name: string;
  /** What the passage needs of it; null for all. */
  readonly crop: Crop | null;
  /** True where only `contents` is wanted: `grids` is then empty, and values are not looked at. */
  readonly contentsOnly?: boolean;
  /** Names of the quantity groups whose values are wanted, as in `quantityGroups`; all when left out. */
  readonly wanted?: ReadonlySet<string>;
}

/**
 * Reads a forecast or current file: recognised by its bytes, never by its name; fields joined over time, east and north together, cropped.
 *
 * Issues, each with the file's name as its path, where it is no such file, or of a kind that isn't read (named), or cut off or damaged.
 * What can be read but is odd is told in `oddities`.
 */
export async function readForecast(source: ByteSource, request: ForecastRequest): Promise<Parsed<ForecastReading>> {
  const { name } = request;
  const file = await recogniseFile(source);
  if (file.kind === "empty") return bad(issue(name, "file-truncated", "The file is empty."));
  if (file.kind === "other") return bad(issue(name, "file-not-recognised", `This is ${file.words}, not a forecast.`, file.whatToDo));
  const oddities = new Oddities();
  const allowance = new Allowance(source.sizeBytes);
  const about = { name, crop: request.crop, contentsOnly: request.contentsOnly ?? false, wanted: request.wanted ?? null, allowance };
  if (file.kind === "grib") {
    const read = await readGribForecast(source, about, oddities);
    return read.ok ? good(finish(read.value.edition === 1 ? "grib1" : "grib2", read.value)) : read;
  }
  const opened = await openNetcdf(source, name);
  if (!opened.ok) return opened;
  try {
    const { size } = opened.value.header.variables;
    if (size > MOST_VARIABLES) {
      return bad(issue(name, "file-too-large", `The file has ${size} variables; at most ${MOST_VARIABLES} are looked through.`));
    }
    return good(finish(opened.value.kind, await readNetcdfForecast(opened.value, about, oddities)));
  } finally {
    opened.value.close();
  }

  function finish(kind: ForecastReading["kind"], read: FoundInFile): ForecastReading {
    if (!read.contents.some((one) => one.quantity !== null)) {
      oddities.tell(
        "nothing-of-use",
        `None of the ${read.contents.length} fields in this file is a current, wind, gust or sea that can be used.`,
      );
    }
    return {
      kind,
      name,
      sizeBytes: source.sizeBytes,
      grids: read.grids,
      lone: read.lone,
      contents: read.contents,
      oddities: oddities.list(),
    };
  }
}
