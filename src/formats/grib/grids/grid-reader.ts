import type { Parsed } from "../../../core/answers/index.ts";
import type { GribGrid } from "../grib-field.ts";
import type { Octets } from "../octets.ts";

/** The most octets of section 3 that a reader is given; every template without lists is shorter. */
export const GRID_SECTION_OCTETS = 256;

/** Reads one grid template (WMO code table 3.1). Another grid is another file with one of these, and a line in the registry. */
export interface GridReader {
  readonly template: number;
  /** `octets` is section 3 from its first octet. `path` says where it stands, for issues. A promise where the map's library must load first. */
  read(octets: Octets, path: string): Parsed<GribGrid> | Promise<Parsed<GribGrid>>;
}
