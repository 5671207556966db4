import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { alongOf, lineBetween, lineBetweenPositions, offOf, pointAt } from "../../../src/core/passage/index.ts";
import { FLAT, NM } from "./waters.ts";

describe("the line", () => {
  it("counts starboard of someone who looks to the destination as positive, port as negative", () => {
    const east = lineBetween(FLAT, 0, 0, 1000, 0);
    expect(east.sheetDeg).toBe(90);
    expect(offOf(east, 500, -20)).toBe(20);
    expect(offOf(east, 500, 20)).toBe(-20);
    expect(alongOf(east, 500, 20)).toBe(500);
    const north = lineBetween(FLAT, 10, 10, 10, 1010);
    expect(north.sheetDeg).toBe(0);
    expect(offOf(north, 15, 500)).toBe(5);
    expect(offOf(north, 5, 500)).toBe(-5);
    const west = lineBetween(FLAT, 0, 0, -1000, 0);
    expect(west.sheetDeg).toBe(270);
    expect(offOf(west, -500, 20)).toBe(20);
  });

  it("goes on past its ends and behind them", () => {
    const line = lineBetween(FLAT, 0, 0, 0, 1000);
    expect(alongOf(line, 0, 1500)).toBe(1500);
    expect(alongOf(line, 0, -300)).toBe(-300);
  });

  it("gives back the point at a distance along and off", () => {
    const at = fc.double({ min: -2e5, max: 2e5, noNaN: true });
    fc.assert(
      fc.property(at, at, at, at, at, at, (x0, y0, x1, y1, x, y) => {
        fc.pre(Math.hypot(x1 - x0, y1 - y0) > 1);
        const line = lineBetween(FLAT, x0, y0, x1, y1);
        const back = pointAt(line, alongOf(line, x, y), offOf(line, x, y));
        expect(Math.hypot(back.xMetres - x, back.yMetres - y)).toBeLessThan(1e-6);
        expect(offOf(line, line.toX, line.toY)).toBeCloseTo(0, 6);
        expect(alongOf(line, line.toX, line.toY)).toBeCloseTo(line.lengthMetres, 6);
      }),
    );
  });

  it("lies between two positions", () => {
    const line = lineBetweenPositions(FLAT, { latitudeDeg: 0, longitudeDeg: 0 }, { latitudeDeg: 0.5, longitudeDeg: 0 });
    expect(line.lengthMetres).toBeCloseTo(30 * NM, 6);
    expect(line.sheetDeg).toBe(0);
  });

  it("needs two points", () => {
    expect(() => lineBetween(FLAT, 5, 5, 5, 5)).toThrow("two points");
    expect(() => lineBetween(FLAT, 5, Number.NaN, 5, 5)).toThrow("two points");
  });
});
