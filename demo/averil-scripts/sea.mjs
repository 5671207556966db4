// @ts-check
/** The invented sea: a swell from the south-west that comes up the strait, by a short table, and the sea of the control's wind on it. */
import { figuresAt } from "../shared/week.mjs";
import { windSeaAt } from "../shared/wind-sea.mjs";
import { frame, MIDDLE } from "./strait.mjs";
import { CONTROL, windAt } from "./weather.mjs";

/** @typedef {import("../shared/frame.mjs").Position} Position */

/** Hour, significant height (metres), mean period (seconds) of the swell. */
const SWELL = [
  [-24, 1.1, 9],
  [0, 1.1, 9],
  [24, 1.1, 9.5],
  [40, 1.15, 9.5],
  [60, 1.4, 9.5],
  [72, 1.6, 10],
  [84, 1.4, 10.5],
  [96, 1.1, 10],
  [110, 0.9, 9.5],
  [150, 0.8, 9],
];
export const SWELL_FROM_DEG = 228;
/** It loses so much of its height in so many miles up the strait. */
const LOST = { share: 0.1, miles: 30 };

/**
 * Swell and wind sea at a place: heights significant, in metres, mean periods in seconds, directions they come from, true.
 * @param {Position} position
 * @param {number} leadHours hours after the run
 */
export function seaAt(position, leadHours) {
  const [offered = 0, periodSeconds = 0] = figuresAt(SWELL, leadHours);
  const swell = {
    heightMetres: offered * (1 - LOST.share * Math.max(-1, Math.min(1, frame.milesToward(position, 75) / LOST.miles))),
    periodSeconds,
    fromDeg: SWELL_FROM_DEG,
  };
  const windSea = {
    ...windSeaAt((hour) => windAt(MIDDLE, hour, CONTROL).speedKn, leadHours),
    fromDeg: windAt(MIDDLE, leadHours, CONTROL).fromDeg,
  };
  return { swell, windSea, whole: together([swell, windSea]) };
}

const RAD = Math.PI / 180;

/**
 * Seas together: heights by squares, the mean period by the frequencies' mean over the energies (m₀/m₁ of the two spectra together), the
 * direction by the energies.
 * @param {{ heightMetres: number, periodSeconds: number, fromDeg: number }[]} seas
 */
function together(seas) {
  const energies = seas.map((one) => one.heightMetres ** 2);
  const sum = (/** @type {(sea: typeof seas[number]) => number} */ of) =>
    seas.reduce((total, sea, i) => total + Number(energies[i]) * of(sea), 0);
  const energy = sum(() => 1);
  const [east, north] = [sum((one) => Math.sin(one.fromDeg * RAD)), sum((one) => Math.cos(one.fromDeg * RAD))];
  return {
    heightMetres: Math.sqrt(energy),
    periodSeconds: energy / sum((one) => 1 / one.periodSeconds),
    fromDeg: (Math.atan2(east, north) / RAD + 360) % 360,
  };
}
