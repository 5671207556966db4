// @ts-check
/**
 * The invented strait: where its two buoys lie, and a frame of nautical miles that runs across it and down-stream. Open ocean in the
 * world as it is: the nearest real land lies more than 400 nm off. Latitudes north and longitudes east are positive, degrees.
 */

/** @typedef {{ latitudeDeg: number, longitudeDeg: number }} Position */
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

const RAD = Math.PI / 180;
/** Miles of longitude in a degree, the same over the whole strait: good to 2 % at its edges, and exact for an invented sea. */
const NM_PER_DEGREE_EAST = 60 * Math.cos(MIDDLE.latitudeDeg * RAD);

/**
 * Miles across and down-stream of the fairway buoy off Pelu Road.
 * @param {Position} position
 * @returns {Place}
 */
export function placeOf({ latitudeDeg, longitudeDeg }) {
  const eastNm = (longitudeDeg - FROM.longitudeDeg) * NM_PER_DEGREE_EAST;
  const northNm = (latitudeDeg - FROM.latitudeDeg) * 60;
  return { acrossNm: along(eastNm, northNm, ACROSS_DEG), downStreamNm: along(eastNm, northNm, DOWN_STREAM_DEG) };
}

/**
 * The position of a place of the frame.
 * @param {Place} place
 * @returns {Position}
 */
export function positionOf({ acrossNm, downStreamNm }) {
  const eastNm = acrossNm * Math.sin(ACROSS_DEG * RAD) + downStreamNm * Math.sin(DOWN_STREAM_DEG * RAD);
  const northNm = acrossNm * Math.cos(ACROSS_DEG * RAD) + downStreamNm * Math.cos(DOWN_STREAM_DEG * RAD);
  return { latitudeDeg: FROM.latitudeDeg + northNm / 60, longitudeDeg: FROM.longitudeDeg + eastNm / NM_PER_DEGREE_EAST };
}

/**
 * The part of a displacement that lies along a bearing.
 * @param {number} eastNm
 * @param {number} northNm
 * @param {number} bearingDeg
 */
function along(eastNm, northNm, bearingDeg) {
  return eastNm * Math.sin(bearingDeg * RAD) + northNm * Math.cos(bearingDeg * RAD);
}

/**
 * Miles from the middle of the strait toward a bearing.
 * @param {Position} position
 * @param {number} bearingDeg
 */
export function milesToward({ latitudeDeg, longitudeDeg }, bearingDeg) {
  const eastNm = (longitudeDeg - MIDDLE.longitudeDeg) * NM_PER_DEGREE_EAST;
  return along(eastNm, (latitudeDeg - MIDDLE.latitudeDeg) * 60, bearingDeg);
}

/**
 * The instants of the forecasts, hours after the run.
 * @returns {number[]}
 */
export function leadHours() {
  return Array.from({ length: LEAD_HOURS / STEP_HOURS + 1 }, (_, i) => i * STEP_HOURS);
}
