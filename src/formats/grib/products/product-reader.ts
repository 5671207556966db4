import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import { type EpochSeconds, epochSeconds } from "../../../core/units/index.ts";
import { dateAt, faultOfTimes, secondsInTimeUnit } from "../dates.ts";
import type { GribEnsemble, GribProcess, GribProduct, GribStatistic, GribSurface } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import type { GribIdentification } from "./identification.ts";

/** The most octets of section 4 that are looked at: all but the lists of the templates read here. */
export const PRODUCT_SECTION_OCTETS = 256;

/**
 * The product templates read (WMO code table 4.0), by which blocks follow the level, each with the octet at which it begins: an
 * individual member's, an interval's. All share the octets 10 to 34.
 */
const LAYOUTS: ReadonlyMap<
  number,
  { readonly ensembleOctet: number | null; readonly intervalOctet: number | null; readonly octets: number }
> = new Map([
  [0, { ensembleOctet: null, intervalOctet: null, octets: 34 }],
  [1, { ensembleOctet: 35, intervalOctet: null, octets: 37 }],
  [8, { ensembleOctet: null, intervalOctet: 35, octets: 58 }],
  [11, { ensembleOctet: 35, intervalOctet: 38, octets: 61 }],
]);

/** Section 4: what the values are and for when, or why the product isn't read. */
export function readProduct(octets: Octets, run: GribIdentification, discipline: number, path: string): Parsed<GribProduct> {
  if (octets.length < 9) return bad(issue(path, "file-lies", `Section 4 is only ${octets.length} octets long.`));
  const template = octets.u16(8);
  const layout = LAYOUTS.get(template);
  if (layout === undefined) return bad(issue(path, "product-not-read", `Product template 4.${template} is not read.`));
  if (octets.length < layout.octets) {
    return bad(issue(path, "file-lies", `Section 4 is only ${octets.length} octets long; template 4.${template} takes ${layout.octets}.`));
  }
  if (run.referenceSignificance === 2) {
    return bad(issue(path, "product-not-read", "The reference time is the time the forecast is for: when it was made isn't said."));
  }
  const unit = secondsInTimeUnit(octets.u8(18));
  if (unit === null)
    return bad(issue(path, "product-not-read", `The forecast time is in a unit with no one length (code ${octets.u8(18)}).`));
  const validFrom = epochSeconds(run.referenceAt + octets.s32(19) * unit);
  const begin = faultOfTimes(run.referenceAt, validFrom);
  if (begin !== null) return bad(issue(path, "file-lies", begin));
  const interval = layout.intervalOctet === null ? null : readInterval(octets, layout.intervalOctet, validFrom, path);
  if (interval !== null && !interval.ok) return interval;
  const ensemble = layout.ensembleOctet === null ? null : readEnsemble(octets, layout.ensembleOctet);
  return good({
    centre: run.centre,
    subCentre: run.subCentre,
    generatingProcess: octets.u8(14),
    discipline,
    category: octets.u8(10),
    number: octets.u8(11),
    edition1: null,
    level: readSurface(octets, 23) ?? { type: 255, value: null },
    secondLevel: readSurface(octets, 29),
    referenceAt: run.referenceAt,
    productTemplate: template,
    validFrom,
    validAt: interval === null ? validFrom : interval.value.until,
    statistic: interval === null ? null : interval.value.statistic,
    ensemble,
    member: ensemble === null ? 0 : ensemble.perturbationNumber,
  });
}

/** A level's type, scale factor and scaled value; null where the type is missing. */
function readSurface(octets: Octets, octet: number): GribSurface | null {
  const type = octets.u8OrMissing(octet);
  if (type === null) return null;
  const scaled = octets.u32OrMissing(octet + 2);
  if (octets.u8OrMissing(octet + 1) === null || scaled === null) return { type, value: null };
  const scale = octets.s8(octet + 1);
  return { type, value: scale < 0 ? scaled * 10 ** -scale : scaled / 10 ** scale };
}

function readEnsemble(octets: Octets, octet: number): GribEnsemble {
  return { kindCode: octets.u8(octet), perturbationNumber: octets.u8(octet + 1), forecastsInEnsemble: octets.u8(octet + 2) };
}

const PROCESSES: Readonly<Record<number, GribProcess>> = { 0: "mean", 1: "accumulation", 2: "maximum", 3: "minimum" };

/** The end of the interval, then one time range. Several ranges are statistics of statistics, which nothing here asks for. */
function readInterval(
  octets: Octets,
  octet: number,
  from: EpochSeconds,
  path: string,
): Parsed<{ readonly until: EpochSeconds; readonly statistic: GribStatistic }> {
  const until = dateAt(octets, octet);
  if (until === null) return bad(issue(path, "file-lies", "The end of the interval is no date."));
  const end = faultOfTimes(until);
  if (end !== null) return bad(issue(path, "file-lies", end));
  const ranges = octets.u8(octet + 7);
  if (ranges !== 1)
    return bad(issue(path, "product-not-read", `The values come from ${ranges} time ranges, one within another; only one is read.`));
  const processCode = octets.u8(octet + 12);
  const unit = secondsInTimeUnit(octets.u8(octet + 14));
  const length = octets.u32(octet + 15);
  const saidLength = unit === null ? null : length * unit;
  // Only where the forecast time alone is stepped (code table 4.11, 2) is the range's length the interval's.
  const stepsForecast = octets.u8(octet + 13) === 2;
  if (until < from || (stepsForecast && saidLength !== null && saidLength !== until - from)) {
    return bad(issue(path, "file-lies", `The interval is said to last ${saidLength ?? "?"} s, but its ends are ${until - from} s apart.`));
  }
  return good({ until, statistic: { process: PROCESSES[processCode] ?? "other", processCode } });
}
