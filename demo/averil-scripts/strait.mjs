// @ts-check
/**
 * The second invented strait, Averil Sound: where its two buoys lie, and a frame of nautical miles across it, northward, and along it with the
 * flood. Open ocean in the world as it is: the nearest real land lies more than 700 nm off. Latitudes north and longitudes east are positive, degrees.
 */
import { straitFrame } from "../shared/frame.mjs";

/** @typedef {import("../shared/frame.mjs").Position} Position */

/** The run of the forecasts, seconds of the UTC epoch: midnight before Thursday by ship's time; how far it reaches in which steps. */
export const RUN_AT = Date.UTC(2027, 1, 17, 18) / 1000;
export const LEAD_HOURS = 120;
export const STEP_HOURS = 3;

/** Ship's time, in both countries, is six hours ahead of UTC. */
export const ZONE_HOURS = 6;

/** The fairway buoy off Stannet on the south side: the frame's origin. */
export const FROM = { latitudeDeg: -(38 + 9.5 / 60), longitudeDeg: 93 + 3 / 60 };
/** Where the wind's hours are counted: about half-way. */
export const MIDDLE = { latitudeDeg: -38, longitudeDeg: 93 };

/** Bearings of the frame's two axes, true: across to the north, along with the flood. */
export const ACROSS_DEG = 345;
export const FLOOD_DEG = 75;

export const frame = straitFrame({ origin: FROM, middle: MIDDLE, acrossDeg: ACROSS_DEG, alongDeg: FLOOD_DEG });

/** Miles across and along to the outer buoy of the bar of the Arl: the arrival. */
export const TO_NM = { acrossNm: 19.5, alongNm: 1.3 };

/** The instants of the forecasts, hours after the run. */
export const leadHours = () => Array.from({ length: LEAD_HOURS / STEP_HOURS + 1 }, (_, i) => i * STEP_HOURS);
