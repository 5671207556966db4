import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it, vi } from "vitest";
import { magneticField, positionOf, VARIATION_MODEL_HOLDS, variationAt } from "../../src/core/earth/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";

const realData = process.env["ATHWART_REAL_DATA"];
if (!realData) {
  console.warn("skipped: the hundred WMM2025 rows (set ATHWART_REAL_DATA to the folder that holds reference/WMM2025_TEST_VALUES.txt)");
}

const utc = (...parts: [number, number, number, number?, number?, number?]) =>
  epochSeconds(Date.UTC(parts[0], parts[1] - 1, parts[2], parts[3] ?? 0, parts[4] ?? 0, parts[5] ?? 0) / 1000);

// The technical report's table of test values for WMM2025 (NCEI and BGS): year, km, lat, lon, X, Y, Z, H, F, I, D.
const report = [
  [2025.0, 0, 80, 0, 6521.6, 145.9, 54791.5, 6523.2, 55178.5, 83.21, 1.28],
  [2025.0, 0, 0, 120, 39677.8, -109.6, -10580.2, 39677.9, 41064.3, -14.93, -0.16],
  [2025.0, 0, -80, 240, 6117.5, 15751.9, -52022.5, 16898.1, 54698.2, -72.0, 68.78],
  [2025.0, 100, 80, 0, 6216.0, 92.4, 52598.8, 6216.7, 52964.9, 83.26, 0.85],
  [2025.0, 100, 0, 120, 37688.6, -96.2, -10152.1, 37688.7, 39032.1, -15.08, -0.15],
  [2025.0, 100, -80, 240, 5907.6, 14780.3, -49540.7, 15917.1, 52035.0, -72.19, 68.21],
  [2027.5, 0, 80, 0, 6500.8, 294.5, 54869.4, 6507.5, 55253.9, 83.24, 2.59],
  [2027.5, 0, 0, 120, 39701.6, -167.4, -10381.8, 39702.0, 41036.9, -14.65, -0.24],
  [2027.5, 0, -80, 240, 6200.7, 15730.3, -51783.7, 16908.3, 54474.2, -71.92, 68.49],
  [2027.5, 100, 80, 0, 6196.7, 233.8, 52670.5, 6201.1, 53034.3, 83.29, 2.16],
  [2027.5, 100, 0, 120, 37711.5, -148.7, -9969.8, 37711.8, 39007.4, -14.81, -0.23],
  [2027.5, 100, -80, 240, 5984.0, 14760.1, -49317.7, 15927.0, 51825.7, -72.1, 67.93],
] as const;

const DEG = 0.01 + 1e-9;
const NANOTESLA = 0.1 + 1e-6;

describe("the magnetic field against the published test values of WMM2025", () => {
  it.each(report)("in %f at %f km, latitude %f, longitude %f", (year, km, lat, lon, x, y, z, h, f, i, d) => {
    const field = magneticField(year, positionOf(lat, lon), km * 1000);
    expect(Math.abs(field.variationDeg - d)).toBeLessThan(DEG);
    expect(Math.abs(field.dipDeg - i)).toBeLessThan(DEG);
    expect(Math.abs(field.northNanotesla - x)).toBeLessThan(NANOTESLA);
    expect(Math.abs(field.eastNanotesla - y)).toBeLessThan(NANOTESLA);
    expect(Math.abs(field.downNanotesla - z)).toBeLessThan(NANOTESLA);
    expect(Math.abs(field.horizontalNanotesla - h)).toBeLessThan(NANOTESLA);
    expect(Math.abs(field.totalNanotesla - f)).toBeLessThan(NANOTESLA);
  });

  it("two of the hundred rows, for those who have not the file", () => {
    const south = magneticField(2025, positionOf(-50, -103), 3000);
    expect(Math.abs(south.variationDeg - 27.96)).toBeLessThan(DEG);
    expect(Math.abs(south.dipDeg + 54.89)).toBeLessThan(DEG);
    expect(Math.abs(south.northNanotesla - 19526.532799)).toBeLessThan(NANOTESLA);
    expect(Math.abs(magneticField(2026.5, positionOf(33, -145), 12000).variationDeg - 11.96)).toBeLessThan(DEG);
  });

  it("reads instants as the model's years: the report's 2025.0 and 2027.5 at sea level", () => {
    expect(variationAt(utc(2025, 1, 1), positionOf(0, 120))).toEqual({ ok: true, variationDeg: -0.16, caution: false });
    expect(variationAt(utc(2027, 7, 2, 12), positionOf(-80, 240))).toEqual({ ok: true, variationDeg: 68.49, caution: false });
  });

  it("has no variation outside 2025.0 to 2030.0, and does not let the model guess", () => {
    const warn = vi.spyOn(console, "warn").mockImplementation(() => {});
    const place = positionOf(50, -5);
    const none = { ok: false, code: "variation-model-years", holds: VARIATION_MODEL_HOLDS };
    expect(variationAt(utc(2024, 12, 31, 23, 59, 59), place)).toEqual(none);
    expect(variationAt(utc(2030, 1, 1), place)).toEqual(none);
    expect(variationAt(utc(2025, 1, 1), place)).toMatchObject({ ok: true });
    expect(variationAt(utc(2029, 12, 31, 23, 59, 59), place)).toMatchObject({ ok: true });
    expect(() => magneticField(2030, place)).toThrow(/2030/);
    expect(warn).not.toHaveBeenCalled();
    warn.mockRestore();
  });

  // The test values' first row: H 1504 nT at 89 N 121 W (28 km up) is inside the blackout zone; the report's F1 (6523 nT) is outside both.
  it("has no variation in the blackout zone, and says caution in the zone around it", () => {
    const pole = variationAt(utc(2025, 1, 1), positionOf(89, -121));
    expect(pole).toMatchObject({ ok: false, code: "variation-field-weak" });
    expect(variationAt(utc(2025, 1, 1), positionOf(80, -96))).toMatchObject({ ok: true, caution: true });
    expect(variationAt(utc(2025, 1, 1), positionOf(80, 0))).toMatchObject({ ok: true, caution: false });
  });
});

describe.skipIf(!realData)("the magnetic field against NCEI's hundred rows", () => {
  const rows = realData
    ? readFileSync(join(realData, "reference", "WMM2025_TEST_VALUES.txt"), "utf8")
        .split("\n")
        .filter((line) => /^\s*20/.test(line))
        .map((line) => line.trim().split(/\s+/).map(Number))
    : [];

  it("has the hundred", () => expect(rows).toHaveLength(100));

  it("agrees to 0.01° and 0.1 nT in every one", () => {
    for (const row of rows) {
      const [year, km, lat, lon, d, i, h, x, y, z, f] = row as [
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const field = magneticField(year, positionOf(lat, lon), km * 1000);
      expect(Math.abs(field.variationDeg - d)).toBeLessThan(DEG);
      expect(Math.abs(field.dipDeg - i)).toBeLessThan(DEG);
      expect(Math.abs(field.horizontalNanotesla - h)).toBeLessThan(NANOTESLA);
      expect(Math.abs(field.northNanotesla - x)).toBeLessThan(NANOTESLA);
      expect(Math.abs(field.eastNanotesla - y)).toBeLessThan(NANOTESLA);
      expect(Math.abs(field.downNanotesla - z)).toBeLessThan(NANOTESLA);
      expect(Math.abs(field.totalNanotesla - f)).toBeLessThan(NANOTESLA);
    }
  });
});
