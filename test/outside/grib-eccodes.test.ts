/**
 * GRIB2 against the reference library: ecCodes (its command-line tools, Debian package libeccodes-tools; made with 2.28.0). Our writer
 * is read by ecCodes, and what ecCodes writes is read by us.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { epochSeconds } from "../../src/core/units/index.ts";
import {
  decoded,
  fieldsOf,
  HOUR,
  holes,
  hoursOn,
  joined,
  oneField,
  patched,
  placeOf,
  RUN_AT,
  SCANS,
  signed4,
  written,
} from "../formats/grib/sample-message.ts";
import { haveEccodes, inFolder, keysByEccodes, pointsByEccodes, rewrittenByEccodes } from "./eccodes.ts";
import { expectSameAsEccodes } from "./grib-match.ts";

describe.skipIf(!haveEccodes)("GRIB2 as ecCodes reads and writes it", () => {
  test("all 16 scanning modes with and without a bitmap: the same value at every place", () =>
    inFolder(async (folder) => {
      const messages = SCANS.flatMap(({ scan }) => [written({ scan }), written({ scan, missing: holes(20) })]);
      const path = join(folder, "scans.grib2");
      writeFileSync(path, joined(...messages));
      const fields = pointsByEccodes(path);
      expect(fields.length).toBe(32);
      for (const [i, message] of messages.entries()) {
        const { octet } = SCANS[i >> 1]!;
        const field = await oneField(message);
        const read = await decoded(message, field);
        // Value after value as they stand in the message.
        for (const [k, { value }] of fields[i]!.entries()) {
          const at = placeOf(k, 4, 5, octet);
          expect([octet, k, read.missing[at] === 1]).toEqual([octet, k, value === null]);
          if (value !== null) expect(Math.abs(read.values[at]! - value)).toBeLessThanOrEqual(1e-12);
        }
        // Place by place: ecCodes' places leave alternating rows out of account; there it is asked to turn the rows first, which it can
        // do where rows are consecutive.
        if ((octet & 0x10) === 0) expectSameAsEccodes(field, read, fields[i]!);
        else if ((octet & 0x20) === 0) {
          const turned = rewrittenByEccodes(folder, message, `turned-${i}`, "swapScanningAlternativeRows=1", false);
          expectSameAsEccodes(field, read, pointsByEccodes(turned)[0]!);
        }
      }
    }));

  test("packed by ecCodes with 1 to 32 bits a value, with and without a bitmap: the same values", () =>
    inFolder(async (folder) => {
      for (let bits = 1; bits <= 32; bits++) {
        const missing = bits % 2 === 0 ? holes(20) : null;
        const values = Float64Array.from({ length: 20 }, (_, i) => Math.sin(i * 1.7) * 25);
        const path = rewrittenByEccodes(
          folder,
          written({ values, missing, decimalScale: 4 }),
          `bits-${bits}`,
          `decimalScaleFactor=0,bitsPerValue=${bits}`,
        );
        const bytes = readFileSync(path);
        const field = await oneField(bytes);
        expect(field.packing.section[19]).toBe(bits);
        expectSameAsEccodes(field, await decoded(bytes, field), pointsByEccodes(path)[0]!);
      }
    }));

  test("a constant field holds its value itself, whatever the decimal scale says", () =>
    inFolder(async (folder) => {
      const seven = patched(written({ values: new Float64Array(20).fill(7) }), 5, 18, 0, 2);
      const path = join(folder, "seven.grib2");
      writeFileSync(path, seven);
      const read = await decoded(seven, await oneField(seven));
      expect(read.values).toEqual(new Float64Array(20).fill(7));
      expect(pointsByEccodes(path)[0]!.map(({ value }) => value)).toEqual(new Array(20).fill(7));
    }));

  test("decimal scales from -2 to 6: what we write ecCodes reads as we do, to half a step of what was put in", () =>
    inFolder(async (folder) => {
      const scales = [-2, -1, 0, 1, 2, 3, 4, 5, 6];
      const values = Float64Array.from({ length: 20 }, (_, i) => Math.cos(i * 2.3) * 310 - 100);
      const messages = scales.map((decimalScale) => written({ values, decimalScale }));
      const path = join(folder, "scales.grib2");
      writeFileSync(path, joined(...messages));
      for (const [i, points] of pointsByEccodes(path).entries()) {
        const field = await oneField(messages[i]!);
        const read = await decoded(messages[i]!, field);
        expectSameAsEccodes(field, read, points);
        for (const [k, value] of read.values.entries())
          expect(Math.abs(value - values[k]!)).toBeLessThanOrEqual(0.5 / 10 ** scales[i]! + 1e-9);
      }
    }));

  test("grids over Greenwich, over 180, round the Earth, of one row and one column: the same places", () =>
    inFolder(async (folder) => {
      const grids = [
        { rows: 3, columns: 9, southDeg: -1, westDeg: -2, latitudeStepDeg: 1, longitudeStepDeg: 0.5 },
        { rows: 3, columns: 9, southDeg: 50, westDeg: 178, latitudeStepDeg: 0.25, longitudeStepDeg: 0.5 },
        { rows: 19, columns: 36, southDeg: -90, westDeg: 0, latitudeStepDeg: 10, longitudeStepDeg: 10 },
        { rows: 19, columns: 36, southDeg: -90, westDeg: -180, latitudeStepDeg: 10, longitudeStepDeg: 10 },
        { rows: 7, columns: 13, southDeg: 12, westDeg: -61, latitudeStepDeg: 1 / 12, longitudeStepDeg: 1 / 12 },
        { rows: 1, columns: 4, southDeg: 12, westDeg: -61, latitudeStepDeg: 0, longitudeStepDeg: 2 },
        { rows: 4, columns: 1, southDeg: 12, westDeg: -61, latitudeStepDeg: 2, longitudeStepDeg: 0 },
      ];
      for (const scan of [{}, { iNegative: true, jPositive: true }]) {
        const messages = grids.map((grid) => written({ grid, scan }));
        const path = join(folder, "grids.grib2");
        writeFileSync(path, joined(...messages));
        for (const [i, points] of pointsByEccodes(path).entries()) {
          const field = await oneField(messages[i]!);
          expectSameAsEccodes(field, await decoded(messages[i]!, field), points);
        }
      }
    }));

  test("angles in thirds of a degree and steps left out: the same places", () =>
    inFolder(async (folder) => {
      const grid = { rows: 2, columns: 4, southDeg: 40, westDeg: 10, latitudeStepDeg: 1, longitudeStepDeg: 1 };
      const inThirds = [
        ...signed4(1),
        ...signed4(3),
        ...signed4(121),
        ...signed4(30),
        0x30,
        ...signed4(120),
        ...signed4(33),
        ...signed4(1),
        ...signed4(1),
      ];
      const unsaid = patched(patched(written(), 3, 64, 255, 255, 255, 255, 255, 255, 255, 255), 3, 55, 0);
      for (const message of [patched(written({ grid }), 3, 39, ...inThirds), unsaid]) {
        const path = join(folder, "angles.grib2");
        writeFileSync(path, message);
        const field = await oneField(message);
        expectSameAsEccodes(field, await decoded(message, field), pointsByEccodes(path)[0]!);
      }
    }));

  test("products 4.0, 4.1, 4.8 and 4.11: ecCodes names the parameter, level, run, times and member as we do", () =>
    inFolder(async (folder) => {
      const ensemble = { kindCode: 3, perturbationNumber: 9, forecastsInEnsemble: 10 };
      const interval = { validUntil: hoursOn(9), processCode: 2 };
      const surface = { type: 1, value: null };
      const messages = [
        written(),
        written({ number: 3, ensemble }),
        written({ number: 22, interval }),
        written({ number: 22, interval, ensemble }),
        written({ discipline: 10, category: 1, number: 2, level: { type: 160, value: 0 } }),
        written({ discipline: 10, category: 1, number: 3, level: { type: 160, value: 0 } }),
        written({ discipline: 10, category: 0, number: 3, level: surface }),
        written({ discipline: 10, category: 0, number: 34, level: surface }),
        written({ validFrom: epochSeconds(RUN_AT + 90 * 60) }),
        written({ validFrom: epochSeconds(RUN_AT + 240 * HOUR) }),
      ];
      const path = join(folder, "products.grib2");
      writeFileSync(path, joined(...messages));
      const keys = [
        "productDefinitionTemplateNumber",
        "shortName",
        "typeOfLevel",
        "level",
        "dataDate",
        "dataTime",
        "stepType",
        "validityDate",
        "validityTime",
      ];
      expect(keysByEccodes(path, keys).map((row) => row.join(" "))).toEqual([
        "0 10u heightAboveGround 10 20260501 600 instant 20260501 1200",
        "1 10v heightAboveGround 10 20260501 600 instant 20260501 1200",
        "8 10fg3 heightAboveGround 10 20260501 600 max 20260501 1500",
        "11 10fg3 heightAboveGround 10 20260501 600 max 20260501 1500",
        "0 ocu oceanSurface 0 20260501 600 instant 20260501 1200",
        "0 ocv oceanSurface 0 20260501 600 instant 20260501 1200",
        "0 swh surface 0 20260501 600 instant 20260501 1200",
        "0 pp1d surface 0 20260501 600 instant 20260501 1200",
        "0 10u heightAboveGround 10 20260501 600 instant 20260501 730",
        "0 10u heightAboveGround 10 20260501 600 instant 20260511 600",
      ]);
      expect(keysByEccodes(path, ["perturbationNumber"]).map(([row]) => row)).toEqual([
        "not_found",
        "9",
        "not_found",
        "9",
        ...new Array(6).fill("not_found"),
      ]);
      expect((await fieldsOf(joined(...messages))).map((field) => field.validAt)).toEqual(
        [6, 6, 9, 9, 6, 6, 6, 6, 1.5, 240].map((hours) => RUN_AT + hours * HOUR),
      );
    }));
});
