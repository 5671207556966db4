import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkDeviationCard, compassHeading, type DeviationCard, deviationDegOn, trueHeading } from "../../../src/core/earth/index.ts";
import { turnDeg } from "../../../src/core/units/index.ts";

const off = (a: number, b: number): number => Math.abs(turnDeg(a, b));
const card: DeviationCard = [
  { headingDegMag: 0, deviationDeg: 1 },
  { headingDegMag: 90, deviationDeg: -1 },
  { headingDegMag: 180, deviationDeg: -2 },
  { headingDegMag: 270, deviationDeg: 0 },
];

/** Cards on up to sixteen headings, whatever deviations; those that can't be steered by are left out by the check itself. */
const cards = fc
  .uniqueArray(fc.tuple(fc.integer({ min: 0, max: 359 }), fc.double({ min: -30, max: 30, noNaN: true })), {
    maxLength: 16,
    selector: ([heading]) => heading,
  })
  .map((rows): DeviationCard => rows.map(([headingDegMag, deviationDeg]) => ({ headingDegMag, deviationDeg })))
  .filter((one) => checkDeviationCard(one, "deviation").ok);
const degrees = fc.double({ min: -720, max: 720, noNaN: true });

describe("from true to compass", () => {
  it("adds westerly and takes away easterly", () => {
    expect(compassHeading(100, { variationDeg: 12, deviationCard: [] }).headingDegCompass).toBe(88);
    expect(compassHeading(5, { variationDeg: 12, deviationCard: card })).toMatchObject({ headingDegTrue: 5, headingDegMag: 353 });
    expect(compassHeading(102, { variationDeg: 12, deviationCard: card })).toEqual({
      headingDegTrue: 102,
      headingDegMag: 90,
      headingDegCompass: 91,
      deviationDeg: -1,
    });
  });

  it("goes straight between the card's lines, around north too", () => {
    expect(deviationDegOn(45, card)).toBeCloseTo(0, 12);
    expect(deviationDegOn(135, card)).toBeCloseTo(-1.5, 12);
    expect(deviationDegOn(315, card)).toBeCloseTo(0.5, 12);
    expect(deviationDegOn(359.999, card)).toBeCloseTo(1, 3);
    expect(deviationDegOn(20, [{ headingDegMag: 200, deviationDeg: 3 }])).toBe(3);
    expect(deviationDegOn(20, [...card].reverse())).toBe(deviationDegOn(20, card));
  });
});

describe("from compass to true", () => {
  it("is the way back, exactly, for any card that can be steered by", () => {
    fc.assert(
      fc.property(cards, degrees, fc.double({ min: -60, max: 60, noNaN: true }), (deviationCard, headingDeg, variationDeg) => {
        const there = compassHeading(headingDeg, { variationDeg, deviationCard });
        const back = trueHeading(there.headingDegCompass, { variationDeg, deviationCard });
        expect(off(back.headingDegMag, there.headingDegMag)).toBeLessThan(1e-7);
        expect(off(back.headingDegTrue, headingDeg)).toBeLessThan(1e-7);
        expect(back.deviationDeg).toBeCloseTo(there.deviationDeg, 6);
        const again = compassHeading(trueHeading(headingDeg, { variationDeg, deviationCard }).headingDegTrue, {
          variationDeg,
          deviationCard,
        });
        expect(off(again.headingDegCompass, headingDeg)).toBeLessThan(1e-7);
      }),
      { numRuns: 500 },
    );
  });

  it("refuses a card on which the compass hardly turns with the ship, whose readings can't be told back", () => {
    const card: DeviationCard = [
      { headingDegMag: 23, deviationDeg: 0 },
      { headingDegMag: 353, deviationDeg: -29.999993618724005 },
    ];
    const checked = checkDeviationCard(card, "boat.compass.deviation");
    expect(checked.ok ? [] : checked.issues.map((one) => one.code)).toEqual(["deviation-not-steerable"]);
  });

  it("uses the deviation of the magnetic heading, not of the compass heading", () => {
    const steep: DeviationCard = [
      { headingDegMag: 0, deviationDeg: 0 },
      { headingDegMag: 40, deviationDeg: 20 },
      { headingDegMag: 180, deviationDeg: 0 },
    ];
    // Magnetic 40 reads 20; half-way to it, magnetic 20 with 10 E reads 10.
    expect(trueHeading(10, { variationDeg: 0, deviationCard: steep }).headingDegMag).toBeCloseTo(20, 12);
  });
});

describe("a deviation card", () => {
  it("is refused with everything that is wrong with it", () => {
    const codes = (one: DeviationCard): readonly string[] => {
      const checked = checkDeviationCard(one, "boat.compass.deviation");
      return checked.ok ? [] : checked.issues.map((issue) => issue.code);
    };
    expect(codes([])).toEqual([]);
    expect(codes(card)).toEqual([]);
    expect(
      codes([
        { headingDegMag: 361, deviationDeg: 0 },
        { headingDegMag: -1, deviationDeg: 0 },
      ]),
    ).toEqual(["deviation-heading-range", "deviation-heading-range"]);
    expect(codes([...card, { headingDegMag: 90, deviationDeg: 2 }])).toContain("deviation-heading-repeated");
    expect(
      codes([
        { headingDegMag: 0, deviationDeg: 0 },
        { headingDegMag: 10, deviationDeg: 10 },
      ]),
    ).toEqual(["deviation-not-steerable"]);
    expect(
      codes([
        { headingDegMag: 355, deviationDeg: 0 },
        { headingDegMag: 5, deviationDeg: 11 },
      ]),
    ).toEqual(["deviation-not-steerable"]);
    expect(() => checkDeviationCard([{ headingDegMag: Number.NaN, deviationDeg: 0 }], "d")).toThrow(/NaN/);
  });

  it("may print 000 and 360 both if they agree", () => {
    const both = [...card, { headingDegMag: 360, deviationDeg: 1 }];
    expect(checkDeviationCard(both, "d").ok).toBe(true);
    expect(deviationDegOn(359, both)).toBeCloseTo(deviationDegOn(359, card), 12);
    expect(checkDeviationCard([...card, { headingDegMag: 360, deviationDeg: 2 }], "d").ok).toBe(false);
  });

  it("unchecked and bad is a bug, and says so", () => {
    expect(() => compassHeading(0, { variationDeg: 0, deviationCard: [...card, { headingDegMag: 0, deviationDeg: 9 }] })).toThrow(
      /unchecked/,
    );
    expect(() => deviationDegOn(Number.NaN, card)).toThrow(/NaN/);
  });
});
