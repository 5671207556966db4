import { bad, good, issue, type Parsed } from "../../answers/index.ts";

/** A height of the water's surface above a datum, metres, up positive, and the datum's name (`MLLW`, `LAT`). */
export interface TideHeight {
  readonly heightMetres: number;
  readonly datum: string;
}

/** How far one datum lies above another at a place, metres, and who says so. */
export interface DatumOffset {
  readonly datum: string;
  readonly aboveDatum: string;
  readonly offsetMetres: number;
  readonly source: string;
}

/** The datums' names in full; one not listed here is told as it is written. */
export const DATUM_NAMES: Readonly<Record<string, string>> = {
  LAT: "lowest astronomical tide",
  MLLW: "mean lower low water",
  MLW: "mean low water",
  MLWS: "mean low water springs",
  MSL: "mean sea level",
  NLLW: "nearly lowest low water",
  LLWLT: "lower low water, large tide",
  TLT: "tropic lower low water",
  CD: "chart datum",
  STND: "the gauge's own zero",
};

/** Datums that charts are not drawn to: a depth on a chart can't be added to a height above one of these. */
export const NOT_CHART_DATUMS: ReadonlySet<string> = new Set(["MSL", "STND"]);

/**
 * The same surface above another datum, by a stated offset between the two, in either sense. Without one that joins them it is refused
 * (`tide-datum-differs`): datums are never taken for each other.
 */
export function aboveDatum(height: TideHeight, datum: string, offsets: readonly DatumOffset[], path = "datum"): Parsed<TideHeight> {
  if (height.datum === datum) return good(height);
  for (const offset of offsets) {
    if (offset.datum === datum && offset.aboveDatum === height.datum)
      return good({ heightMetres: height.heightMetres - offset.offsetMetres, datum });
    if (offset.datum === height.datum && offset.aboveDatum === datum)
      return good({ heightMetres: height.heightMetres + offset.offsetMetres, datum });
  }
  return bad(issue(path, "tide-datum-differs", `a height above ${height.datum} is asked for above ${datum}, and no offset joins the two`));
}
