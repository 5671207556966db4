import type { GridData } from "../../core/fields/index.ts";
import { type NetcdfFile, type NetcdfHeader, textOf } from "../netcdf/index.ts";
import type { Allowance } from "./allowance.ts";
import type { Crop, FieldSummary, LoneGrid } from "./forecast-reading.ts";
import { type Candidate, examineAll } from "./netcdf-examine.ts";
import { gridsOfSeries } from "./netcdf-grids.ts";
import { type NetcdfSeries, seriesOfGroup } from "./netcdf-series.ts";
import type { Oddities } from "./oddities.ts";
import { type QuantityGroup, quantityGroups } from "./quantities.ts";

/** What is asked of a file. `wanted`: names of the quantity groups whose values are wanted; null or none for all. */
interface NetcdfRequest {
  readonly name: string;
  readonly crop: Crop | null;
  readonly contentsOnly: boolean;
  readonly wanted?: ReadonlySet<string> | null;
  readonly allowance: Allowance;
}

/**
 * Contents and, unless `contentsOnly`, the cropped grids of an opened NetCDF file. `lone`: components whose other half isn't in the file,
 * along the grid where that is how they are given.
 */
export async function readNetcdfForecast(
  file: NetcdfFile,
  about: NetcdfRequest,
  oddities: Oddities,
): Promise<{ grids: GridData[]; lone: LoneGrid[]; contents: FieldSummary[] }> {
  const candidates = await examineAll(file, oddities);
  const contents = candidates.map((one) => one.summary);
  const grids: GridData[] = [];
  const lone: LoneGrid[] = [];
  for (const group of quantityGroups) {
    const chosen = seriesOfGroup(group, candidates, oddities);
    markUnused(contents, candidates, group, chosen);
    const isWanted = !about.wanted || about.wanted.has(group.name);
    if (about.contentsOnly || !isWanted) continue;
    for (const series of chosen) {
      if (series.lone === null) tellOfTide(series, oddities);
      const issuedAt = series.fields.map((field) => candidates.find((one) => one.field === field)!.summary.issuedAt)[0]!;
      const made = await gridsOfSeries(file, series, { ...about, issuedAt, source: sourceWords(about.name, file.header) }, oddities);
      for (const one of made) {
        if (series.lone === null) grids.push(one.grid);
        else lone.push(one);
      }
    }
  }
  return { grids, lone, contents };
}

/** Says in the contents which fields of a group are not used, though they could be, and why. */
function markUnused(
  contents: FieldSummary[],
  candidates: readonly Candidate[],
  group: QuantityGroup,
  chosen: readonly NetcdfSeries[],
): void {
  const used = chosen.flatMap((one) => one.fields);
  for (const [index, { field, group: own, summary }] of candidates.entries()) {
    if (!field || own !== group || used.includes(field)) continue;
    const whyNotUsed = used[0] ? `"${used[0].variable.name}" is used for it` : "its other half is missing";
    contents[index] = { ...summary, quantity: null, whyNotUsed };
  }
}

function tellOfTide({ fields }: NetcdfSeries, oddities: Oddities): void {
  const [first] = fields;
  if (first!.named.tide === "without") oddities.tell("tide-left-out", `"${first!.variable.name}" is the current without its tidal part.`);
  if (first!.named.tide === "only") oddities.tell("tide-only", `"${first!.variable.name}" is the tidal part of the current alone.`);
}

/** A file's name and what it says of its maker. */
function sourceWords(name: string, header: NetcdfHeader): string {
  const said = [textOf(header.attributes, "institution"), textOf(header.attributes, "source") || textOf(header.attributes, "title")]
    .map((text) => (text.length > 80 ? `${text.slice(0, 80)}…` : text))
    .filter((text) => text !== "");
  return said.length > 0 ? `${name} (${said.join("; ")})` : name;
}
