import { describe, expect, test } from "vitest";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { codesOf, HOUR, hoursOn, oneField, patched, RUN_AT, signed4, written } from "./sample-message.ts";

const member = { kindCode: 3, perturbationNumber: 17, forecastsInEnsemble: 30 };
const greatest = { validUntil: hoursOn(9), processCode: 2 };

describe("the product", () => {
  test("template 4.0: one forecast at an instant", async () => {
    expect(await oneField(written({ centre: 7, subCentre: 2, generatingProcess: 96 }))).toMatchObject({
      editionNumber: 2,
      productTemplate: 0,
      centre: 7,
      subCentre: 2,
      generatingProcess: 96,
      discipline: 0,
      category: 2,
      number: 2,
      level: { type: 103, value: 10 },
      secondLevel: null,
      referenceAt: RUN_AT,
      validFrom: hoursOn(6),
      validAt: hoursOn(6),
      statistic: null,
      ensemble: null,
      member: 0,
      hasBitmap: false,
      pointCount: 20,
    });
  });

  test("template 4.1: a member at an instant; the control is member 0", async () => {
    expect(await oneField(written({ ensemble: member }))).toMatchObject({
      productTemplate: 1,
      ensemble: member,
      member: 17,
      validAt: hoursOn(6),
    });
    const control = { kindCode: 1, perturbationNumber: 0, forecastsInEnsemble: 30 };
    expect(await oneField(written({ ensemble: control }))).toMatchObject({ ensemble: control, member: 0 });
  });

  test("template 4.8: the greatest over an interval, which ends at validAt", async () => {
    const field = await oneField(written({ number: 22, interval: greatest }));
    expect(field).toMatchObject({ productTemplate: 8, validFrom: hoursOn(6), validAt: hoursOn(9), ensemble: null });
    expect(field.statistic).toEqual({ process: "maximum", processCode: 2 });
    const mean = await oneField(written({ interval: { ...greatest, processCode: 0 } }));
    expect(mean.statistic).toEqual({ process: "mean", processCode: 0 });
    const spread = await oneField(written({ interval: { ...greatest, processCode: 6 } }));
    expect(spread.statistic).toEqual({ process: "other", processCode: 6 });
  });

  test("template 4.11: a member's greatest over an interval", async () => {
    const field = await oneField(written({ number: 22, interval: greatest, ensemble: member }));
    expect(field).toMatchObject({ productTemplate: 11, validFrom: hoursOn(6), validAt: hoursOn(9), ensemble: member, member: 17 });
  });

  test("forecast times in minutes, seconds, days, 3, 6 and 12 hours, and before the reference (WMO code table 4.4)", async () => {
    for (const seconds of [90 * 60, 1, 240 * HOUR, -3 * HOUR, 0]) {
      expect((await oneField(written({ validFrom: epochSeconds(RUN_AT + seconds) }))).validAt).toBe(RUN_AT + seconds);
    }
    for (const [unit, hours] of [
      [2, 24],
      [10, 3],
      [11, 6],
      [12, 12],
    ] as const) {
      expect((await oneField(patched(written(), 4, 18, unit, ...signed4(2)))).validAt).toBe(hoursOn(2 * hours));
    }
    expect(await codesOf(patched(written(), 4, 18, 3))).toEqual(["product-not-read"]);
  });

  test("levels with decimals, with tens, without a value, and layers", async () => {
    for (const level of [
      { type: 160, value: 0.494 },
      { type: 100, value: 50_000 },
      { type: 101, value: null },
    ]) {
      expect((await oneField(written({ level }))).level).toEqual(level);
    }
    expect((await oneField(patched(written(), 4, 24, 0x81, ...signed4(1)))).level).toEqual({ type: 103, value: 10 });
    const layer = await oneField(patched(written(), 4, 29, 103, 0, ...signed4(80)));
    expect(layer.secondLevel).toEqual({ type: 103, value: 80 });
  });

  test("dates that are none are refused; 29 February of a leap year is one", async () => {
    for (const date of [
      [7, 234, 13, 1, 0, 0, 0],
      [7, 234, 2, 30, 0, 0, 0],
      [7, 234, 2, 29, 0, 0, 0],
      [7, 234, 1, 1, 24, 0, 0],
      [0, 0, 1, 1, 0, 0, 0],
    ]) {
      expect([date, ...(await codesOf(patched(written(), 1, 13, ...date)))]).toEqual([date, "file-lies"]);
    }
    // 2028-02-29 23:59:59.
    expect((await oneField(patched(written(), 1, 13, 7, 236, 2, 29, 23, 59, 59))).referenceAt).toBe(
      Date.UTC(2028, 1, 29, 23, 59, 59) / 1000,
    );
  });

  test("forecasts made, or for a time, outside the years 1800 to 2300 are refused, however far that is", async () => {
    const inDays = patched(written(), 4, 18, 2);
    for (const days of [0x7fff_ffff, -0x7fff_ffff, 366 * 300]) {
      expect(await codesOf(patched(inDays, 4, 19, ...signed4(days)))).toEqual(["file-lies"]);
    }
    expect(await codesOf(patched(written(), 1, 13, 0xff, 0xff))).toEqual(["file-lies"]);
    expect(await codesOf(patched(written({ interval: greatest }), 4, 35, 0xff, 0xff))).toEqual(["file-lies"]);
    expect(await codesOf(patched(inDays, 4, 19, ...signed4(16)))).toEqual([]);
  });

  test("an interval that contradicts itself is refused, with both lengths", async () => {
    const message = written({ number: 22, interval: greatest });
    expect(await codesOf(patched(message, 4, 50, ...signed4(4)))).toEqual(["file-lies"]);
    expect(await codesOf(patched(message, 4, 35, 7, 233))).toEqual(["file-lies"]);
    expect(await codesOf(patched(message, 4, 37, 0))).toEqual(["file-lies"]);
  });

  test("products that aren't read are told as such", async () => {
    expect(await codesOf(patched(written(), 4, 8, 0, 2))).toEqual(["product-not-read"]);
    expect(await codesOf(patched(written({ number: 22, interval: greatest }), 4, 42, 2))).toEqual(["product-not-read"]);
    expect(await codesOf(patched(written(), 1, 12, 2))).toEqual(["product-not-read"]);
  });

  test("what can't be written throws, quoting it", () => {
    expect(() => written({ interval: { validUntil: hoursOn(5), processCode: 2 } })).toThrow("ends before");
    expect(() => written({ referenceAt: epochSeconds(0.5) })).toThrow("0.5");
    expect(() => written({ ensemble: { ...member, perturbationNumber: 256 } })).toThrow("256");
    expect(() => written({ grid: { rows: 4, columns: 5, southDeg: 89, westDeg: 0, latitudeStepDeg: 1, longitudeStepDeg: 1 } })).toThrow(
      "89",
    );
  });

  test("the same input gives the same bytes", () => {
    expect(written({ ensemble: member })).toEqual(written({ ensemble: member }));
  });
});
