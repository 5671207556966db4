import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Crossing, carryOut, reAimTables, type Way, waysAcross } from "../../../src/core/passage/index.ts";
import { type CurrentSource, gaussianJet, sumOfCurrents, turningTide, uniformCurrent } from "../../../src/core/water/index.ts";
import { crossing, HOUR, headingOf, KN, NM, powerBoat } from "./waters.ts";

interface Sea {
  readonly jetKn: number;
  readonly jetAxisNm: number;
  readonly jetWidthNm: number;
  readonly tideKn: number;
  readonly tideAxisNm: number;
  readonly tideWidthNm: number;
  readonly boatKn: number;
  readonly eastNm: number;
  readonly northNm: number;
  readonly departHours: number;
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const seas = (strongest: number, boat: readonly [number, number]) =>
  fc.record<Sea>({
    jetKn: between(-strongest, strongest),
    jetAxisNm: between(-10, 50),
    jetWidthNm: between(2, 20),
    tideKn: between(-strongest, strongest),
    tideAxisNm: between(-10, 50),
    tideWidthNm: between(2, 20),
    boatKn: between(...boat),
    eastNm: between(8, 50),
    northNm: between(-25, 25),
    departHours: between(0, 24),
  });

/** The sea mirrored north for south when `side` is −1; its clock put `laterHours` on. */
function seaOf(sea: Sea, side: 1 | -1, laterHours = 0): CurrentSource {
  return sumOfCurrents([
    gaussianJet({ rateMps: side * sea.jetKn * KN, axisMetres: sea.jetAxisNm * NM, halfWidthMetres: sea.jetWidthNm * NM }),
    turningTide({
      rateMps: side * sea.tideKn * KN,
      periodSeconds: 12.42 * HOUR,
      epochAt: laterHours * HOUR,
      bell: { axisMetres: sea.tideAxisNm * NM, halfWidthMetres: sea.tideWidthNm * NM },
    }),
  ]);
}
const over = (sea: Sea, side: 1 | -1 = 1, laterHours = 0): Crossing =>
  crossing(seaOf(sea, side, laterHours), [0, 0], [sea.eastNm, side * sea.northNm], powerBoat(sea.boatKn));

/** Everything in an answer is a number and makes sense. */
function sound(one: Crossing, way: Way): void {
  if (way.kind === "fails") {
    expect(Number.isFinite(way.why.at)).toBe(true);
    expect(Number.isFinite(way.why.where.latitudeDeg) && Number.isFinite(way.why.where.longitudeDeg)).toBe(true);
    expect(["cannot-hold", "stalled", "unreachable", "carried-away"]).toContain(way.why.code);
    return;
  }
  const { track, line } = { track: way.track, line: one.line };
  for (const column of [track.atSeconds, track.xMetres, track.yMetres, track.headingDegTrue, track.currentEastMps, track.currentNorthMps]) {
    expect(column).toHaveLength(track.count);
    expect(column.every((value) => Number.isFinite(value))).toBe(true);
  }
  expect(track.headingDegTrue.every((heading) => heading >= 0 && heading < 360)).toBe(true);
  for (let i = 1; i < track.count; i++) expect(track.atSeconds[i]!).toBeGreaterThan(track.atSeconds[i - 1]!);
  const last = track.count - 1;
  expect(track.atSeconds[last]).toBe(way.arrivalAt);
  expect(Math.hypot(track.xMetres[last]! - line.toX, track.yMetres[last]! - line.toY)).toBeLessThan(1);
  for (const sum of [
    way.throughWaterMetres,
    way.fuelLitres,
    way.engineSeconds,
    way.upStreamMetres,
    way.downStreamMetres,
    way.axis.rateMps,
  ]) {
    expect(sum).toBeGreaterThanOrEqual(0);
    expect(Number.isFinite(sum)).toBe(true);
  }
  expect(way.overGroundMetres).toBeGreaterThanOrEqual(line.lengthMetres - 1);
  if (way.clear !== null) expect(way.clear.at).toBeGreaterThan(way.departAt);
}

describe("whatever the water, the boat and the destination", () => {
  it("every way answers soundly, in streams stronger than the boat too", () => {
    fc.assert(
      fc.property(seas(7, [2, 9]), (sea) => {
        const one = over(sea);
        for (const way of waysAcross(one, sea.departHours * HOUR).ways) sound(one, way);
      }),
      { numRuns: 100 },
    );
  });

  it("orders carried out otherwise and the table to re-aim by answer soundly", () => {
    fc.assert(
      fc.property(seas(4, [3, 8]), between(0.5, 1.5), between(0.6, 1.2), between(0, 1), (sea, streamFactor, speedFactor, stopShare) => {
        const one = over(sea);
        for (const way of waysAcross(one, sea.departHours * HOUR).ways) {
          if (way.kind === "fails") continue;
          const stop = { alongMetres: stopShare * one.line.lengthMetres, seconds: 3600 };
          const { run, offAtClearMetres } = carryOut(one, way, { streamFactor, speedFactor, stop });
          if (run.kind === "fails") expect(["cannot-hold", "stalled", "carried-away"]).toContain(run.why.code);
          else {
            expect(run.end.at).toBeGreaterThan(way.departAt);
            expect(Math.hypot(run.end.xMetres - one.line.toX, run.end.yMetres - one.line.toY)).toBeLessThan(1);
            if (offAtClearMetres !== null) expect(Number.isFinite(offAtClearMetres)).toBe(true);
          }
        }
        const [first] = waysAcross(one, sea.departHours * HOUR).ways;
        if (first?.kind !== "arrives") return;
        for (const row of reAimTables(one, first, 1)[0]?.rows ?? []) {
          for (const cell of row.cells) {
            if (cell === null) continue;
            expect(cell.headingDegTrue).toBeGreaterThanOrEqual(0);
            expect(cell.headingDegTrue).toBeLessThan(360);
            expect(cell.arrivalAt).toBeGreaterThan(row.at);
          }
        }
      }),
      { numRuns: 15 },
    );
  });
});

describe("what may not matter does not", () => {
  it("the sea mirrored gives the ways mirrored", () => {
    fc.assert(
      fc.property(seas(2, [4.5, 8]), (sea) => {
        const departAt = sea.departHours * HOUR;
        const here = waysAcross(over(sea), departAt).ways;
        const there = waysAcross(over(sea, -1), departAt).ways;
        here.forEach((way, i) => {
          const other = there[i]!;
          expect(other.kind).toBe(way.kind);
          if (way.kind === "fails" || other.kind === "fails") return;
          expect(Math.abs(other.arrivalAt - way.arrivalAt)).toBeLessThan(0.01);
          expect(Math.abs(other.upStreamMetres - way.upStreamMetres)).toBeLessThan(0.1);
          expect(Math.abs(other.downStreamMetres - way.downStreamMetres)).toBeLessThan(0.1);
          if (way.name === "oneHeading") expect(headingOf(way) + headingOf(other)).toBeCloseTo(180, 5);
        });
      }),
      { numRuns: 60 },
    );
  });

  it("tides and departure put on by whole hours put the arrival on by as much", () => {
    fc.assert(
      fc.property(seas(2, [4.5, 8]), fc.integer({ min: -1000, max: 500_000 }), (sea, laterHours) => {
        const departAt = Math.round(sea.departHours * HOUR);
        const here = waysAcross(over(sea), departAt).ways;
        const there = waysAcross(over(sea, 1, laterHours), departAt + laterHours * HOUR).ways;
        here.forEach((way, i) => {
          const other = there[i]!;
          if (way.kind === "fails" || other.kind === "fails") throw new Error(`${way.name} fails`);
          expect(Math.abs(other.arrivalAt - laterHours * HOUR - way.arrivalAt)).toBeLessThan(0.01);
          expect(other.track.count).toBe(way.track.count);
        });
      }),
      { numRuns: 60 },
    );
  });

  it("a uniform current from another quarter and a line turned with it give the heading turned with it", () => {
    fc.assert(
      fc.property(between(0, 360), between(-80, 80), between(0.1, 3), between(4, 8), (turnDeg, setOffDeg, rateKn, boatKn) => {
        const along = (deg: number): readonly [number, number] => [
          30 * Math.sin((deg * Math.PI) / 180),
          30 * Math.cos((deg * Math.PI) / 180),
        ];
        const plain = waysAcross(crossing(uniformCurrent(setOffDeg, rateKn * KN), [0, 0], along(0), powerBoat(boatKn)), 0).ways[0]!;
        const turned = waysAcross(crossing(uniformCurrent(turnDeg + setOffDeg, rateKn * KN), [0, 0], along(turnDeg), powerBoat(boatKn)), 0)
          .ways[0]!;
        if (plain.kind === "fails" || turned.kind === "fails") throw new Error("fails");
        expect(Math.abs(turned.arrivalAt - plain.arrivalAt)).toBeLessThan(1e-3);
        expect(Math.abs(((headingOf(turned) - headingOf(plain) - turnDeg + 900) % 360) - 180)).toBeLessThan(1e-5);
      }),
      { numRuns: 100 },
    );
  });
});
