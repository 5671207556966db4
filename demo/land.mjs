// @ts-check
/** The two invented coasts, Tavora in the north-west and Sarume in the south-east: smooth lines of sines behind the two harbours. */

/**
 * Whether a place is dry.
 * @param {import("./strait.mjs").Place} place
 */
export function isLand({ acrossNm, downStreamNm }) {
  return acrossNm < coastOfTavoraNm(downStreamNm) || acrossNm > coastOfSarumeNm(downStreamNm);
}

/**
 * Miles across at which Tavora ends; 3.6 nm behind its buoy.
 * @param {number} downStreamNm
 */
export function coastOfTavoraNm(downStreamNm) {
  return -3.5 + 1.1 * Math.sin(0.21 * downStreamNm + 3.9) + 0.7 * Math.sin(0.43 * downStreamNm + 1.2) - 0.004 * downStreamNm ** 2;
}

/**
 * Miles across at which Sarume begins, 3.6 nm behind its buoy.
 * @param {number} downStreamNm
 */
export function coastOfSarumeNm(downStreamNm) {
  const fromAnsaNm = downStreamNm + 6;
  return 54.2 + 0.9 * Math.sin(0.19 * fromAnsaNm + 0.6) + 0.6 * Math.sin(0.47 * fromAnsaNm + 2.4) + 0.005 * fromAnsaNm ** 2;
}
