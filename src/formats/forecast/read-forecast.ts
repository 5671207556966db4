import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { readNetcdfHeader } from "../netcdf/index.ts";
import type { Crop, ForecastReading } from "./forecast-reading.ts";
import { readGribForecast } from "./grib-forecast.ts";
import { readNetcdfForecast } from "./netcdf-forecast.ts";
import { Oddities } from "./oddities.ts";
import { recogniseFile } from "./recognise.ts";

export interface ForecastRequest {
  /** The file's name, for messages. */
  readonly name: string;
  /** What the passage needs of it; null for all. */
  readonly crop: Crop | null;
  /** True where only `contents` is wanted: `grids` is then empty, and values are not looked at. */
  readonly contentsOnly?: boolean;
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
  const about = { name, crop: request.crop, contentsOnly: request.contentsOnly ?? false };
  if (file.kind === "grib") {
    const read = await readGribForecast(source, about, oddities);
    return read.ok ? good(finish("grib2", read.value)) : read;
  }
  const header = await readNetcdfHeader(source, name);
  if (!header.ok) return header;
  return good(finish("netcdf-classic", await readNetcdfForecast(source, header.value, about, oddities)));

  function finish(kind: ForecastReading["kind"], read: Pick<ForecastReading, "grids" | "contents">): ForecastReading {
    if (!read.contents.some((one) => one.quantity !== null)) {
      oddities.tell(
        "nothing-of-use",
        `None of the ${read.contents.length} fields in this file is a current, wind, gust or sea that can be used.`,
      );
    }
    return { kind, name, sizeBytes: source.sizeBytes, grids: read.grids, contents: read.contents, oddities: oddities.list() };
  }
}
