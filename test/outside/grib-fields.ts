import type { Grib2Grid } from "../../src/formats/grib/index.ts";

/** Grids of several shapes on an invented patch of sea, steps in whole degrees' parts. */
export const SHAPES = {
  small: { rows: 4, columns: 5, southDeg: -31, westDeg: 12.5, latitudeStepDeg: 0.5, longitudeStepDeg: 0.25 },
  middling: { rows: 23, columns: 37, southDeg: 40, westDeg: -20, latitudeStepDeg: 0.25, longitudeStepDeg: 0.25 },
  wide: { rows: 2, columns: 701, southDeg: 10, westDeg: 100, latitudeStepDeg: 0.5, longitudeStepDeg: 0.125 },
  tall: { rows: 301, columns: 3, southDeg: -60, westDeg: 5, latitudeStepDeg: 0.25, longitudeStepDeg: 0.5 },
  row: { rows: 1, columns: 99, southDeg: 10, westDeg: 100, latitudeStepDeg: 0, longitudeStepDeg: 0.5 },
} as const satisfies Readonly<Record<string, Grib2Grid>>;

const over = (grid: Grib2Grid, at: (row: number, column: number, i: number) => number): Float64Array =>
  Float64Array.from({ length: grid.rows * grid.columns }, (_, i) => at(Math.floor(i / grid.columns), i % grid.columns, i));

/** A number from 0 to 1 that is another for every i and always the same for it. */
const scattered = (i: number): number => {
  const turned = Math.imul(i ^ (i >>> 7), 0x9e37_79b1) ^ 0x5bd1_e995;
  return (Math.imul(turned ^ (turned >>> 15), 0x85eb_ca77) >>> 0) / 2 ** 32;
};

/** Kinds of field: a swell, wind with noise, rain in patches with nought between, a few levels, a step from end to end of the range. */
export const FIELDS = {
  smooth: (grid: Grib2Grid) => over(grid, (row, column) => 8 * Math.sin(row / 9) * Math.cos(column / 14) + column / 50),
  noisy: (grid: Grib2Grid) => over(grid, (row, column, i) => 5 * Math.sin((row + column) / 20) + 20 * scattered(i)),
  patchy: (grid: Grib2Grid) => over(grid, (row, column, i) => Math.max(0, Math.sin(row / 3 + column / 11) - 0.6) * (1 + scattered(i))),
  levels: (grid: Grib2Grid) => over(grid, (_row, _column, i) => Math.floor(7 * scattered(Math.floor(i / 3)))),
  stepped: (grid: Grib2Grid) => over(grid, (row, column) => ((Math.floor(row / 4) + Math.floor(column / 10)) % 2 === 0 ? -40 : 40)),
} as const;
