// @ts-check
/**
 * The two invented coasts, Ostrey in the south and Norvane in the north: smooth lines of sines about a mile and a half behind the two buoys,
 * each with the inlet in which its harbour lies.
 */

/** Miles along the strait of the two inlets' middles. */
export const STANNET_ALONG_NM = 0;
export const ARL_ALONG_NM = 2;

/**
 * Miles across at which Ostrey ends.
 * @param {number} alongNm
 */
export function coastOfOstreyNm(alongNm) {
  const bends = 0.8 * Math.sin(0.24 * alongNm + 0.4) + 0.35 * Math.sin(0.61 * alongNm + 2.1) - 0.62;
  return -1.3 + bends - 0.003 * alongNm ** 2 - inlet(alongNm - STANNET_ALONG_NM, 1.5, 0.45);
}

/**
 * Miles across at which Norvane begins.
 * @param {number} alongNm
 */
export function coastOfNorvaneNm(alongNm) {
  const bends = 0.7 * Math.sin(0.27 * alongNm + 4.4) + 0.3 * Math.sin(0.66 * alongNm + 1.1) + 0.3;
  return 20.6 + bends + 0.003 * alongNm ** 2 + inlet(alongNm - ARL_ALONG_NM, 2.4, 0.4);
}

/**
 * An inlet so many miles deep and, half-way in, somewhat less than twice so many broad.
 * @param {number} alongNm from its middle
 * @param {number} deepNm
 * @param {number} broadNm
 */
function inlet(alongNm, deepNm, broadNm) {
  return deepNm * Math.exp(-((alongNm / broadNm) ** 2));
}
