import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type SailPoint, type SailTable, sailCoverage, sailSpeedMps, sailTable } from "../../../src/core/boat/index.ts";
import { kn, points } from "./boats.ts";

function build(list: readonly SailPoint[]): SailTable {
  const table = sailTable(list);
  if (!table.ok) throw new Error(JSON.stringify(table.issues));
  return table.value;
}
function issuesOf(list: readonly SailPoint[]) {
  const table = sailTable(list);
  return table.ok ? [] : table.issues;
}
const table = build(points);
const at = (angleDeg: number, windKnots: number): number => sailSpeedMps(table, angleDeg, kn(windKnots)) / kn(1);

describe("speed from a sail table", () => {
  it("gives every point of the table back, on either side of the boat", () => {
    for (const point of points) {
      for (const angle of [point.trueWindAngleDeg, -point.trueWindAngleDeg, 360 - point.trueWindAngleDeg]) {
        expect(sailSpeedMps(table, angle, point.trueWindMps)).toBeCloseTo(point.speedMps, 12);
      }
    }
  });

  it("is bilinear between the points", () => {
    expect(at(75, 10)).toBeCloseTo((6.1 + 6.5) / 2, 12);
    expect(at(60, 8)).toBeCloseTo((4.5 + 6.1) / 2, 12);
    expect(at(75, 8)).toBeCloseTo((4.5 + 6.1 + 4.9 + 6.5) / 4, 12);
    expect(at(130, 18)).toBeCloseTo(((7.3 + 7.8) / 2) * (2 / 3) + (6.6 + 7.2) / 2 / 3, 12);
  });

  it("does not sail closer than the closest row", () => {
    expect(at(44.9, 10)).toBe(0);
    expect(at(0, 20)).toBe(0);
    expect(at(45 - 1e-12, 10)).toBeCloseTo(5.4, 9);
    expect(sailCoverage(table, -30, kn(10))).toEqual({ angle: "too-close-to-sail", wind: "on-table" });
  });

  it("goes with the wind to nothing in a calm below the lowest wind speed", () => {
    expect(at(90, 3)).toBeCloseTo(4.9 / 2, 12);
    expect(at(90, 0)).toBe(0);
    expect(sailCoverage(table, 90, kn(3)).wind).toBe("lighter-than-table");
  });

  it("holds the highest wind speed's speed in more wind, and says so", () => {
    expect(at(90, 35)).toBeCloseTo(7.6, 12);
    expect(sailCoverage(table, 90, kn(35)).wind).toBe("stronger-than-table");
    expect(sailCoverage(table, 90, kn(20)).wind).toBe("on-table");
  });

  it("makes good by gybing what lies beyond the widest row: the two gybes' vectors add up to it", () => {
    for (const angle of [150, 160, 180]) {
      // Time shares a and 1−a on the two gybes give a made-good vector (east, down) of 4.9·((1−2a)·sin150, −cos150).
      const down = -4.9 * Math.cos((150 * Math.PI) / 180);
      const acrossKnots = down * Math.tan(((180 - angle) * Math.PI) / 180);
      expect(at(angle, 10)).toBeCloseTo(Math.hypot(down, acrossKnots), 9);
      expect(at(angle, 10)).toBeLessThanOrEqual(4.9 + 1e-12);
    }
    expect(sailCoverage(table, 170, kn(10)).angle).toBe("wider-than-table");
  });

  it("never goes faster than the table's fastest, nor below nothing, at any angle and wind", () => {
    const fastest = Math.max(...points.map((point) => point.speedMps));
    fc.assert(
      fc.property(fc.double({ min: -400, max: 400, noNaN: true }), fc.double({ min: 0, max: 60, noNaN: true }), (angle, wind) => {
        const speed = sailSpeedMps(table, angle, wind);
        expect(speed).toBeGreaterThanOrEqual(0);
        expect(speed).toBeLessThanOrEqual(fastest + 1e-9);
      }),
    );
  });

  it("throws on a wind or angle that is no number", () => {
    expect(() => sailSpeedMps(table, Number.NaN, 5)).toThrow("NaN");
    expect(() => sailSpeedMps(table, 90, -1)).toThrow("-1");
  });
});

describe("building a sail table", () => {
  it("takes the points in any order", () => {
    expect(build(points.toReversed())).toEqual(table);
  });

  it("names the angle and wind of a hole", () => {
    const issues = issuesOf(points.filter((point) => !(point.trueWindAngleDeg === 90 && point.trueWindMps === kn(16))));
    expect(issues.map((one) => one.code)).toEqual(["sail-table-hole"]);
    expect(issues[0].message).toContain("90°");
    expect(issues[0].message).toContain("16 kn");
  });

  it("counts the holes that it does not name, and refuses a scatter of points before making room for its grid", () => {
    const scatter = (count: number) =>
      Array.from({ length: count }, (_, i) => ({ trueWindAngleDeg: (180 * (i + 1)) / count, trueWindMps: (i + 1) / 100, speedMps: 2 }));
    const few = issuesOf(scatter(10));
    expect(few).toHaveLength(21);
    expect(few.at(-1)?.message).toContain("70 more");
    expect(issuesOf(scatter(3000))).toHaveLength(1);
  });

  it("refuses a point given twice", () => {
    const issues = issuesOf([...points, points[3]]);
    expect(issues.map((one) => [one.code, one.path])).toEqual([["sail-table-duplicate", `boat.sail.rows[${points.length}]`]]);
  });

  it("refuses angles, winds and speeds that can't be, all at once", () => {
    const issues = issuesOf([
      { trueWindAngleDeg: 190, trueWindMps: 5, speedMps: 3 },
      { trueWindAngleDeg: 90, trueWindMps: -5, speedMps: 3 },
      { trueWindAngleDeg: 90, trueWindMps: 5, speedMps: kn(31) },
      { trueWindAngleDeg: 90, trueWindMps: 0, speedMps: 1 },
      { trueWindAngleDeg: Number.NaN, trueWindMps: 5, speedMps: 1 },
      { trueWindAngleDeg: 0, trueWindMps: 5, speedMps: 1 },
      { trueWindAngleDeg: 0, trueWindMps: 8, speedMps: 0 },
    ]);
    expect(issues.map((one) => one.code)).toEqual([
      "sail-table-angle",
      "sail-table-wind",
      "sail-table-speed",
      "sail-table-speed",
      "sail-table-angle",
      // Straight into the wind.
      "sail-table-speed",
    ]);
    expect(issues[2].path).toBe("boat.sail.rows[2].speed");
  });

  it("refuses a table that says nothing of going downwind, or nothing at all", () => {
    expect(issuesOf([]).map((one) => one.code)).toEqual(["sail-table-too-small"]);
    expect(issuesOf(points.filter((point) => point.trueWindAngleDeg <= 90)).map((one) => one.code)).toEqual(["sail-table-too-small"]);
  });
});
