import { describe, expect, it } from "vitest";
import type { ChainRun, Gate, GateFault } from "../../../../src/core/places/index.ts";
import { decide, firstDoor, type GatesRun, type Margin, type Tried } from "../../../../src/core/window/index.ts";
import { clock, limit } from "../setup.ts";

const where = { latitudeDeg: 34, longitudeDeg: -41 };
const wind = limit("windMps", 15, 25);
const judged = (margin: number): Margin => ({
  kind: "judged",
  limit: wind,
  margin,
  value: 0,
  peakValue: 0,
  at: clock(6),
  where,
  firstPastNeverAt: margin < 0 ? clock(5) : null,
});
const gate = (name: string): Gate => ({
  name,
  on: "in",
  place: { kind: "sea" },
  zone: "UTC",
  needs: [],
  waitSeconds: 0,
  clearanceMetres: null,
  office: null,
});
const missed = (name: string): GateFault => ({
  kind: "missed",
  gate: gate(name),
  role: "gate",
  reachedAt: clock(12),
  shutBy: [],
  late: null,
  early: null,
});
const notGiven = (name: string): GateFault => ({
  kind: "notGiven",
  gate: gate(name),
  role: "gate",
  why: { kind: "noAnswer", code: "gate-times-not-given", gate: name, at: clock(12), where, coveredFrom: null, coveredUntil: clock(10) },
});

describe("a departure with gates is", () => {
  const cures = [{ kind: "leave", seconds: -600, departAt: clock(5, 50) } as const];

  it("closed by a gate that is missed, whatever its margins, and by a margin below 0 before that", () => {
    expect(decide([judged(2)], null, { fault: missed("a"), cures })).toMatchObject({ kind: "closed", decidedBy: { kind: "gate", cures } });
    expect(decide([judged(-0.1)], null, { fault: missed("a"), cures })).toMatchObject({ kind: "closed", decidedBy: { kind: "margin" } });
    expect(decide([], null, { fault: missed("a"), cures: [] }).kind).toBe("closed");
  });

  it("marginal, and never better, where a gate's times are not given", () => {
    expect(decide([judged(2)], null, { fault: notGiven("a"), cures: [] })).toMatchObject({
      kind: "marginal",
      decidedBy: { kind: "gateNotJudged" },
    });
    expect(decide([judged(-0.1)], null, { fault: notGiven("a"), cures: [] }).kind).toBe("closed");
  });

  it("judged by its margins where all are passed", () => {
    expect(decide([judged(2)], null, { fault: null, cures: [] })).toMatchObject({ kind: "open", decidedBy: { kind: "margin" } });
  });
});

describe("the door that a gate is", () => {
  const leg = (startAt: number, shutsAt: number | null, fault: GateFault | null = null): ChainRun => ({
    startAt,
    passed: [],
    fault,
    shuts: shutsAt === null ? null : { at: shutsAt, gate: gate("b") },
  });
  const tried = (amount: number, gates: GatesRun, margin = 2): Tried => ({
    amount,
    outcome: { kind: "judged", margins: [judged(margin)], arrivalAt: clock(13), gates },
  });

  it("shuts when the leg's beginning has slipped to it", () => {
    const door = firstDoor([
      tried(0, { out: null, into: leg(clock(12), clock(12, 15)) }),
      tried(3600, { out: null, into: leg(clock(13), null, missed("b")) }),
    ]);
    expect(door).toEqual({ amount: 900, door: { kind: "gate", name: "b" } });
  });

  it("shuts though it is open again by the next case", () => {
    const door = firstDoor([
      tried(0, { out: null, into: leg(clock(12), clock(12, 15)) }),
      tried(3600, { out: null, into: leg(clock(13), clock(13, 15)) }),
    ]);
    expect(door).toEqual({ amount: 900, door: { kind: "gate", name: "b" } });
  });

  it("is the sooner of two legs, and of a limit", () => {
    const cases = [
      tried(0, { out: leg(clock(6), clock(6, 40)), into: leg(clock(12), clock(12, 50)) }),
      tried(3600, { out: leg(clock(7), null), into: leg(clock(13), null) }),
    ];
    expect(firstDoor(cases).amount).toBe(2400);
    const [first] = cases as [Tried];
    // From 0.1 to −0.9 the limit shuts after a tenth of the hour.
    const limited = firstDoor([
      { ...first, outcome: { ...first.outcome, margins: [judged(0.1)] } as Tried["outcome"] },
      tried(3600, { out: leg(clock(7), null), into: leg(clock(13), null) }, -0.9),
    ]);
    expect(limited.door).toEqual({ kind: "limit", felt: "windMps" });
    expect(limited.amount).toBeLessThan(2400);
  });

  it("does not shut where nothing does, or where the next case is no later", () => {
    expect(
      firstDoor([tried(0, { out: null, into: leg(clock(12), null) }), tried(3600, { out: null, into: leg(clock(13), null) })]).door,
    ).toBeNull();
    expect(
      firstDoor([
        tried(0, { out: null, into: leg(clock(12), clock(12, 15)) }),
        tried(3600, { out: null, into: leg(clock(12, 10), clock(12, 15)) }),
      ]).door,
    ).toBeNull();
  });
});
