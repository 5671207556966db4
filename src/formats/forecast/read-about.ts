import type { GridData } from "../../core/fields/index.ts";
import type { Allowance } from "./allowance.ts";
import type { Crop, FieldSummary, LoneGrid } from "./forecast-reading.ts";

/** What is asked of one file. */
export interface ReadAbout {
  readonly name: string;
  readonly crop: Crop | null;
  readonly contentsOnly: boolean;
  /** Names of the groups whose values are wanted; null for all. */
  readonly wanted: ReadonlySet<string> | null;
  readonly allowance: Allowance;
}

/** What it gave. */
export interface FoundInFile {
  readonly grids: readonly GridData[];
  readonly lone: readonly LoneGrid[];
  readonly contents: readonly FieldSummary[];
}
