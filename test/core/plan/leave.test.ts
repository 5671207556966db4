import { describe, expect, it } from "vitest";
import { crossAt, departureTimes, MOST_DEPARTURES, tryDepartures } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { clock, HOUR, limit } from "../window/setup.ts";
import { currentGrid, kn, prepared } from "./setup.ts";

const from = (hours: number, minutes = 0) => epochSeconds(clock(hours, minutes));
const file = { kind: "files", files: ["current.nc"] } as const;

describe("the departures that are tried", () => {
  it("stand on the whole hours of ship's time, from the first asked for to the last", () => {
    expect(departureTimes(prepared({ leaveFrom: from(6, 20), leaveUntil: from(9) }))).toEqual([7, 8, 9].map((hour) => clock(hour)));
    // In a zone of half hours the ship's whole hours are half past by UTC.
    expect(departureTimes(prepared({ shipZone: "UTC-3:30", leaveFrom: from(6), leaveUntil: from(8) }))).toEqual([
      clock(6, 30),
      clock(7, 30),
    ]);
  });

  it("are all that both wind and current cover where none is asked for", () => {
    // The wind from Thursday 0000 for 48 hours, the water known always, then from 0000 for 48 hours, too.
    expect(departureTimes(prepared())).toHaveLength(49);
    const water = { ...currentGrid(1), times: Float64Array.of(clock(12), clock(18), clock(24)) };
    const one = prepared(
      { waterSources: [file] },
      { water: [[{ ...water, values: water.values.slice(0, 54), missing: water.missing.slice(0, 27) }]], weather: [null] },
    );
    const times = departureTimes(one);
    expect([times[0], times.at(-1), times.length]).toEqual([clock(12), clock(24), 13]);
  });

  it("are none where there is no time, and never more than a month's", () => {
    expect(departureTimes(prepared({ leaveFrom: from(9), leaveUntil: from(8) }))).toEqual([]);
    expect(departureTimes(prepared({ leaveFrom: from(0), leaveUntil: from(24 * 365) }))).toHaveLength(MOST_DEPARTURES);
  });
});

describe("leaving", () => {
  it("tries every departure and has a line for each, and stops when asked", () => {
    const one = prepared({ leaveFrom: from(6), leaveUntil: from(10) });
    const answer = tryDepartures(one);
    expect(answer?.rows.map((row) => row.departAt)).toEqual([6, 7, 8, 9, 10].map((hour) => clock(hour)));
    expect(answer?.kept.filter((one) => !one.onlyLater)).toHaveLength(5);
    // 12 kn of 15 happy, 25 never: margin 1.3 all along.
    for (const row of answer?.rows ?? []) expect([row.verdict.kind, row.verdict.smallestMargin]).toEqual(["open", expect.closeTo(1.3, 9)]);
    expect(tryDepartures(one, () => true)).toBeNull();
  });

  it("sees the door that shuts after the last departure asked for, as the look at one departure does", () => {
    // 36 nm at √35 kn made good take 6.1 h; from 1800 it blows 30 kn, so the last to be through leaves at about 1155.
    const period = (fromHour: number, untilHour: number, knots: number) => ({
      from: from(fromHour),
      until: from(untilHour),
      fromDegTrue: 180,
      arcDeg: 0,
      speedLowMps: kn(knots),
      speedHighMps: kn(knots),
      gustMps: null,
    });
    const weatherSources = [{ kind: "periods", wind: [period(0, 18, 10), period(18, 48, 30)], sea: [] }] as const;
    const one = prepared({ weatherSources, leaveFrom: from(6), leaveUntil: from(7) });
    const row = tryDepartures(one)?.rows[0];
    const hours = one.line.lengthMetres / 1852 / Math.sqrt(35);
    expect(row?.inHand?.laterDeparture.door).toEqual({ kind: "limit", felt: "windMps" });
    expect((row?.inHand?.laterDeparture.seconds ?? 0) / HOUR).toBeLessThanOrEqual(12 - hours + 0.01);
    expect((row?.inHand?.laterDeparture.seconds ?? 0) / HOUR).toBeGreaterThan(12 - hours - 1);
    expect(row?.inHand).toEqual(crossAt(one, clock(6)).row.inHand);
  });
});

describe("crossing at one departure", () => {
  const one = prepared({ limits: [limit("windMps", 15, 25), limit("windAgainstCurrentMps2", 0, 40, { during: "openWater" })] });
  const answer = crossAt(one, clock(6));

  it("sets the ways side by side, the best at no cost, the advised the simplest within five minutes", () => {
    expect(answer.ways.map(({ way }) => way.name)).toEqual([
      "oneHeading",
      "acrossThenTurn",
      "holdTrack",
      "bowOnDestination",
      "changingHeadings",
    ]);
    const costs = answer.ways.map((way) => way.costSeconds ?? Number.POSITIVE_INFINITY);
    expect(Math.min(...costs)).toBeLessThan(1);
    expect(answer.advised?.name).toBe("oneHeading");
    // In a uniform stream of 1 kn across, one heading and holding the track are one and the same: √(36 − 1) kn made good.
    const hours = ((answer.advised?.arrivalAt ?? 0) - clock(6)) / HOUR;
    expect(hours).toBeCloseTo(one.line.lengthMetres / 1852 / Math.sqrt(35), 3);
    expect(Math.abs((costs[0] as number) - (costs[2] as number))).toBeLessThan(2);
    for (const { way, otherwise } of answer.ways)
      if (way.kind === "arrives") expect(otherwise.map((other) => other.streamFactor)).toEqual([0.8, 1.25]);
    expect(answer.reAim.map((table) => table.streamFactor)).toEqual([0.8, 1, 1.25]);
  });

  it("has the same line as the board of the hours that follow", () => {
    const board = tryDepartures(prepared({ ...one.passage, leaveFrom: from(6), leaveUntil: from(30) }));
    const line = board?.rows[0];
    expect({ ...answer.row, advised: null }).toEqual({ ...line, advised: null });
    expect(answer.row.advised?.arrivalAt).toBe(line?.advised?.arrivalAt);
    expect(answer.row.forecastsAgreeing).toEqual({ agree: 1, of: 1 });
  });

  it("begins open water after the leg out of harbour", () => {
    const out = prepared({ pilotageOut: { speedOverGroundMps: kn(4), points: [{ latitudeDeg: 34.05, longitudeDeg: -40 }] } });
    const later = crossAt(out, clock(6));
    // 3′ of latitude at 34° N is 2.995 nm on the ellipsoid: 45 minutes at 4 kn.
    expect((later.openWaterFrom - clock(6)) / 60).toBeCloseTo(44.9, 0);
    expect(later.advised?.departAt).toBeCloseTo(later.openWaterFrom, 3);
    expect(later.row.departAt).toBe(clock(6));
  });
});
