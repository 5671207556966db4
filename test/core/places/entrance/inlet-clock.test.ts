import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inletClock, needsTogether } from "../../../../src/core/places/index.ts";
import { depth, gateOf, HOUR, kn, NOTHING, START, seaAsked, stopOf, stream, surroundings } from "./setup.ts";

const day = { from: START, until: START + 24 * HOUR };
const bar = { kind: "entrance" as const, entrance: { ...NOTHING, depth: depth(), stream: stream({ ebbNeverMps: kn(2) }) } };

describe("the inlet clock", () => {
  it("has a line every half hour with the figures of that moment, and the spells between", () => {
    const clock = inletClock(stopOf([bar]), day);
    expect(clock.rows).toHaveLength(49);
    expect(clock.rows[0]).toMatchObject({
      at: START,
      verdict: "open",
      reading: { heightAboveChartDatumMetres: 3.5, underKeelMetres: 2.5 },
      isLight: false,
    });
    expect(clock.rows[24]?.isLight).toBe(true);
    // The ebb from 1 h 24 on, then too little water until 8 h 21.
    expect(clock.spells.map(({ verdict }) => verdict)).toEqual(["open", "shut", "open", "shut", "open"]);
    expect(clock.spells[1]?.reasons.map(({ kind }) => kind)).toEqual(["ebb", "depth"]);
    const [ebb, water] = clock.spells[1]?.reasons ?? [];
    expect(ebb?.kind === "ebb" && ebb.mps).toBeCloseTo(kn(3), 3);
    expect(water?.kind === "depth" && water.underKeelMetres).toBeCloseTo(-0.5, 3);
  });

  it("has its lines and its spells say the same, and the spells follow one another", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1, max: 2, noNaN: true }),
        fc.double({ min: 0.2, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.double({ min: 3, max: 14, noNaN: true }),
        fc.boolean(),
        (charted, neverKn, metres, seconds, daylight) => {
          const entrance = {
            ...NOTHING,
            depth: depth({ chartedDepthMetres: charted, waves: { kind: "seaOnBar" } }),
            stream: stream({ ebbNeverMps: kn(neverKn) }),
            sea: seaAsked({ neverHeightMetres: 1.5 }),
          };
          const around = surroundings({ seas: [[0, 18, metres, seconds]] });
          const stop = stopOf([{ kind: "entrance", entrance }, ...(daylight ? [{ kind: "light" as const, sunAboveDeg: -6 }] : [])], around);
          const { rows, spells } = inletClock(stop, day);
          expect(spells[0]?.from).toBe(day.from);
          expect(spells[spells.length - 1]?.until).toBe(day.until);
          spells.slice(1).forEach((spell, k) => {
            expect(spell.from).toBe(spells[k]?.until);
            expect(spell.verdict).not.toBe(spells[k]?.verdict);
            expect(spell.reasons.length === 0).toBe(spell.verdict === "open");
          });
          const open = needsTogether(stop.needs(), day, stop.where, stop.statesOf).open;
          for (const row of rows) {
            for (const value of Object.values(row.reading ?? {})) if (typeof value === "number") expect(value).not.toBeNaN();
            const spell = spells.find(({ from, until }) => row.at >= from + 1 && row.at <= until - 1);
            // Where it shuts for less than a second, as at a low water that just touches, no spell is told.
            const touches = [-2, 2].some(
              (off) => (stop.entranceAt(row.at + off)?.reasons.length ?? 0) !== (row.reading?.reasons.length ?? 0),
            );
            if (spell === undefined || touches) continue;
            expect(row.verdict).toBe(spell.verdict);
            expect(open.some(({ from, until }) => row.at >= from && row.at <= until)).toBe(row.verdict === "open");
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it("is not judged where the sea is not forecast, but shut where anything known shuts it", () => {
    const entrance = { ...NOTHING, depth: depth(), sea: seaAsked() };
    const { spells } = inletClock(stopOf([{ kind: "entrance", entrance }]), { from: START, until: START + 12 * HOUR });
    expect(spells.map(({ verdict }) => verdict)).toEqual(["notJudged", "shut", "notJudged"]);
    expect(spells[0]?.reasons).toEqual([{ kind: "notJudged", lacks: "sea" }]);
  });

  it("tells a gate's own hours, windows and night too", () => {
    const windows = {
      kind: "windows" as const,
      windows: [
        { from: START + 2 * HOUR, until: START + 3 * HOUR },
        { from: START + 20 * HOUR, until: START + 21 * HOUR },
      ],
    };
    const { rows } = inletClock(stopOf([windows, { kind: "light", sunAboveDeg: -6 }], null), day);
    expect(rows[0]?.reasons.map(({ kind }) => kind)).toEqual(["notGiven", "dark"]);
    expect(rows[5]?.reasons.map(({ kind }) => kind)).toEqual(["dark"]);
    expect(rows[20]?.reasons.map(({ kind }) => kind)).toEqual(["windows"]);
    expect(rows[41]?.verdict).toBe("open");
    expect(rows[41]?.reading).toBeNull();
  });

  it("needs time to tell of, and an entrance its surroundings", () => {
    expect(() => inletClock(stopOf([bar]), { from: START, until: START })).toThrow("no clock");
    expect(() => inletClock(stopOf([bar]), day, 0)).toThrow("no clock");
    expect(() => inletClock(stopOf([bar], null), day)).toThrow("without tides, streams and weather");
    expect(gateOf([bar]).needs).toHaveLength(1);
  });
});
