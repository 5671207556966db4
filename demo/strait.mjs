// @ts-check
/**
 * The invented strait: where its two buoys lie, and a frame of nautical miles that runs across it and down-stream. Open ocean in the
 * world as it is: the nearest real land lies more than 400 nm off. Latitudes north and longitudes east are positive, degrees.
 */
import { straitFrame } from "./shared/frame.mjs";

/** @typedef {import("./shared/frame.mjs").Position} Position */
/** @typedef {{ acrossNm: number, downStreamNm: number }} Place */

/** The run of the forecasts, seconds of the UTC epoch, and how far it reaches in which steps. */
export const RUN_AT = Date.UTC(2027, 3, 6, 12) / 1000;
export const LEAD_HOURS = 192;
export const STEP_HOURS = 3;

/** Ship's time is eight hours behind UTC. */
export const ZONE_HOURS = -8;

/** The fairway buoy off Pelu Road: the frame's origin. */
export const FROM = { latitudeDeg: -(33 + 24 / 60), longitudeDeg: -(118 + 57 / 60) };
/** The fairway buoy off Port Ansa, 6 nm up-stream of square across. */
export const TO = { latitudeDeg: -(33 + 48.7 / 60), longitudeDeg: -(118 + 2.2 / 60) };
/** Where the wind's hours are counted: half-way. */
export const MIDDLE = { latitudeDeg: -33.6, longitudeDeg: -118.5 };

/** Bearings of the frame's two axes, true. */
export const ACROSS_DEG = 125;
export const DOWN_STREAM_DEG = 215;

const frame = straitFrame({ origin: FROM, middle: MIDDLE, acrossDeg: ACROSS_DEG, alongDeg: DOWN_STREAM_DEG });

/**
 * Miles across and down-stream of the fairway buoy off Pelu Road.
 * @param {Position} position
 * @returns {Place}
 */
export function placeOf(position) {
  const { acrossNm, alongNm } = frame.milesOf(position);
  return { acrossNm, downStreamNm: alongNm };
}

/**
 * The position of a place of the frame.
 * @param {Place} place
 * @returns {Position}
 */
export function positionOf({ acrossNm, downStreamNm }) {
  return frame.positionAt(acrossNm, downStreamNm);
}

/** Miles from the middle of the strait toward a bearing. */
export const milesToward = frame.milesToward;

/**
 * The instants of the forecasts, hours after the run.
 * @returns {number[]}
 */
export function leadHours() {
  return Array.from({ length: LEAD_HOURS / STEP_HOURS + 1 }, (_, i) => i * STEP_HOURS);
}
