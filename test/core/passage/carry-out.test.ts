import { describe, expect, it } from "vitest";
import { driftingModel } from "../../../src/core/boat/index.ts";
import {
  bowOnDestination,
  type Crossing,
  carryOut,
  findHeadings,
  holdTrack,
  keptUntilAlong,
  legAlong,
  MEND_FROM_SHARE,
  OFF_PATH_NM,
  oneHeading,
  reAimTables,
  rowSpacingNm,
  runLegs,
  STREAM_FACTORS,
  startOf,
  waysAcross,
} from "../../../src/core/passage/index.ts";
import { gaussianJet, uniformCurrent } from "../../../src/core/water/index.ts";
import { arriving, crossing, HOUR, headingOf, KN, NM, powerBoat } from "./waters.ts";

const jet = (rateKn: number) => gaussianJet({ rateMps: rateKn * KN, axisMetres: 20 * NM, halfWidthMetres: 8 * NM });
const over = (rateKn: number) => crossing(jet(rateKn), [0, 0], [45, 0]);

const ended = (carried: ReturnType<typeof carryOut>) => {
  if (carried.run.kind === "fails") throw new Error(carried.run.why.code);
  return carried.run.end;
};

describe("an order carried out", () => {
  it("as planned comes to what was planned, but for the mended end", () => {
    const one = over(3);
    const planned = arriving(oneHeading(one, 0));
    expect(planned.clear).not.toBeNull();
    for (const way of waysAcross(one, 0).ways) {
      const carried = ended(carryOut(one, arriving(way), {}));
      // After the stream the rest of the way is held as a straight track: some seconds at most.
      expect(Math.abs(carried.at - arriving(way).arrivalAt)).toBeLessThan(
        way.name === "acrossThenTurn" || way.name === "oneHeading" ? 60 : 1e-6,
      );
    }
  });

  it("in a stronger stream is set down-stream where it ends, in a weaker one up-stream", () => {
    const one = over(3);
    const way = arriving(oneHeading(one, 0));
    const off = (streamFactor: number) => carryOut(one, way, { streamFactor }).offAtClearMetres ?? Number.NaN;
    // The stream sets north, to port of the line.
    expect(off(1.25)).toBeLessThan(off(1));
    expect(off(0.8)).toBeGreaterThan(off(1));
    // The drift up to there is the stream's, so the three lie evenly.
    expect((off(1.25) - off(1)) / (off(1) - off(0.8))).toBeCloseTo(0.25 / 0.2, 4);
  });

  it("at nine tenths of the speed takes longer, and the speed is nine tenths of it", () => {
    const one = over(3);
    const way = arriving(holdTrack(one, 0));
    const carried = carryOut(one, way, { speedFactor: 0.9 });
    expect(ended(carried).at).toBeGreaterThan(way.arrivalAt / 0.9);
    if (carried.run.kind === "arrives") {
      for (const speed of carried.run.track.throughWaterMps) expect(speed).toBeCloseTo(0.9 * 5 * KN, 12);
    }
  });

  it("with the engine stopped drifts for just so long, and arrives that much later in still water", () => {
    const still = crossing(uniformCurrent(0, 0), [0, 0], [45, 0]);
    for (const way of [oneHeading(still, 0), holdTrack(still, 0), bowOnDestination(still, 0)]) {
      const carried = ended(carryOut(still, arriving(way), { stop: { alongMetres: 20 * NM, seconds: 5400 } }));
      expect(carried.at - arriving(way).arrivalAt).toBeCloseTo(5400, 3);
    }
  });

  it("with the engine stopped sails on if she has sails, and is later by only what she is slower", () => {
    const still = crossing(uniformCurrent(0, 0), [0, 0], [45, 0]);
    const sails = { ...still, engineStopped: powerBoat(3) };
    for (const way of [oneHeading(still, 0), holdTrack(still, 0), bowOnDestination(still, 0)]) {
      const stopped = (alongNm: number, hours: number) =>
        (ended(carryOut(sails, arriving(way), { stop: { alongMetres: alongNm * NM, seconds: hours * HOUR } })).at - 9 * HOUR) / HOUR;
      // Two hours at 3 kn of 5: six miles, made good at 5 kn in 1 h 12 min.
      expect(stopped(20, 2)).toBeCloseTo(0.8, 3);
      // 15 miles in 4 h make 12 under sail, past where the order ends at four fifths of the way; 3 more under power.
      expect(stopped(30, 4)).toBeCloseTo(6 + 4 + 3 / 5 - 9, 3);
      // What is left are 9 miles, and she sails them all in three hours of the four: she does not go past the destination.
      expect(stopped(36, 4)).toBeCloseTo(36 / 5 + 9 / 3 - 9, 3);
    }
    expect(() =>
      carryOut({ ...still, engineStopped: null }, arriving(holdTrack(still, 0)), { stop: { alongMetres: 20 * NM, seconds: HOUR } }),
    ).toThrow("never used");
  });

  it("under sails too weak to hold the track keeps the bow on the destination, and is set down the less for it", () => {
    // 2 kn across the line everywhere: too much for 1.5 kn under sail, so the track can't be held for the hour.
    const stream = crossing(uniformCurrent(0, 2 * KN), [0, 0], [45, 0]);
    const way = arriving(holdTrack(stream, 0));
    const stop = { alongMetres: 20 * NM, seconds: HOUR };
    const later = (engineStopped: Crossing["engineStopped"]) =>
      ended(carryOut({ ...stream, engineStopped }, way, { stop })).at - way.arrivalAt;
    expect(later(powerBoat(1.5))).toBeLessThan(later(driftingModel()));
    expect(later(powerBoat(1.5))).toBeGreaterThan(0);
  });

  it("can fail when the stream turns out too strong to be held", () => {
    const one = over(4.5);
    const way = arriving(holdTrack(one, 0));
    const { run, offAtClearMetres } = carryOut(one, way, { streamFactor: 1.25 });
    expect(run.kind === "fails" && run.why.code).toBe("cannot-hold");
    expect(offAtClearMetres).toBeNull();
  });

  it("is kept until clear of the stream, or four fifths of the way where that never comes", () => {
    const one = over(3);
    const way = arriving(oneHeading(one, 0));
    const length = one.line.lengthMetres;
    expect(keptUntilAlong(way, length)).toBe(way.clear?.alongMetres);
    expect(way.clear?.alongMetres ?? 0).toBeCloseTo((20 + 8 * Math.sqrt(Math.log(6))) * NM, -2);
    const uniform = crossing(uniformCurrent(0, 2 * KN), [0, 0], [45, 0]);
    const never = arriving(oneHeading(uniform, 0));
    expect(never.clear).toBeNull();
    expect(keptUntilAlong(never, length)).toBe(MEND_FROM_SHARE * length);
    expect(keptUntilAlong(arriving(holdTrack(one, 0)), length)).toBe(length);
    const turned = arriving(waysAcross(one, 0).ways[1]!);
    expect(turned.name).toBe("acrossThenTurn");
    expect(keptUntilAlong(turned, length)).toBe(turned.orders[1]?.fromAlongMetres);
  });
});

describe("the table to re-aim by", () => {
  const one = over(3);
  const way = arriving(oneHeading(one, 0));
  const tables = reAimTables(one, way, -1);

  it("has a table for each strength, about ten rows, a cell for each place off the path", () => {
    expect(tables.map((table) => table.streamFactor)).toEqual([...STREAM_FACTORS]);
    for (const table of tables) {
      expect(table.rows.map((row) => row.acrossMetres / NM)).toEqual([0, 5, 10, 15, 20, 25, 30, 35, 40]);
      for (const row of table.rows) expect(row.cells).toHaveLength(OFF_PATH_NM.length);
    }
    expect([8, 20, 27, 45, 100, 200, 900].map((miles) => rowSpacingNm(miles * NM))).toEqual([1, 2, 2.5, 5, 10, 20, 20]);
  });

  it("on the path in the stream foretold gives the order itself and its arrival", () => {
    const foretold = tables.find((table) => table.streamFactor === 1);
    for (const row of foretold?.rows ?? []) {
      const cell = row.cells[2];
      expect(cell?.headingDegTrue).toBeCloseTo(headingOf(way), 1);
      expect(Math.abs((cell?.arrivalAt ?? 0) - way.arrivalAt)).toBeLessThan(5);
    }
  });

  it("steers the more up-stream the farther down-stream the boat is, and the stronger the stream", () => {
    for (const table of tables) {
      for (const row of table.rows) {
        // Up-stream is south here: headings grow toward it.
        const headings = row.cells.map((cell) => cell?.headingDegTrue ?? Number.NaN);
        for (let i = 1; i < headings.length; i++) expect(headings[i]!).toBeGreaterThan(headings[i - 1]!);
      }
    }
    const [weak, right, strong] = tables.map((table) => table.rows[0]?.cells[2]?.headingDegTrue ?? Number.NaN);
    expect(weak!).toBeLessThan(right!);
    expect(right!).toBeLessThan(strong!);
  });

  it("has cells that lead to the destination when they are steered", () => {
    const row = tables[1]?.rows[4];
    const cell = row?.cells[4];
    if (row === undefined || cell === undefined || cell === null) throw new Error("no cell");
    const node = way.track.atSeconds.findIndex((at) => at >= row.at);
    const y =
      way.track.yMetres[node - 1]! +
      ((way.track.yMetres[node]! - way.track.yMetres[node - 1]!) * (row.at - way.track.atSeconds[node - 1]!)) /
        (way.track.atSeconds[node]! - way.track.atSeconds[node - 1]!);
    const start = { xMetres: row.acrossMetres, yMetres: y + 4 * NM, at: row.at, engineOn: false };
    const helm = { kind: "heading", headingDegTrue: cell.headingDegTrue } as const;
    const run = runLegs(one, one.simulator, start, [legAlong(one.boat, helm, one.line, one.line.lengthMetres)]);
    if (run.kind === "fails") throw new Error(run.why.code);
    expect(Math.abs(run.end.yMetres)).toBeLessThan(10);
    expect(Math.abs(run.end.at - cell.arrivalAt)).toBeLessThan(10);
  });

  it("leaves a cell empty where no heading leads to the destination", () => {
    // A current of 4 kn against a boat of 3 kn: from far down-stream there is no way back.
    const weak = crossing(uniformCurrent(0, 4 * KN), [0, 0], [10, 30], powerBoat(3));
    const slow = arriving(oneHeading(weak, 0));
    const { downStreamSide } = waysAcross(weak, 0).stream ?? { downStreamSide: 1 as const };
    const rows = reAimTables(weak, slow, downStreamSide).flatMap((table) => table.rows);
    expect(rows.some((row) => row.cells.includes(null))).toBe(true);
    for (const row of rows) for (const cell of row.cells) if (cell !== null) expect(cell.arrivalAt).toBeGreaterThan(row.at);
    expect(findHeadings(weak.simulator, weak.boat, weak.line, startOf(weak, 0), 300).found.length).toBeGreaterThan(0);
  });
});

it("an hour's burn is an hour's fuel", () => {
  const way = arriving(holdTrack(crossing(uniformCurrent(0, 0), [0, 0], [45, 0], powerBoat(5, 2.6)), 0));
  expect(way.fuelLitres).toBeCloseTo(2.6 * 9, 6);
  expect(way.engineSeconds).toBeCloseTo(9 * HOUR, 3);
});
