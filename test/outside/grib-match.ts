import { expect } from "vitest";
import { walkLines } from "../../src/formats/grib/grids/scan.ts";
import { axesOf, type GribField, type GribValues } from "../../src/formats/grib/index.ts";
import type { EccodesPoint } from "./eccodes.ts";

/**
 * Holds a field against ecCodes point by point: each of its points falls on one of ours (to 2e-6 degrees: both round to a millionth,
 * and ecCodes adds up rounded steps, so `placeToleranceDeg` may be widened and is then said), each of ours is hit once, and the values
 * agree to 1e-12 of their size.
 */
export function expectSameAsEccodes(field: GribField, read: GribValues, points: readonly EccodesPoint[], placeToleranceDeg = 2e-6): void {
  if (field.grid.kind === "projected") {
    expectSameInOrder(field, read, points);
    return;
  }
  const { rows, columns, southDeg, westDeg, latitudeStepDeg, longitudeStepDeg } = field.grid;
  const axes = axesOf(field.grid);
  expect(points.length).toBe(rows * columns);
  const hit = new Uint8Array(points.length);
  let worst = 0;
  let wrongPlace = 0;
  let wrongMissing = 0;
  for (const { latitudeDeg, longitudeDeg, value } of points) {
    const row = latitudeStepDeg === 0 ? 0 : Math.round((latitudeDeg - southDeg) / latitudeStepDeg);
    const eastDeg = ((((longitudeDeg - westDeg + 1e-3) % 360) + 360) % 360) - 1e-3;
    const column = longitudeStepDeg === 0 ? 0 : Math.round(eastDeg / longitudeStepDeg);
    const offDeg = Math.max(Math.abs(axes.latitudesDeg[row]! - latitudeDeg), Math.abs(axes.longitudesDeg[column]! - westDeg - eastDeg));
    if (!(offDeg <= placeToleranceDeg)) wrongPlace++;
    const at = row * columns + column;
    hit[at]!++;
    if ((read.missing[at] === 1) !== (value === null)) wrongMissing++;
    else if (value !== null) worst = Math.max(worst, Math.abs(read.values[at]! - value) / Math.max(1, Math.abs(value)));
  }
  expect({ wrongPlace, wrongMissing, hitOnce: hit.every((times) => times === 1) }).toEqual({
    wrongPlace: 0,
    wrongMissing: 0,
    hitOnce: true,
  });
  expect(worst).toBeLessThanOrEqual(1e-12);
}

/**
 * On a map's grid value after value, line by line; ecCodes' tool turns alternating lines of maps about before it prints them. Where the
 * nodes lie is held to elsewhere.
 */
function expectSameInOrder(field: GribField, read: GribValues, points: readonly EccodesPoint[]): void {
  expect(points.length).toBe(field.pointCount);
  let next = 0;
  let worst = 0;
  let wrongMissing = 0;
  walkLines({ ...field.grid.scan, alternating: false }, (first, step, length) => {
    for (let i = 0, at = first; i < length; i++, at += step) {
      const { value } = points[next++]!;
      if ((read.missing[at] === 1) !== (value === null)) wrongMissing++;
      else if (value !== null) worst = Math.max(worst, Math.abs(read.values[at]! - value) / Math.max(1, Math.abs(value)));
    }
  });
  expect({ next, wrongMissing }).toEqual({ next: field.pointCount, wrongMissing: 0 });
  expect(worst).toBeLessThanOrEqual(1e-12);
}
