import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LandArea, landOn, wayToLand } from "../../../src/core/coast/index.ts";
import { flatPlane } from "../../../src/core/earth/index.ts";
import "../../seeded.ts";

const NM = 1852;
const plane = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 30 * NM);
/** Corners in nautical miles: on this plane a minute of either is one. */
const area = (...corners: readonly (readonly [number, number])[]): LandArea => ({
  kind: "land",
  name: null,
  rings: [Float64Array.from(corners.flatMap(([x, y]) => [x / 60, y / 60]))],
});
const wall = landOn(plane, [area([5, -40], [6, -40], [6, 40], [5, 40])]);
const origin = { xMetres: 0, yMetres: 0 };

describe("the way to land", () => {
  it("is 5 nm to a straight shore square on, and 5 over the cosine aslant, to within five metres", () => {
    if (wall === null) throw new Error("no land");
    for (const deg of [90, 60, 45, 110, 150]) {
      const way = wayToLand(wall, origin, deg, 20 * NM, 30 * NM);
      expect(way.open).toBe(false);
      expect(Math.abs(way.metres - (5 * NM) / Math.sin((deg * Math.PI) / 180)), String(deg)).toBeLessThanOrEqual(5);
    }
  });

  it("is open where none is met as far as it is looked for, and no farther than the sheet", () => {
    if (wall === null) throw new Error("no land");
    expect(wayToLand(wall, origin, 270, 20 * NM, 30 * NM)).toEqual({ metres: 20 * NM, open: true });
    expect(wayToLand(wall, origin, 90, 4.9 * NM, 30 * NM)).toEqual({ metres: 4.9 * NM, open: true });
    const west = wayToLand(wall, { xMetres: -20 * NM, yMetres: 0 }, 270, 20 * NM, 30 * NM);
    expect(west.open).toBe(true);
    expect(west.metres).toBeCloseTo(10 * NM, 6);
  });

  it("is nought on land", () => {
    if (wall === null) throw new Error("no land");
    expect(wayToLand(wall, { xMetres: 5.5 * NM, yMetres: 0 }, 0, 20 * NM, 30 * NM)).toEqual({ metres: 0, open: false });
  });

  it("never passes over an islet, however small, and ends at the nearer of two shores", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.4, noNaN: true }), fc.double({ min: 1, max: 4, noNaN: true }), (half, off) => {
        const both = landOn(plane, [area([5, -40], [6, -40], [6, 40], [5, 40]), area([off, -half], [off + half, 0], [off, half])]);
        if (both === null) throw new Error("no land");
        const way = wayToLand(both, origin, 90, 20 * NM, 30 * NM);
        expect(Math.abs(way.metres - off * NM)).toBeLessThanOrEqual(5);
      }),
      { numRuns: 60 },
    );
  });
});
