import { joinReadings, type Oddity } from "../formats/forecast/index.ts";
import type { InspectedFile } from "./inspect-file.ts";
import type { PassageNeeds } from "./passage-needs.ts";
import { type Serving, servingOfGrids } from "./serving.ts";

/** What several forecast and current files are worth to a passage as one source. */
export interface FilesTogether {
  readonly fileCount: number;
  readonly serving: Serving;
  readonly oddities: readonly Oddity[];
}

/** The forecast and current files among those looked into, put together; null where there are fewer than two. */
export function filesTogether(files: readonly InspectedFile[], needs: PassageNeeds): FilesTogether | null {
  const readings = files.flatMap((file) => (file.kind === "forecast" ? [file.reading] : []));
  if (readings.length < 2) return null;
  const joined = joinReadings(readings);
  return { fileCount: readings.length, serving: servingOfGrids(joined.grids, [], needs), oddities: joined.oddities };
}
