// @ts-check
/** `land.geojson`: the two invented coasts and a reef that is kept out of, as GeoJSON (RFC 7946). */
import { coastOfSarumeNm, coastOfTavoraNm } from "./land.mjs";
import { area, areasText } from "./shared/land-areas.mjs";
import { positionOf } from "./strait.mjs";

/** How far up- and down-stream of the buoy off Pelu Road the coasts are drawn, miles: beyond the current's grid on all sides. */
const REACH_NM = 130;
/** From one corner to the next, miles; the coasts' bends are wide, so that the outline is nowhere more than some 15 m off. */
const STEP_NM = 0.5;
/** Where the land is closed behind the coasts, miles across. */
const BEHIND_NM = { tavora: -170, sarume: 230 };
/** A drying reef off Sarume, miles across and down-stream. */
const HARRIER_REEF = [
  [49.6, 15.7],
  [50.6, 15.4],
  [51.3, 16.2],
  [51.1, 17.5],
  [50.2, 17.9],
  [49.5, 16.9],
];

/** The whole file's text. */
export function landText() {
  const along = Array.from({ length: (2 * REACH_NM) / STEP_NM + 1 }, (_, i) => i * STEP_NM - REACH_NM);
  // Outer rings turn left: Sarume's coast is drawn down-stream, with the land on its left, Tavora's up-stream.
  const tavora = along.toReversed().map((downStreamNm) => [coastOfTavoraNm(downStreamNm), downStreamNm]);
  const sarume = along.map((downStreamNm) => [coastOfSarumeNm(downStreamNm), downStreamNm]);
  return areasText([
    area("Tavora", "land", placed([...tavora, [BEHIND_NM.tavora, -REACH_NM], [BEHIND_NM.tavora, REACH_NM]])),
    area("Sarume", "land", placed([...sarume, [BEHIND_NM.sarume, REACH_NM], [BEHIND_NM.sarume, -REACH_NM]])),
    area("Harrier Reef", "keptOut", placed(HARRIER_REEF)),
  ]);
}

/** @param {number[][]} corners miles across and down-stream */
function placed(corners) {
  return corners.map(([acrossNm = 0, downStreamNm = 0]) => positionOf({ acrossNm, downStreamNm }));
}
