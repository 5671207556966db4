// @ts-check
/** What both demos' GRIB files have in common: no centre, code tables, the points of a grid, messages put together. */

/** @typedef {import("../../src/formats/grib/index.ts").Grib2Message} Grib2Message */
/** @typedef {import("../../src/formats/grib/index.ts").Grib2Message["grid"]} Grid */

/** Code tables of WMO FM 92: C-11 (65535: no centre), 1.3 (2: research), 4.6 (kind of member), 4.10 (2: greatest). */
const NO_CENTRE = 65535;
const RESEARCH = 2;
const CONTROL_KIND = 1;
const PERTURBED_KIND = 3;
export const GREATEST = 2;

/** Table 4.5, 103: height above ground; 1: the water's surface. */
export const TEN_METRES = { type: 103, value: 10 };
export const SURFACE = { type: 1, value: null };

/** Discipline 0, category 2 (momentum): wind toward east and north, gust. */
export const EAST = 2;
export const NORTH = 3;
export const GUST = 22;

/**
 * What stands in every message of a run.
 * @param {number} runAt seconds of the UTC epoch
 * @param {Grid} grid
 */
export function ofRun(runAt, grid) {
  return { centre: NO_CENTRE, productionStatus: RESEARCH, referenceAt: instant(runAt, 0), grid };
}

/**
 * The one of several forecasts that a message belongs to; the first is the control.
 * @param {number} member
 * @param {number} count
 */
export function memberOf(member, count) {
  return { kindCode: member === 0 ? CONTROL_KIND : PERTURBED_KIND, perturbationNumber: member, forecastsInEnsemble: count };
}

/**
 * @param {number} runAt seconds of the UTC epoch
 * @param {number} leadHours
 */
export function instant(runAt, leadHours) {
  return /** @type {import("../../src/core/units/index.ts").EpochSeconds} */ (runAt + leadHours * 3600);
}

/**
 * Row after row from the south, each from west to east.
 * @param {Grid} grid
 * @returns {import("./frame.mjs").Position[]}
 */
export function pointsOf({ rows, columns, southDeg, westDeg, latitudeStepDeg, longitudeStepDeg }) {
  return Array.from({ length: rows * columns }, (_, i) => ({
    latitudeDeg: southDeg + Math.floor(i / columns) * latitudeStepDeg,
    longitudeDeg: westDeg + (i % columns) * longitudeStepDeg,
  }));
}

/** @param {Uint8Array[]} parts */
export function joined(parts) {
  const all = new Uint8Array(parts.reduce((size, part) => size + part.length, 0));
  let offset = 0;
  for (const part of parts) {
    all.set(part, offset);
    offset += part.length;
  }
  return all;
}
