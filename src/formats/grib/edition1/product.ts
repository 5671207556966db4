import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import { type EpochSeconds, epochSeconds } from "../../../core/units/index.ts";
import type { GribProcess, GribProduct, GribStatistic, GribSurface } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import { edition1Level } from "./levels.ts";
import { edition1Ensemble } from "./members.ts";
import { type Edition1Parameter, edition1Parameter } from "./parameters.ts";
import { type Edition1Times, edition1Times } from "./time-range.ts";

/**
 * Section 1 (Manual on Codes I.2, FM 92 GRIB edition 1): what the values are and for when, in edition 2's terms; or why the product
 * isn't read. A parameter that edition 2 has nothing for is a product all the same.
 */
export function readEdition1Product(octets: Octets, path: string): Parsed<GribProduct> {
  const [centre, subCentre] = [octets.u8(5), octets.u8(26)];
  const [tableVersion, parameter] = [octets.u8(4), octets.u8(9)];
  const times = edition1Times(octets, path);
  if (!times.ok) return times;
  const ensemble = edition1Ensemble(octets, centre, subCentre, path);
  if (!ensemble.ok) return ensemble;
  const meaning = edition1Parameter(centre, subCentre, tableVersion, parameter);
  const { level, secondLevel } = edition1Level(octets);
  const { validFrom, statistic } = intervalOf(times.value, meaning);
  if (validFrom > times.value.validAt) return bad(issue(path, "file-lies", "The interval ends before it begins."));
  return good({
    centre,
    subCentre,
    generatingProcess: octets.u8(6),
    discipline: meaning.discipline,
    category: meaning.category,
    number: meaning.number,
    edition1: { tableVersion, parameter },
    level: settledLevel(level, meaning),
    secondLevel,
    referenceAt: times.value.referenceAt,
    productTemplate: (ensemble.value === null ? 0 : 1) + (statistic === null ? 0 : ensemble.value === null ? 8 : 10),
    validFrom,
    validAt: times.value.validAt,
    statistic,
    ensemble: ensemble.value,
    member: ensemble.value === null ? 0 : ensemble.value.perturbationNumber,
  });
}

const GROUND_OR_WATER_SURFACE = 1;
const MEAN_SEA_LEVEL = 101;
const ALTITUDE = 102;
const HEIGHT = 103;
const OCEANOGRAPHY = 10;

/**
 * The level that the parameter names, where section 1 leaves it at the surface or mean sea level ("wind at 10 metres", on level
 * "surface"). What belongs to the sea at height nought, or at altitude nought, is at its surface.
 */
function settledLevel(level: GribSurface, meaning: Edition1Parameter): GribSurface {
  const isSurface = level.type === GROUND_OR_WATER_SURFACE || level.type === MEAN_SEA_LEVEL;
  if (isSurface && meaning.level !== null) return meaning.level;
  if (meaning.discipline !== OCEANOGRAPHY || level.value !== 0) return level;
  if (level.type === HEIGHT) return { type: GROUND_OR_WATER_SURFACE, value: null };
  return level.type === ALTITUDE ? { type: MEAN_SEA_LEVEL, value: null } : level;
}

/** WMO code table 4.10. */
const PROCESS_CODES = { mean: 0, accumulation: 1, difference: 4 } as const;
const PROCESSES: Readonly<Record<number, GribProcess>> = { 0: "mean", 1: "accumulation", 2: "maximum", 3: "minimum" };
const MISSING_PROCESS = 255;

/**
 * The interval and what was made over it. A parameter such as "greatest gust of the last 3 hours" brings its own where section 1 gives
 * none, never from before the run; where even the parameter doesn't say how long ("since the previous output"), it is the longest it
 * can be: from the run's start.
 */
function intervalOf(
  { referenceAt, validFrom, validAt, range }: Edition1Times,
  { statistic }: Edition1Parameter,
): { readonly validFrom: EpochSeconds; readonly statistic: GribStatistic | null } {
  if (range === "mean" || range === "accumulation" || range === "difference") {
    return { validFrom, statistic: statisticFor(PROCESS_CODES[range]) };
  }
  if (range === "parameter") return { validFrom, statistic: statisticFor(statistic?.processCode ?? MISSING_PROCESS) };
  if (statistic === null || !statistic.always) return { validFrom, statistic: null };
  const longest = Math.max(0, validAt - referenceAt);
  return {
    validFrom: epochSeconds(validAt - Math.min(longest, statistic.seconds ?? longest)),
    statistic: statisticFor(statistic.processCode),
  };
}

function statisticFor(processCode: number): GribStatistic {
  return { process: PROCESSES[processCode] ?? "other", processCode };
}
