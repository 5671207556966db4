// @ts-check
/** `sea.grib2`: the whole sea, and its swell and wind sea apart, every three hours on a grid of a quarter of a degree, GRIB edition 2. */
import { instant, joined, ofRun, pointsOf, SURFACE } from "../shared/grib-grid.mjs";
import { seaAt } from "./sea.mjs";
import { leadHours, RUN_AT } from "./strait.mjs";
import { WIND_GRID } from "./wind-file.mjs";

/** Discipline 10 (oceanography), category 0 (waves): numbers of height, mean period and direction of each sea (WMO code table 4.2). */
const WAVES = { discipline: 10, category: 0 };
const NUMBERS = /** @type {const} */ ([
  ["whole", { heightMetres: 3, periodSeconds: 15, fromDeg: 14 }],
  ["swell", { heightMetres: 8, periodSeconds: 9, fromDeg: 7 }],
  ["windSea", { heightMetres: 5, periodSeconds: 6, fromDeg: 4 }],
]);
const FIGURES = /** @type {const} */ (["heightMetres", "periodSeconds", "fromDeg"]);
/** Centimetres, hundredths of a second, whole degrees. */
const DECIMALS = { heightMetres: 2, periodSeconds: 2, fromDeg: 0 };

/**
 * The whole file, message after message: by lead, then sea, then height, period and direction.
 * @param {(message: import("../shared/grib-grid.mjs").Grib2Message) => Uint8Array} write
 * @returns {Uint8Array}
 */
export function seaFile(write) {
  const parts = [];
  const points = pointsOf(WIND_GRID);
  for (const lead of leadHours()) {
    const seas = points.map((position) => seaAt(position, lead));
    for (const [sea, numbers] of NUMBERS) {
      for (const figure of FIGURES) {
        parts.push(
          write({
            ...ofRun(RUN_AT, WIND_GRID),
            ...WAVES,
            number: numbers[figure],
            level: SURFACE,
            validFrom: instant(RUN_AT, lead),
            values: Float64Array.from(seas, (one) => one[sea][figure]),
            decimalScale: DECIMALS[figure],
          }),
        );
      }
    }
  }
  return joined(parts);
}
