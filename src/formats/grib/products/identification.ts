import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { EpochSeconds } from "../../../core/units/index.ts";
import { dateAt } from "../dates.ts";
import type { Octets } from "../octets.ts";

/** What section 1 says of the run. */
export interface GribIdentification {
  /** WMO common code table C-11. */
  readonly centre: number;
  readonly subCentre: number;
  readonly referenceAt: EpochSeconds;
  /** WMO code table 1.2: 0 analysis, 1 start of forecast, 2 the time the forecast is for, 3 observation. */
  readonly referenceSignificance: number;
}

export const IDENTIFICATION_OCTETS = 21;

/** Section 1, or what can't be true in it. */
export function readIdentification(octets: Octets, path: string): Parsed<GribIdentification> {
  if (octets.length < IDENTIFICATION_OCTETS) return bad(issue(path, "file-lies", `Section 1 is only ${octets.length} octets long.`));
  const referenceAt = dateAt(octets, 13);
  if (referenceAt === null) return bad(issue(path, "file-lies", "The reference time is no date."));
  return good({ centre: octets.u16(6), subCentre: octets.u16(8), referenceAt, referenceSignificance: octets.u8(12) });
}
