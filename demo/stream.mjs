// @ts-check
/**
 * The invented Morrel Stream: a jet of sech² profile, 3.2 kn at the axis and 7.5 nm wide, bent along a wide circle. Its rate depends on
 * the distance from the circle's centre alone, so that water is neither made nor lost. A slow swell of its strength, a swing of its axis and a
 * little tide ride on it.
 */
import { DOWN_STREAM_DEG, placeOf } from "./strait.mjs";

/** Rate on the axis, knots; half-width, nautical miles: the total is 2 × 3.2 × 7.5 = 48 kn·nm. */
export const AXIS_RATE_KN = 3.2;
export const HALF_WIDTH_NM = 7.5;
/** Miles across from the buoy off Pelu Road to the axis. */
export const AXIS_ACROSS_NM = 21;
/** The circle of the axis; its centre lies on the right hand of someone who looks down-stream. */
const RADIUS_NM = 450;
/** The strength goes 5 % up and 5 % down in a week. */
const SWELL = { share: 0.05, periodHours: 168, atLeastHours: 20 };
/** The axis swings this far either way. */
const SWING = { miles: 0.8, periodHours: 120, phaseHours: 35 };
/** The principal lunar tide: along the stream and across it, knots. */
const TIDE = { periodHours: 12.42, alongKn: 0.12, acrossKn: 0.05, phaseHours: 2.1 };

const RAD = Math.PI / 180;
const MPS_PER_KNOT = 1852 / 3600;

/**
 * How the stream's strength stands to its mean.
 * @param {number} leadHours
 */
export function strengthAt(leadHours) {
  return 1 - SWELL.share * Math.cos((2 * Math.PI * (leadHours - SWELL.atLeastHours)) / SWELL.periodHours);
}

/**
 * The current as a motion, m/s, true.
 * @param {import("./strait.mjs").Position} position
 * @param {number} leadHours hours after the run
 */
export function currentAt(position, leadHours) {
  const { acrossNm, downStreamNm } = placeOf(position);
  const fromCentreNm = acrossNm - AXIS_ACROSS_NM + RADIUS_NM;
  const swungNm = SWING.miles * Math.sin((2 * Math.PI * (leadHours - SWING.phaseHours)) / SWING.periodHours);
  const offAxisNm = Math.sqrt(fromCentreNm ** 2 + downStreamNm ** 2) - RADIUS_NM - swungNm;
  const rateKn = (strengthAt(leadHours) * AXIS_RATE_KN) / Math.cosh(offAxisNm / HALF_WIDTH_NM) ** 2;
  const setRad = DOWN_STREAM_DEG * RAD + Math.atan2(downStreamNm, fromCentreNm);
  const tideRad = (2 * Math.PI * (leadHours - TIDE.phaseHours)) / TIDE.periodHours;
  const alongKn = rateKn + TIDE.alongKn * Math.cos(tideRad);
  const leftKn = TIDE.acrossKn * Math.sin(tideRad);
  return {
    eastMps: (alongKn * Math.sin(setRad) - leftKn * Math.cos(setRad)) * MPS_PER_KNOT,
    northMps: (alongKn * Math.cos(setRad) + leftKn * Math.sin(setRad)) * MPS_PER_KNOT,
  };
}
