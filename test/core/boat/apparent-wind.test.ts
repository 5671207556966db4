import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { apparentFromTrue, apparentWindMps, trueFromApparent, windOverWater } from "../../../src/core/boat/index.ts";

describe("apparent wind", () => {
  it("dead ahead adds, dead astern takes off, and abeam makes a right angle", () => {
    expect(apparentFromTrue({ windMps: 5, angleDeg: 0 }, 3)).toEqual({ windMps: 8, angleDeg: 0 });
    expect(apparentFromTrue({ windMps: 5, angleDeg: 180 }, 3)).toEqual({
      windMps: expect.closeTo(2, 12),
      angleDeg: expect.closeTo(180, 9),
    });
    expect(apparentFromTrue({ windMps: 4, angleDeg: 90 }, 3)).toEqual({
      windMps: expect.closeTo(5, 12),
      angleDeg: expect.closeTo((Math.atan2(4, 3) * 180) / Math.PI, 9),
    });
  });

  it("comes back to the true wind, and agrees with the sum of squares used under way", () => {
    const speed = fc.double({ min: 0.1, max: 30, noNaN: true });
    fc.assert(
      fc.property(
        speed,
        fc.double({ min: 0, max: 180, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (windMps, angleDeg, boat) => {
          const apparent = apparentFromTrue({ windMps, angleDeg }, boat);
          expect(apparentWindMps(windMps, Math.cos((angleDeg * Math.PI) / 180), boat)).toBeCloseTo(apparent.windMps, 6);
          const back = trueFromApparent(apparent, boat);
          expect(back.windMps).toBeCloseTo(windMps, 9);
          expect(back.angleDeg).toBeCloseTo(angleDeg, 5);
        },
      ),
    );
  });

  it("feels a current in a calm as a wind from where the water goes", () => {
    expect(windOverWater({ windMps: 0, windFromDegTrue: null }, { eastMps: 0, northMps: 1.5 })).toEqual({
      windMps: 1.5,
      windFromDegTrue: 0,
    });
    expect(windOverWater({ windMps: 0, windFromDegTrue: null }, { eastMps: 0, northMps: 0 })).toEqual({
      windMps: 0,
      windFromDegTrue: null,
    });
  });
});
