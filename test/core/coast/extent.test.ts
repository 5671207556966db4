import fc from "fast-check";
import { expect, test } from "vitest";
import { extentOf } from "../../../src/core/coast/index.ts";

const box = (westDeg: number, eastDeg: number, southDeg = 0, northDeg = 1) => ({
  rings: [Float64Array.of(westDeg, southDeg, eastDeg, southDeg, eastDeg, northDeg, westDeg, northDeg)],
});

test("areas side by side: the box around them; none: none", () => {
  expect(extentOf([box(3, 5, 50, 51), box(-2, 1, 49, 50.5)])).toEqual({ southDeg: 49, northDeg: 51, westDeg: -2, eastDeg: 5 });
  expect(extentOf([])).toBeNull();
});

test("at either side of 180°, in one area or in two: the box lies across it, as RFC 7946, section 5.2, has it for Fiji (177 E to 178 W)", () => {
  const wanted = { southDeg: -20, northDeg: -16, westDeg: 177, eastDeg: -178 };
  expect(extentOf([box(177, 182, -20, -16)])).toEqual(wanted);
  expect(extentOf([box(177, -178, -20, -16)])).toEqual(wanted);
  expect(extentOf([box(-179, -178, -20, -17), box(177, 179, -18, -16)])).toEqual(wanted);
  expect(extentOf([box(170, 200), box(-175, -150), box(-178, -170)])).toMatchObject({ westDeg: 170, eastDeg: -150 });
});

test("all the way round is -180 to 180", () => {
  expect(extentOf([box(-180, -90), box(-90, 0), box(0, 90), box(90, 180)])).toMatchObject({ westDeg: -180, eastDeg: 180 });
});

test("no corner lies outside, and no box that is narrower holds them: against every gap between boxes, one by one", () => {
  const spans = fc.array(fc.tuple(fc.integer({ min: -180, max: 179 }), fc.integer({ min: 1, max: 60 })), { minLength: 1, maxLength: 8 });
  fc.assert(
    fc.property(spans, (list) => {
      const covered = new Uint8Array(360);
      for (const [west, width] of list) for (let deg = west; deg < west + width; deg++) covered[(deg + 360) % 360] = 1;
      let widest = 0;
      for (let from = 0; from < 360; from++) {
        let width = 0;
        while (width < 360 && covered[(from + width) % 360] === 0) width++;
        widest = Math.max(widest, width);
      }
      const { westDeg, eastDeg } = extentOf(list.map(([west, width]) => box(west, west + width)))!;
      expect(eastDeg > westDeg ? eastDeg - westDeg : eastDeg - westDeg + 360).toBeCloseTo(360 - widest, 9);
      if (widest > 0) for (const [west] of list) expect((west - westDeg + 720) % 360).toBeLessThan(360 - widest + 1e-9);
    }),
  );
});
