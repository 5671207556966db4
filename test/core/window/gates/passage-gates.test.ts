import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Gate, type GatePlace, gatesOnLeg } from "../../../../src/core/places/index.ts";
import { metresFromNm } from "../../../../src/core/units/index.ts";
import { analyticCurrent } from "../../../../src/core/water/index.ts";
import {
  ARRIVAL,
  feel,
  type GateCure,
  gateFaultOf,
  judgeBoard,
  keepDepartures,
  NOTHING_BESIDE,
  OPEN_WATER,
  type PassageFacts,
  type PassageRun,
  runDeparture,
  runPlanned,
  type Trial,
} from "../../../../src/core/window/index.ts";
import { clock, HOUR, kn, limit, plane, trial, winds } from "../setup.ts";

const start = plane.toPosition(metresFromNm(36), 0);
const berth = plane.toPosition(metresFromNm(36), metresFromNm(1));
const end = plane.toPosition(0, 0);
const quay = plane.toPosition(0, metresFromNm(2));
const out = { points: [berth, start], speedOverGroundMps: kn(4) };
const into = { points: [end, quay], speedOverGroundMps: kn(4) };

/** A gate open in these hours of Thursday; windows a fortnight off on both sides make all between known. */
function gate(on: "out" | "in", place: GatePlace, hours: readonly (readonly [number, number])[], waitMinutes = 0): Gate {
  const windows = [[-330, -330], ...hours, [330, 330]].map(([from, until]) => ({
    from: clock(from as number),
    until: clock(until as number),
  }));
  return {
    name: `${on} ${place.kind}`,
    on,
    place,
    zone: "UTC",
    needs: [{ kind: "windows", windows }],
    waitSeconds: waitMinutes * 60,
    clearanceMetres: null,
    office: null,
  };
}

/** A quarter of an hour out, six hours over, half an hour in, through gates. */
function gated(gates: readonly Gate[], base: Trial = trial({ out, into })): Trial {
  return {
    ...base,
    gates: { out: gatesOnLeg(plane, gates, { on: "out", ...out }, null), into: gatesOnLeg(plane, gates, { on: "in", ...into }, null) },
  };
}

function planned(one: Trial, departAt: number): PassageRun {
  const { planned: outcome } = runPlanned(one, departAt);
  if (outcome.kind === "fails") throw new Error(outcome.why.code);
  return outcome.run;
}

describe("a passage through gates", () => {
  it("begins open water later by what is waited before the inlet, and berths later by what is waited further on", () => {
    const run = planned(
      gated([gate("out", { kind: "sea" }, [[7, 8]], 90), gate("in", { kind: "metres", metres: metresFromNm(1) }, [[14, 15]], 60)]),
      clock(6),
    );
    // Off the inlet 06:15, through it 07:00, off the entrance 13:00, before the gate 13:15, through it 14:00, in at 14:15.
    expect((run.openWaterFrom - clock(7)) / 60).toBeCloseTo(0, 3);
    expect((run.openWaterUntil - clock(13)) / 60).toBeCloseTo(0, 2);
    expect((run.arrivalAt - clock(14, 15)) / 60).toBeCloseTo(0, 2);
    const exposure = feel(run.passed, winds({ from: 0, until: 48, dir: 90, low: 10 }).onPlane(plane, 0), null);
    expect(exposure.atSeconds[0]).toBe(clock(6));
    expect(exposure.atSeconds[exposure.count - 1]).toBeCloseTo(run.arrivalAt, 3);
  });

  it("lies off the entrance in open water, and enters when the gate there opens", () => {
    const run = planned(gated([gate("in", { kind: "sea" }, [[14, 15]], 180)]), clock(6));
    expect((run.openWaterUntil - clock(14)) / 60).toBeCloseTo(0, 2);
    expect((run.arrivalAt - clock(14, 30)) / 60).toBeCloseTo(0, 2);
    const exposure = feel(run.passed, winds({ from: 0, until: 48, dir: 90, low: 10 }).onPlane(plane, 0), null);
    const arrival = Array.from(exposure.part).indexOf(ARRIVAL);
    expect(exposure.atSeconds[arrival]).toBeCloseTo(clock(14), 1);
    const outside = Array.from(exposure.atSeconds).filter((at, i) => exposure.part[i] === OPEN_WATER && at > clock(12, 16));
    expect(outside.length).toBeGreaterThan(5);
  });

  it("judges the light when she passes, and not while she waits", () => {
    const light = limit("sunAltitudeDeg", 10, 0, { during: "arrival" });
    const judged = (gates: readonly Gate[], departAt: number) => {
      const weather = { wind: winds({ from: -24, until: 72, dir: 90, low: 10 }), sea: null };
      const kept = keepDepartures(() => gated(gates), [departAt], weather);
      return judgeBoard(kept ?? [], [light], weather)[0]?.verdict.kind;
    };
    // Sunrise on the plane (34° N 41° W) is at about 07:35 UTC: leaving at 22:00 she is off the entrance at 04:15, in the dark.
    expect(judged([], clock(-2))).toBe("closed");
    expect(judged([gate("in", { kind: "sea" }, [[9, 10]], 360)], clock(-2))).not.toBe("closed");
    // In by daylight, at 17:15 of the day before, she may wait through the night inside: it is no matter that she lies there in the dark.
    expect(judged([gate("in", { kind: "metres", metres: metresFromNm(1) }, [[9, 10]], 1440)], clock(-13))).not.toBe("closed");
    // Waiting further in she has come through the entrance in the dark.
    expect(judged([gate("in", { kind: "metres", metres: metresFromNm(1) }, [[9, 10]], 360)], clock(-2))).toBe("closed");
  });

  it("burns nothing while she waits in harbour", () => {
    const facts: PassageFacts = {
      shipZone: "UTC",
      arrivalZone: "UTC",
      draughtMetres: null,
      usableFuelLitres: 40,
      burnLitresPerHour: 2,
      crew: null,
      depths: [],
      approachDegTrue: null,
    };
    const litres = (gates: readonly Gate[]): number => {
      const { passed } = planned(gated(gates), clock(6));
      const wind = winds({ from: 0, until: 48, dir: 90, low: 10 }).onPlane(plane, 0);
      const { fuelLeftLitres } = feel(passed, wind, null, { ...NOTHING_BESIDE, facts }).whole.values;
      return fuelLeftLitres.kind === "known" ? fuelLeftLitres.value : Number.NaN;
    };
    // Six hours and three quarters at 2 L/h.
    expect(litres([])).toBeCloseTo(26.5, 3);
    expect(
      litres([gate("out", { kind: "sea" }, [[7, 8]], 90), gate("in", { kind: "metres", metres: metresFromNm(1) }, [[15, 16]], 180)]),
    ).toBeCloseTo(26.5, 3);
  });

  it("runs on beyond a gate that is missed as if it were open, and says so", () => {
    const run = planned(gated([gate("out", { kind: "sea" }, [[8, 9]]), gate("in", { kind: "sea" }, [[0, 24]])]), clock(6));
    expect(gateFaultOf(run.gates)).toMatchObject({ kind: "missed", reachedAt: expect.closeTo(clock(6, 15), 0) });
    expect((run.arrivalAt - clock(12, 45)) / 60).toBeCloseTo(0, 2);
  });
});

describe("the cure of a missed gate", () => {
  const setup = gated([
    gate(
      "in",
      { kind: "metres", metres: metresFromNm(1) },
      [
        [12, 12.2],
        [16, 16.1],
      ],
      5,
    ),
  ]);

  it("is the smallest change by its step, and is none where a day does not bring one", () => {
    // Leaving 06:10 she is at the gate at 12:40; it shut at 12:12. 28 minutes earlier serves; later, 15:55 less five minutes, 195.
    const { gateCures } = runDeparture(setup, clock(6, 10));
    expect(gateCures.map((cure) => cure.kind)).toEqual(["leave", "speed", "leave", "wait", "speed"]);
    expect(gateCures[0]).toMatchObject({ kind: "leave", seconds: -28 * 60 });
    expect(gateCures.find((cure) => cure.kind === "leave" && cure.seconds > 0)).toMatchObject({ seconds: 195 * 60 });
    const never = gated([gate("in", { kind: "sea" }, [[60, 61]])]);
    expect(runDeparture(never, clock(6)).gateCures).toEqual([]);
  });

  const passes = (one: Trial, departAt: number): boolean => gateFaultOf(planned(one, departAt).gates) === null;
  const leaves = (cures: readonly GateCure[]) => cures.flatMap((cure) => (cure.kind === "leave" ? [cure.seconds] : []));

  it("passes when it is done, and a minute less does not", () => {
    // A stream along the way that turns: what the arrival slips by is not what the departure does.
    const turning = analyticCurrent("turning along the way", (current, _x, _y, at) => {
      current[0] = kn(2) * Math.sin((2 * Math.PI * (at - clock(0))) / (12.4 * HOUR));
      current[1] = 0;
    });
    const stream = trial({ out, into, current: turning });
    const opening = fc.tuple(fc.double({ min: 6, max: 30, noNaN: true }), fc.double({ min: 0.05, max: 2, noNaN: true }));
    fc.assert(
      fc.property(
        opening,
        opening,
        fc.integer({ min: 0, max: 40 }),
        fc.boolean(),
        fc.integer({ min: 0, max: 300 }),
        (a, b, wait, moving, minute) => {
          const hours = [a, b].map(([from, long]): [number, number] => [from, from + long]);
          const one = gated(
            [
              gate("out", { kind: "sea" }, [
                [0, 5],
                [7, 18],
                [24, 40],
              ]),
              gate("in", { kind: "metres", metres: metresFromNm(1) }, hours, wait),
            ],
            moving ? stream : trial({ out, into }),
          );
          const departAt = clock(4) + minute * 60;
          const { gateCures } = runDeparture(one, departAt);
          for (const seconds of leaves(gateCures)) {
            expect(passes(one, departAt + seconds)).toBe(true);
            expect(passes(one, departAt + seconds - Math.sign(seconds) * 60)).toBe(false);
          }
        },
      ),
      { numRuns: 25 },
    );
  }, 120_000);

  it("takes a departure's gate as a door of the one before it", () => {
    const weather = { wind: winds({ from: 0, until: 72, dir: 90, low: 10 }), sea: null };
    const hourly = [clock(4), clock(5), clock(6), clock(7)];
    const one = gated([gate("in", { kind: "metres", metres: metresFromNm(1) }, [[9, 12.2]], 0)]);
    const rows = judgeBoard(keepDepartures(() => one, hourly, weather) ?? [], [limit("windMps", 15, 25)], weather);
    // At the gate 6 h 30 after leaving: 05:42 is the last minute. An hour's board knows it to the second.
    expect(rows.map((row) => row.verdict.kind)).toEqual(["open", "marginal", "closed", "closed"]);
    expect(rows[1]?.inHand?.laterDeparture).toMatchObject({
      seconds: expect.closeTo(42 * 60, -1),
      door: { kind: "gate", name: "in metres" },
    });
    expect((rows[0]?.inHand?.laterDeparture.seconds as number) / HOUR).toBeCloseTo(1.7, 2);
    expect(rows[2]?.verdict.decidedBy).toMatchObject({ kind: "gate", fault: { kind: "missed" } });
  });
});
