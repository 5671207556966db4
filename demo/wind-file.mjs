// @ts-check
/** `wind.grib2`: wind at 10 m every three hours and the greatest gust of each three, ten members, on a grid of a quarter of a degree. */
import { departures, MEMBER_COUNT } from "./members.mjs";
import { leadHours, RUN_AT, STEP_HOURS } from "./strait.mjs";
import { greatestGustMps, windMotionAt } from "./weather.mjs";

/** @typedef {import("../src/formats/grib/index.ts").Grib2Message} Grib2Message */

export const WIND_GRID = { rows: 11, columns: 13, southDeg: -34.75, westDeg: -120, latitudeStepDeg: 0.25, longitudeStepDeg: 0.25 };

/** Code tables of WMO FM 92: 4.6 (kind of member), 4.10 (2: greatest), 4.5 (103: height above ground), C-11 (65535: no centre). */
const CONTROL_KIND = 1;
const PERTURBED_KIND = 3;
const GREATEST = 2;
const TEN_METRES = { type: 103, value: 10 };
const NO_CENTRE = 65535;
const RESEARCH = 2;
/** Discipline 0, category 2 (momentum): wind toward east and north, gust. */
const EAST = 2;
const NORTH = 3;
const GUST = 22;

/**
 * The whole file, message after message: by lead, then member, then east, north and gust.
 * @param {(message: Grib2Message) => Uint8Array} write
 * @returns {Uint8Array}
 */
export function windFile(write) {
  const parts = [];
  const forecasts = departures();
  for (const lead of leadHours()) {
    for (const [member, departure] of forecasts.entries()) {
      const motions = points().map((position) => windMotionAt(position, lead, departure));
      parts.push(write({ ...common(member), number: EAST, validFrom: at(lead), values: Float64Array.from(motions, (one) => one.eastMps) }));
      parts.push(
        write({ ...common(member), number: NORTH, validFrom: at(lead), values: Float64Array.from(motions, (one) => one.northMps) }),
      );
      if (lead === 0) continue;
      const gusts = points().map((position) => greatestGustMps(position, lead, STEP_HOURS, departure));
      const interval = { validUntil: at(lead), processCode: GREATEST };
      parts.push(write({ ...common(member), number: GUST, validFrom: at(lead - STEP_HOURS), interval, values: Float64Array.from(gusts) }));
    }
  }
  return joined(parts);
}

/** @param {number} member */
function common(member) {
  return {
    centre: NO_CENTRE,
    productionStatus: RESEARCH,
    referenceAt: at(0),
    discipline: 0,
    category: 2,
    level: TEN_METRES,
    ensemble: { kindCode: member === 0 ? CONTROL_KIND : PERTURBED_KIND, perturbationNumber: member, forecastsInEnsemble: MEMBER_COUNT },
    grid: WIND_GRID,
    decimalScale: 2,
  };
}

/** @param {number} lead */
function at(lead) {
  return /** @type {import("../src/core/units/index.ts").EpochSeconds} */ (RUN_AT + lead * 3600);
}

/**
 * Row after row from the south, each from west to east.
 * @returns {import("./strait.mjs").Position[]}
 */
function points() {
  const { rows, columns, southDeg, westDeg, latitudeStepDeg, longitudeStepDeg } = WIND_GRID;
  return Array.from({ length: rows * columns }, (_, i) => ({
    latitudeDeg: southDeg + Math.floor(i / columns) * latitudeStepDeg,
    longitudeDeg: westDeg + (i % columns) * longitudeStepDeg,
  }));
}

/** @param {Uint8Array[]} parts */
function joined(parts) {
  const all = new Uint8Array(parts.reduce((size, part) => size + part.length, 0));
  let offset = 0;
  for (const part of parts) {
    all.set(part, offset);
    offset += part.length;
  }
  return all;
}
