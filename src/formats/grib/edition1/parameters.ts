import type { GribSurface } from "../grib-field.ts";
import { ECMWF_PARAMETERS } from "./ecmwf-parameters.ts";
import type { ParameterLine } from "./parameter-line.ts";
import { WMO_PARAMETERS } from "./wmo-parameters.ts";

/** What edition 1's parameter is in edition 2's code table 4.2. */
export interface Edition1Parameter {
  readonly discipline: number;
  readonly category: number;
  readonly number: number;
  /** The level that the parameter itself names ("at 10 metres"), where section 1 only says the surface or mean sea level. */
  readonly level: GribSurface | null;
  readonly statistic: ImpliedStatistic | null;
}

/** A statistic over time that is part of the parameter's meaning ("greatest gust of the last 3 hours"). */
export interface ImpliedStatistic {
  /** WMO code table 4.10: 2 maximum, 3 minimum. */
  readonly processCode: number;
  /** The parameter is never anything else; if false, only where section 1 gives an interval. */
  readonly always: boolean;
  /** How long the interval is where section 1 doesn't give it; null where the parameter doesn't say. */
  readonly seconds: number | null;
}

const ECMWF = 98;
const NCEP = 7;
const METNO = 88;
const LAST_INTERNATIONAL_TABLE = 3;
const LAST_INTERNATIONAL_PARAMETER = 127;

const gust: ParameterLine = { is: [0, 2, 22], inRange: 2 };
const convectiveEnergy: ParameterLine = { is: [0, 7, 6] };

/** NCEP's own numbers in table version 2 (its office note 388, table 2). */
const NCEP_TABLE_2: Readonly<Record<number, ParameterLine>> = {
  156: { is: [0, 7, 7] },
  157: convectiveEnergy,
  180: gust,
};

/** MET Norway's own numbers in its table version 1. */
const METNO_TABLE_1: Readonly<Record<number, ParameterLine>> = { 225: convectiveEnergy, 228: gust };
/** MET Norway's table version 128, of its wave model, numbers waves as the international table does. */
const METNO_WAVE_TABLE = 128;

const MISSING: Edition1Parameter = { discipline: 255, category: 255, number: 255, level: null, statistic: null };

/**
 * The parameter by its table's version and its number in it. Numbers up to 127 of versions 1 to 3 are the same for all; the others are
 * a centre's own, and known only for ECMWF (or where it is the sub-centre), NCEP and MET Norway. Only what edition 2 has in the same
 * unit is told; all else is 255.
 */
export function edition1Parameter(centre: number, subCentre: number, tableVersion: number, parameter: number): Edition1Parameter {
  const line = lineOf(centre, subCentre, tableVersion, parameter);
  if (line === undefined) return MISSING;
  const [discipline, category, number] = line.is;
  return { discipline, category, number, level: line.at ?? null, statistic: statisticOf(line) };
}

function lineOf(centre: number, subCentre: number, tableVersion: number, parameter: number): ParameterLine | undefined {
  if (tableVersion >= 1 && tableVersion <= LAST_INTERNATIONAL_TABLE && parameter <= LAST_INTERNATIONAL_PARAMETER) {
    return WMO_PARAMETERS[parameter];
  }
  if (centre === ECMWF || (tableVersion >= 128 && subCentre === ECMWF)) return ECMWF_PARAMETERS[tableVersion]?.[parameter];
  if (centre === NCEP && tableVersion === 2) return NCEP_TABLE_2[parameter];
  if (centre === METNO && tableVersion === 1) return METNO_TABLE_1[parameter];
  if (centre === METNO && tableVersion === METNO_WAVE_TABLE && parameter >= 100 && parameter <= 110) return WMO_PARAMETERS[parameter];
  return undefined;
}

function statisticOf({ inRange, greatestOf, leastOf }: ParameterLine): ImpliedStatistic | null {
  if (inRange !== undefined) return { processCode: inRange, always: false, seconds: null };
  if (greatestOf !== undefined) return { processCode: 2, always: true, seconds: greatestOf };
  if (leastOf !== undefined) return { processCode: 3, always: true, seconds: leastOf };
  return null;
}
