import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type OpenSpan, spanAt } from "../../../src/core/calendar/index.ts";
import { type Gate, GateChain, GateStop, lookedAt } from "../../../src/core/places/index.ts";

const WHERE = { latitudeDeg: 40, longitudeDeg: -30 };
const PLACE = { where: WHERE, offX: 0, offY: 0, around: null };
/** Midnight UTC before Thursday 4 June 2026. */
const DAY = 1_780_531_200;
const MIN = 60;

function gate(name: string, changes: Partial<Gate> = {}): Gate {
  return {
    name,
    on: "in",
    place: { kind: "sea" },
    zone: "UTC",
    needs: [],
    waitSeconds: 0,
    clearanceMetres: null,
    office: null,
    ...changes,
  };
}

/** A gate open in these minutes after DAY. Windows far off on both sides make all between known. */
function windowed(name: string, minutes: readonly (readonly [number, number])[], waitMinutes = 0, afterMinutes = 0): GateStop {
  const far = [-20 * 1440, 20 * 1440].map((at): [number, number] => [at, at]);
  const windows = [...far, ...minutes].map(([from, until]) => ({ from: DAY + from * MIN, until: DAY + until * MIN }));
  return new GateStop(
    gate(name, { needs: [{ kind: "windows", windows }], waitSeconds: waitMinutes * MIN }),
    "gate",
    afterMinutes * MIN,
    PLACE,
    null,
  );
}
const at = (minutes: number): number => DAY + minutes * MIN;

describe("a chain of gates", () => {
  it("passes at once what is open, and waits before what is shut", () => {
    const chain = new GateChain([windowed("a", [[60, 90]], 30), windowed("b", [[0, 300]], 0, 20)], WHERE);
    const run = chain.run(at(40));
    expect(run.fault).toBeNull();
    expect(run.passed.map(({ reachedAt, passedAt }) => [(reachedAt - DAY) / MIN, (passedAt - DAY) / MIN])).toEqual([
      [40, 60],
      [80, 80],
    ]);
    // From 30 (so long she can wait) to 90 the leg may be begun.
    expect(chain.passableStarts(at(40))).toEqual([{ from: at(30), until: at(90) }]);
    expect(run.shuts).toMatchObject({ at: at(90), gate: { name: "a" } });
  });

  it("waits at an earlier gate where she can't before the one that is shut", () => {
    const run = new GateChain([windowed("a", [[0, 60]], 60), windowed("b", [[50, 55]], 5, 20)], WHERE).run(at(5));
    // b at 50 is reached at 45 at the earliest that can be waited from: she leaves a at 25, having lain there for twenty minutes.
    expect(run.passed.map(({ reachedAt, passedAt }) => [(reachedAt - DAY) / MIN, (passedAt - DAY) / MIN])).toEqual([
      [5, 25],
      [45, 50],
    ]);
  });

  it("says by how much she is late, and how much longer she would have to wait", () => {
    const run = new GateChain(
      [
        windowed(
          "a",
          [
            [0, 60],
            [120, 130],
          ],
          10,
        ),
      ],
      WHERE,
    ).run(at(72));
    expect(run.passed).toEqual([]);
    expect(run.fault).toMatchObject({
      kind: "missed",
      reachedAt: at(72),
      late: { opening: { from: at(0), until: at(60) }, seconds: 12 * MIN },
      early: { opening: { from: at(120), until: at(130) }, seconds: 38 * MIN },
    });
    expect(run.shuts).toBeNull();
  });

  it("is not judged beyond the values given, and passes by them where it can be waited for", () => {
    const given = (waitMinutes: number): GateChain =>
      new GateChain(
        [
          new GateStop(
            gate("the cut", {
              needs: [
                {
                  kind: "windows",
                  windows: [
                    { from: at(100), until: at(110) },
                    { from: at(400), until: at(410) },
                  ],
                },
              ],
              waitSeconds: waitMinutes * MIN,
            }),
            "gate",
            0,
            PLACE,
            null,
          ),
        ],
        WHERE,
      );
    expect(given(0).run(at(500)).fault).toMatchObject({
      kind: "notGiven",
      why: { code: "gate-times-not-given", gate: "the cut", at: at(500), coveredFrom: at(100), coveredUntil: at(410) },
    });
    expect(given(0).run(at(50)).fault).toMatchObject({ kind: "notGiven" });
    expect(given(60).run(at(50)).fault).toBeNull();
    // Between the two it is known to be shut.
    expect(given(0).run(at(200)).fault).toMatchObject({ kind: "missed" });
  });

  it("says that a gate never opens in the time looked at", () => {
    const sundays = {
      zone: "UTC",
      rules: [
        {
          weekdays: [7] as const,
          season: { from: { month: 1, day: 1 }, until: { month: 1, day: 31 } },
          opens: { kind: "hours" as const, fromMinutes: 0, untilMinutes: 60 },
        },
      ],
      holidays: [],
      onHolidays: [],
    };
    const run = new GateChain(
      [new GateStop(gate("a", { needs: [{ kind: "clock", rules: sundays }], waitSeconds: 3600 }), "gate", 0, PLACE, null)],
      WHERE,
    ).run(at(0));
    const { from, until } = lookedAt(at(0));
    expect(run.fault).toMatchObject({ kind: "noOpening", why: { code: "gate-no-opening", coveredFrom: from, coveredUntil: until } });
  });

  it("lets a boat that fits under go through a shut bridge, but not through the dark", () => {
    const never = { zone: "UTC", rules: [], holidays: [], onHolidays: [] };
    const bridge = gate("the bridge", { needs: [{ kind: "clock", rules: never }], clearanceMetres: 12 });
    const through = (one: Gate, airDraughtMetres: number | null) =>
      new GateChain([new GateStop(one, "gate", 0, PLACE, airDraughtMetres)], WHERE).run(at(0)).fault;
    expect(through(bridge, 11.5)).toBeNull();
    expect(through(bridge, 11.51)).toMatchObject({ kind: "noOpening" });
    expect(through(bridge, null)).toMatchObject({ kind: "noOpening" });
    // Midnight UTC at 30° W is ten in the evening: dark.
    const byDay = { ...bridge, needs: [...bridge.needs, { kind: "light" as const, sunAboveDeg: -6 }] };
    expect(through(byDay, 11.5)).toMatchObject({ kind: "missed" });
  });
});

describe("any chain", () => {
  const minutes = fc.integer({ min: 0, max: 700 });
  const opening = fc.tuple(minutes, fc.integer({ min: 0, max: 90 })).map(([from, long]): [number, number] => [from, from + long]);
  const stops = fc
    .array(
      fc.record({
        openings: fc.array(opening, { minLength: 1, maxLength: 5 }),
        wait: fc.integer({ min: 0, max: 90 }),
        way: fc.integer({ min: 0, max: 60 }),
      }),
      {
        minLength: 1,
        maxLength: 4,
      },
    )
    .map((all) => {
      let after = 0;
      return all.map(({ openings, wait, way }, k) => {
        after += way;
        return { openings, wait, stop: windowed(`gate ${k}`, openings, wait, after) };
      });
    });

  it("passes no gate outside an opening, nor waits longer than can be", () => {
    fc.assert(
      fc.property(stops, minutes, (all, start) => {
        const run = new GateChain(
          all.map((one) => one.stop),
          WHERE,
        ).run(at(start));
        run.passed.forEach(({ gate: passed, reachedAt, passedAt }) => {
          const { openings, wait } = all.find((one) => one.stop.gate === passed) as (typeof all)[number];
          const minute = (passedAt - DAY) / MIN;
          expect(openings.some(([from, until]) => from <= minute && minute <= until)).toBe(true);
          expect(passedAt).toBeGreaterThanOrEqual(reachedAt);
          expect(passedAt - reachedAt).toBeLessThanOrEqual(wait * MIN);
        });
        expect(run.passed.length === all.length).toBe(run.fault === null);
      }),
    );
  });

  it("comes through no earlier for a later start", () => {
    fc.assert(
      fc.property(stops, minutes, minutes, (all, one, other) => {
        const chain = new GateChain(
          all.map(({ stop }) => stop),
          WHERE,
        );
        const [early, late] = [Math.min(one, other), Math.max(one, other)].map((start) => chain.run(at(start)));
        if (early?.fault !== null || late?.fault !== null) return;
        const end = (run: typeof early): number => run.passed[run.passed.length - 1]?.passedAt ?? Number.NaN;
        expect(end(late)).toBeGreaterThanOrEqual(end(early));
      }),
    );
  });

  it("passes just from those starts that it says, and stays open until it says that it shuts", () => {
    fc.assert(
      fc.property(stops, minutes, (all, start) => {
        const chain = new GateChain(
          all.map(({ stop }) => stop),
          WHERE,
        );
        const starts: readonly OpenSpan[] = chain.passableStarts(at(start));
        const run = chain.run(at(start));
        expect(run.fault === null).toBe(spanAt(starts, at(start)) !== null);
        if (run.shuts === null) return;
        expect(chain.run(run.shuts.at).fault).toBeNull();
        expect(chain.run(run.shuts.at + 1).fault).not.toBeNull();
      }),
    );
  });
});
