// @ts-check
/** `land.geojson`: the two invented coasts, and rocks that are kept out of. */
import { area, areasText } from "../shared/land-areas.mjs";
import { ARL_ALONG_NM, coastOfNorvaneNm, coastOfOstreyNm, STANNET_ALONG_NM } from "./land.mjs";
import { frame } from "./strait.mjs";

/** How far to either side the coasts are drawn, miles. */
const REACH_NM = 60;
/** From one corner to the next, miles: close together where an inlet bends the coast. */
const STEP_NM = 0.5;
const CLOSE_STEP_NM = 0.0625;
const CLOSE_WITHIN_NM = 2;
/** Where the land is closed behind the coasts, miles across. */
const BEHIND_NM = { ostrey: -60, norvane: 80 };
/** Drying rocks off Norvane, miles across and along. */
const THE_COMBS = [
  [17.4, -4.6],
  [17.9, -3.7],
  [18.6, -3.8],
  [18.7, -4.7],
  [18.1, -5.3],
];

/** The whole file's text. */
export function landText() {
  // Outer rings turn left: Ostrey's coast is drawn westward, with the land on its left, Norvane's eastward.
  const ostrey = alongs(STANNET_ALONG_NM)
    .toReversed()
    .map((alongNm) => [coastOfOstreyNm(alongNm), alongNm]);
  const norvane = alongs(ARL_ALONG_NM).map((alongNm) => [coastOfNorvaneNm(alongNm), alongNm]);
  return areasText([
    area("Ostrey", "land", placed([...ostrey, [BEHIND_NM.ostrey, -REACH_NM], [BEHIND_NM.ostrey, REACH_NM]])),
    area("Norvane", "land", placed([...norvane, [BEHIND_NM.norvane, REACH_NM], [BEHIND_NM.norvane, -REACH_NM]])),
    area("the Combs", "keptOut", placed(THE_COMBS.toReversed())),
  ]);
}

/**
 * Miles along at which a coast has its corners.
 * @param {number} inletNm
 */
function alongs(inletNm) {
  const every = [];
  for (let nm = -REACH_NM; nm <= REACH_NM; nm += CLOSE_STEP_NM) {
    if (Math.abs(nm - inletNm) <= CLOSE_WITHIN_NM || Number.isInteger(nm / STEP_NM)) every.push(nm);
  }
  return every;
}

/** @param {number[][]} corners miles across and along */
function placed(corners) {
  return corners.map(([acrossNm = 0, alongNm = 0]) => frame.positionAt(acrossNm, alongNm));
}
