import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { barbFor, barbStrokes } from "../../../src/figures/section/barb.ts";
import { valueAt } from "../../../src/figures/section/hull.ts";
import { roundAtLeast, roundAtMost } from "../../../src/figures/section/rounds.ts";
import { windWords } from "../../../src/figures/section/strip-wind.ts";
import { turningPoints } from "../../../src/figures/section/turning-points.ts";
import { compassPoint, threeFigures, unwound } from "../../../src/figures/section/words.ts";
import { pointsOf } from "../svg/read-svg.ts";

/** Strokes of a barb besides its shaft, with how far along the shaft each begins and on which side it ends. */
const borne = (kn: number, southern: boolean) => {
  const { strokes, pennants } = barbStrokes([0, 0], [0, -1], kn, 100, southern);
  const parts = strokes
    .split("M")
    .slice(2)
    .map((each) => pointsOf(`M${each}`));
  return {
    feathers: parts,
    pennants: pennants
      .split("M")
      .slice(1)
      .map((each) => pointsOf(`M${each}`)),
  };
};

describe("a wind barb", () => {
  it("bears a half feather for 5 kn, a feather for 10, a pennant for 50, to the nearest five (WMO-No. 485)", () => {
    const cases: [number, number, number, number][] = [
      [2, 0, 0, 0],
      [3, 0, 0, 1],
      [7.4, 0, 0, 1],
      [7.6, 0, 1, 0],
      [15, 0, 1, 1],
      [47.4, 0, 4, 1],
      [48, 1, 0, 0],
      [65, 1, 1, 1],
      [100, 2, 0, 0],
    ];
    for (const [kn, pennants, feathers, halves] of cases) expect([kn, barbFor(kn)]).toEqual([kn, { pennants, feathers, halves }]);
  });

  it("adds up to the wind it shows", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 200, noNaN: true }), (kn) => {
        const { pennants, feathers, halves } = barbFor(kn);
        expect(Math.abs(50 * pennants + 10 * feathers + 5 * halves - kn)).toBeLessThanOrEqual(2.5);
        expect(borne(kn, false).pennants.length).toBe(pennants);
        expect(borne(kn, false).feathers.length).toBe(feathers + halves);
      }),
    );
  });

  it("bears them clockwise of a wind's shaft north of the equator, the other way south of it", () => {
    // A north wind's shaft stands up from the station; low pressure lies to the east of it in the north, to the west in the south.
    for (const feather of borne(25, false).feathers) expect(feather[1]![0]).toBeGreaterThan(5);
    for (const feather of borne(25, true).feathers) expect(feather[1]![0]).toBeLessThan(-5);
    for (const pennant of borne(60, false).pennants) expect(pennant[1]![0]).toBeGreaterThan(5);
  });

  it("sets the half feather half as long, and a lone one in from the end", () => {
    const [whole, half] = borne(15, false).feathers;
    expect(half![1]![0]).toBeCloseTo(whole![1]![0] / 2, 0);
    expect(borne(5, false).feathers[0]![0]![1]).toBeGreaterThan(-90);
    expect(borne(10, false).feathers[0]![0]![1]).toBe(-100);
  });

  it("keeps all it bears on the shaft", () => {
    for (const kn of [5, 45, 95, 150, 195]) {
      const { feathers, pennants } = borne(kn, false);
      for (const [start] of [...feathers, ...pennants]) expect(start![1]).toBeLessThan(0);
    }
  });
});

describe("words of directions and winds", () => {
  it("reads directions in three figures and sixteen points", () => {
    expect([0, 359.6, 98.2, -1, 720.4].map(threeFigures)).toEqual(["000", "000", "098", "359", "000"]);
    expect([0, 11.2, 11.3, 348.8, 202, 359].map(compassPoint)).toEqual(["N", "N", "NNE", "N", "SSW", "N"]);
  });

  it("unwinds directions so that none leaps", () => {
    expect(unwound([350, 10, 40, 330])).toEqual([350, 370, 400, 330]);
    expect(unwound([5, 350], 355)).toEqual([365, 350]);
  });

  it("says a wind, its gusts where they are more, and a calm", () => {
    const at = { acrossNm: 0, clock: "00:00" };
    expect(windWords({ ...at, fromDegTrue: 22, kn: 12.4, gustKn: 19 })).toBe("NNE 12, gusts 19");
    expect(windWords({ ...at, fromDegTrue: 22, kn: 12.4, gustKn: 12.3 })).toBe("NNE 12");
    expect(windWords({ ...at, fromDegTrue: null, kn: 0, gustKn: null })).toBe("calm");
  });
});

describe("rows of values", () => {
  it("turn where they swing, and nowhere else", () => {
    expect(turningPoints([0, 1, 2, 1.95, 3, 1, 0, 2], 0.5)).toEqual([
      { index: 0, kind: "low" },
      { index: 4, kind: "high" },
      { index: 6, kind: "low" },
      { index: 7, kind: "high" },
    ]);
    expect(turningPoints([1, 1.1, 1], 0.5)).toEqual([]);
    expect(() => turningPoints([1], 0)).toThrow(/swing/);
  });

  it("alternate highs and lows that lie a swing apart", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -5, max: 5, noNaN: true })), (values) => {
        const found = turningPoints(values, 1);
        found.slice(1).forEach((turn, i) => {
          expect(turn.kind).not.toBe(found[i]!.kind);
          expect(turn.index).toBeGreaterThan(found[i]!.index);
          expect(Math.abs(values[turn.index]! - values[found[i]!.index]!)).toBeGreaterThanOrEqual(1);
        });
      }),
    );
  });

  it("have a value between their points and none beyond", () => {
    expect(
      valueAt(
        [
          [0, 10],
          [4, 30],
        ],
        1,
      ),
    ).toBe(15);
    expect(
      valueAt(
        [
          [0, 10],
          [4, 30],
        ],
        5,
      ),
    ).toBeNull();
  });

  it("are ruled by round numbers", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 1e5, noNaN: true }), (value) => {
        expect(roundAtMost(value)).toBeLessThanOrEqual(value * (1 + 1e-9));
        expect(roundAtLeast(value)).toBeGreaterThanOrEqual(value * (1 - 1e-9));
        expect(roundAtMost(value) * 2.5).toBeGreaterThanOrEqual(value * (1 - 1e-9));
        expect(roundAtLeast(value) / 2.5).toBeLessThanOrEqual(value * (1 + 1e-9));
      }),
    );
    expect([0.7, 13, 26, 99].map(roundAtLeast)).toEqual([1, 20, 50, 100]);
  });
});
