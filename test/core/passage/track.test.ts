import { describe, expect, it } from "vitest";
import {
  type LaneCrossing,
  lineBetween,
  nodeAt,
  placeAt,
  rateAtNode,
  recommended,
  sumsOf,
  TrackRecorder,
  type Way,
  type WayArrives,
  type WayName,
  whereAlong,
} from "../../../src/core/passage/index.ts";
import { ASSUMED_STILL } from "../../../src/core/water/index.ts";
import { FLAT } from "./waters.ts";

/** An hour east at 2 m/s with the engine, an hour north at 1 m/s without, on assumed water. */
function madeUp() {
  const record = new TrackRecorder();
  record.add(1000, 0, 0, 90, 0.3, 0.4, 2, 3, true, 0);
  record.add(2800, 3600, 0, 90, 0, 0, 2, 3, true, 0);
  record.add(4600, 7200, 0, 0, 0, 0, 1, 0, false, ASSUMED_STILL);
  record.add(8200, 7200, 3600, 0, 0, 0, 1, 0, false, ASSUMED_STILL);
  return record.finish(FLAT);
}

describe("a track", () => {
  it("adds up: miles, fuel, engine hours, the share on assumed water", () => {
    const sums = sumsOf(madeUp());
    // From 2 to 1 m/s through the middle half hour, by the trapezoid.
    expect(sums.throughWaterMetres).toBeCloseTo(3600 + 2700 + 3600, 9);
    expect(sums.overGroundMetres).toBeCloseTo(10_800, 9);
    expect(sums.fuelLitres).toBeCloseTo(3, 9);
    expect(sums.engineSeconds).toBe(3600);
    // The middle half hour ends on assumed water.
    expect(sums.assumedWaterShare).toBe(0.75);
  });

  it("of a single node adds up to nothing", () => {
    const record = new TrackRecorder();
    record.add(0, 0, 0, 0, 0, 0, 2, 3, true, 0);
    expect(sumsOf(record.finish(FLAT))).toEqual({
      throughWaterMetres: 0,
      overGroundMetres: 0,
      fuelLitres: 0,
      engineSeconds: 0,
      assumedWaterShare: 0,
    });
  });

  it("tells the node and the place at an instant, held at the ends", () => {
    const track = madeUp();
    expect([500, 1000, 2799, 2800, 8200, 9999].map((at) => nodeAt(track, at))).toEqual([0, 0, 0, 1, 3, 3]);
    expect(placeAt(track, 1900)).toEqual({ xMetres: 1800, yMetres: 0 });
    expect(placeAt(track, 0)).toEqual({ xMetres: 0, yMetres: 0 });
    expect(placeAt(track, 6400)).toEqual({ xMetres: 7200, yMetres: 1800 });
    expect(placeAt(track, 1e6)).toEqual({ xMetres: 7200, yMetres: 3600 });
    expect(rateAtNode(track, 0)).toBeCloseTo(0.5, 12);
  });

  it("tells where and when it first comes to a distance along the line", () => {
    const track = madeUp();
    const line = lineBetween(FLAT, 0, 0, 10_000, 0);
    expect(whereAlong(track, line, 0)).toEqual({ at: 1000, offMetres: 0 });
    expect(whereAlong(track, line, 1800)).toEqual({ at: 1900, offMetres: 0 });
    expect(whereAlong(track, line, 7201)).toBeNull();
    const slant = lineBetween(FLAT, 0, 0, 0, 10_000);
    expect(whereAlong(track, slant, 1800)).toEqual({ at: 6400, offMetres: 7200 });
  });

  it("grows past its first room and keeps every node", () => {
    const record = new TrackRecorder();
    for (let i = 0; i < 1000; i++) record.add(i, 2 * i, 3 * i, i % 360, 0.1 * i, 0.2 * i, 1, 2, i % 2 === 0, i % 5);
    record.dropLast();
    const track = record.finish(FLAT);
    expect(track.count).toBe(999);
    for (const i of [0, 255, 256, 511, 998]) {
      expect([track.atSeconds[i], track.xMetres[i], track.yMetres[i], track.engineOn[i], track.answeredBy[i]]).toEqual([
        i,
        2 * i,
        3 * i,
        i % 2 === 0 ? 1 : 0,
        i % 5,
      ]);
    }
  });
});

describe("the order that is advised", () => {
  const lane = (flagged: boolean) => [{ laneName: "lane", flagged } as Partial<LaneCrossing> as LaneCrossing] as const;
  const arrives = (name: WayName, arrivalAt: number, laneCrossings: readonly LaneCrossing[] = []): Way => {
    const part: Partial<WayArrives> = { kind: "arrives", name, arrivalAt, laneCrossings };
    return part as WayArrives;
  };
  const fails = (name: WayName): Way => ({
    kind: "fails",
    name,
    departAt: 0,
    why: { kind: "noAnswer", code: "stalled", at: 0, where: { latitudeDeg: 0, longitudeDeg: 0 } },
  });

  it("is the simplest that is within five minutes of the earliest", () => {
    const ways = [
      arrives("oneHeading", 10_300),
      arrives("acrossThenTurn", 10_200),
      arrives("holdTrack", 10_100),
      arrives("bowOnDestination", 10_000),
    ];
    expect(recommended(ways)?.name).toBe("oneHeading");
    expect(recommended([arrives("oneHeading", 10_301), ...ways.slice(1)])?.name).toBe("acrossThenTurn");
    expect(recommended([arrives("oneHeading", 99_999), arrives("acrossThenTurn", 10_301), arrives("holdTrack", 10_000)])?.name).toBe(
      "holdTrack",
    );
  });

  it("is one that is square in the lanes, whatever it costs, while there is one", () => {
    const notSquare = arrives("oneHeading", 10_000, lane(true));
    const square = arrives("squareInLanes", 15_000, lane(false));
    const held = arrives("holdTrack", 14_000, lane(true));
    expect(recommended([notSquare, square, held])?.name).toBe("squareInLanes");
    expect(recommended([notSquare, square, arrives("acrossThenTurn", 14_600, lane(false)), held])?.name).toBe("acrossThenTurn");
    expect(recommended([notSquare, held])?.name).toBe("oneHeading");
  });

  it("passes over ways that do not arrive, and is nothing where none does", () => {
    expect(recommended([fails("oneHeading"), fails("holdTrack"), arrives("bowOnDestination", 5)])?.name).toBe("bowOnDestination");
    expect(recommended([fails("oneHeading"), fails("acrossThenTurn")])).toBeNull();
    expect(recommended([])).toBeNull();
  });
});
