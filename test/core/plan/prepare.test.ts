import { describe, expect, it } from "vitest";
import { COVERED, type GridData } from "../../../src/core/fields/index.ts";
import { type Gathered, type Passage, placesOf, prepare } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import {
  SEA_HAS_PERIOD,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_SLOTS,
  SYSTEM_PERIOD_SECONDS,
  SYSTEM_STRIDE,
  SYSTEMS_SLOTS,
  WIND_GUST_ASSUMED,
  WIND_GUST_MPS,
  WIND_SLOTS,
  WIND_SPEED_HIGH_MPS,
} from "../../../src/core/weather/index.ts";
import { clock } from "../window/setup.ts";
import { currentGrid, grid, gustGrid, kn, passage, prepared, tansy, windGrid } from "./setup.ts";

const file = { kind: "files", files: ["forecast.grib2"] } as const;

/** Wind of a member in the middle of the waters, knots: [wind, gust, whether the gust is assumed]. */
function windAt(one: ReturnType<typeof prepared>, member: number): [number, number, boolean] {
  const out = new Float64Array(WIND_SLOTS);
  expect(one.weather.wind.onPlane(one.plane, member).readInto(out, 0, 0, clock(9))).toBe(COVERED);
  const knots = (mps: number | undefined): number => Math.round(((mps ?? Number.NaN) / kn(1)) * 100) / 100;
  return [knots(out[WIND_SPEED_HIGH_MPS]), knots(out[WIND_GUST_MPS]), out[WIND_GUST_ASSUMED] === 1];
}

const codesOf = (changes: Partial<Passage>, gathered: Gathered): string[] => {
  const made = prepare(passage(changes), gathered);
  return made.ok ? [] : made.issues.map((one) => `${one.path} ${one.code}`);
};

describe("what a passage's sources lack", () => {
  it("is told all at once, each by its place", () => {
    const changes: Partial<Passage> = {
      boat: { ...tansy, power: null },
      waterSources: [file, { kind: "uniform", setDegTrue: 0, rateMps: 1 }, { kind: "files", files: ["empty.nc"] }],
      weatherSources: [file],
    };
    const told = codesOf(changes, { water: [[windGrid(10)], null, []], weather: [[currentGrid(1)]] });
    expect(told).toEqual(
      expect.arrayContaining([
        "water.sources[0] source-lacks-quantity",
        "water.sources[2] source-lacks-quantity",
        "weather.sources[0] source-lacks-quantity",
      ]),
    );
    expect(told.some((one) => one.startsWith("boat"))).toBe(true);
    expect(told).not.toContain("water.sources[1] source-lacks-quantity");
  });

  it("includes a wind, though something else is wanting too; a sea alone is not enough", () => {
    const seaOnly: Gathered = { water: [[]], weather: [[grid(["seaHeightMetres"], [1])]] };
    expect(codesOf({ weatherSources: [file] }, { water: [null], weather: seaOnly.weather })).toEqual([
      "weather.sources source-lacks-quantity",
    ]);
    expect(codesOf({ waterSources: [file], weatherSources: [file] }, seaOnly)).toEqual([
      "water.sources[0] source-lacks-quantity",
      "weather.sources source-lacks-quantity",
    ]);
  });

  it("is our own mistake where a file was not gathered", () => {
    expect(() => prepare(passage({ weatherSources: [file] }), { water: [null], weather: [null] })).toThrow("nothing was gathered");
  });
});

describe("of several runs in a file", () => {
  const older = { issuedAt: clock(-6) };
  const newer = { issuedAt: clock(0) };

  it("the newest is taken, whole, with its gusts: current, wind and sea", () => {
    const one = prepared(
      { waterSources: [file], weatherSources: [file] },
      {
        water: [[currentGrid(1, older), currentGrid(3, newer)]],
        weather: [
          [
            gustGrid(99, older),
            windGrid(11, newer),
            gustGrid(16, newer),
            windGrid(20, older),
            grid(["seaHeightMetres"], [2], newer),
            grid(["seaPeriodSeconds"], [5], older),
          ],
        ],
      },
    );
    expect(windAt(one, 0)).toEqual([11, 16, false]);
    const out = new Float64Array(2);
    one.current.onPlane(one.plane).sampleInto(out, 0, 0, clock(9));
    expect((out[1] as number) / kn(1)).toBeCloseTo(3, 3);
    // A period of the older run is not laid beside a height of the newer.
    const sea = new Float64Array(SEA_SLOTS);
    expect(one.weather.sea?.onPlane(one.plane).readInto(sea, 0, 0, clock(9))).toBe(COVERED);
    expect([sea[SEA_HAS_PERIOD], sea[SEA_PERIOD_HIGH_SECONDS]]).toEqual([0, 0]);
  });

  it("the systems of the sea are those of its own run: wind sea and swell, else the whole with its way", () => {
    const whole = [
      grid(["seaHeightMetres"], [2], newer),
      grid(["seaPeriodSeconds"], [9], newer),
      grid(["seaTowardEast", "seaTowardNorth"], [0, 1], newer),
    ];
    const chop = [grid(["windSeaHeightMetres"], [1], newer), grid(["windSeaPeriodSeconds"], [4], newer)];
    const swell = [grid(["swellHeightMetres"], [1.7], newer), grid(["swellPeriodSeconds"], [11], newer)];
    const periodsOf = (...grids: readonly GridData[]): readonly number[] | null => {
      const one = prepared({ weatherSources: [file] }, { water: [null], weather: [[windGrid(11, newer), ...grids]] });
      const sampler = one.weather.sea?.onPlane(one.plane);
      sampler?.readInto(new Float64Array(SEA_SLOTS), 0, 0, clock(9));
      const out = new Float64Array(SYSTEMS_SLOTS);
      const count = sampler?.systemsInto?.(out, 0, 0, clock(9));
      return count === undefined ? null : Array.from({ length: count }, (_, k) => out[k * SYSTEM_STRIDE + SYSTEM_PERIOD_SECONDS] as number);
    };
    expect(periodsOf(...whole, ...chop, ...swell)).toEqual([4, 11]);
    expect(periodsOf(...whole, ...chop)).toEqual([9]);
    expect(periodsOf(...whole.slice(0, 2))).toEqual([]);
  });

  it("the newest is taken though only the older has the control", () => {
    const one = prepared(
      { weatherSources: [file] },
      { water: [null], weather: [[windGrid(20, { ...older, member: 0 }), windGrid(11, { ...newer, member: 1 })]] },
    );
    expect(windAt(one, 0)[0]).toBe(11);
    expect(one.weather.wind.memberCount).toBe(1);
  });
});

describe("the members of a forecast", () => {
  it("stand in order, each with its own gusts; one without gets the stated factor, and says so", () => {
    const members = [
      windGrid(12, { member: 2 }),
      gustGrid(21, { member: 1 }),
      windGrid(10, { member: 0 }),
      gustGrid(15, { member: 0 }),
      windGrid(14, { member: 1 }),
    ];
    const one = prepared({ weatherSources: [file] }, { water: [null], weather: [members] });
    expect(one.weather.wind.memberCount).toBe(3);
    expect(windAt(one, 0)).toEqual([10, 15, false]);
    expect(windAt(one, 1)).toEqual([14, 21, false]);
    expect(windAt(one, 2)).toEqual([12, 16.8, true]);
  });
});

describe("several weather sources", () => {
  it("answer in the order in which the passage names them", () => {
    const letter = { kind: "letter", file: "letter.txt", zone: null, issued: null, strikeOutLines: [] } as const;
    const told = {
      name: "Letter",
      issuedAt: clock(0),
      wind: [
        {
          from: epochSeconds(clock(6)),
          until: epochSeconds(clock(12)),
          fromDegTrue: 0,
          arcDeg: 0,
          speedLowMps: kn(5),
          speedHighMps: kn(7),
          gustMps: null,
        },
      ],
      sea: [],
    };
    const gathered: Gathered = { water: [null], weather: [told, [windGrid(20)]] };
    const one = prepared({ weatherSources: [letter, file] }, gathered);
    expect(windAt(one, 0)[0]).toBe(7);
    const out = new Float64Array(WIND_SLOTS);
    one.weather.wind.onPlane(one.plane, 0).readInto(out, 0, 0, clock(15));
    expect((out[WIND_SPEED_HIGH_MPS] as number) / kn(1)).toBeCloseTo(20, 2);
  });
});

describe("legs in and out of harbour", () => {
  it("are joined to the open water at their ends", () => {
    const berth = { latitudeDeg: 34.02, longitudeDeg: -40 };
    const quay = { latitudeDeg: 34.02, longitudeDeg: -40.73 };
    const one = prepared({
      pilotageOut: { speedOverGroundMps: 2, points: [berth] },
      pilotageIn: { speedOverGroundMps: 2, points: [quay] },
    });
    const { out, into } = one.trialOf(0);
    expect(out).toEqual({ speedOverGroundMps: 2, points: [berth, one.passage.from.position] });
    expect(into).toEqual({ speedOverGroundMps: 2, points: [one.passage.to.position, quay] });
    expect(prepared().trialOf(0)).toMatchObject({ out: null, into: null });
    const { from, to } = one.passage;
    expect(placesOf(one.passage)).toEqual([from.position, to.position, berth, quay]);
    expect(placesOf(passage())).toEqual([from.position, to.position]);
  });
});

describe("a boat with her engine stopped", () => {
  const sail = {
    points: [60, 90, 180].flatMap((trueWindAngleDeg) => [
      { trueWindAngleDeg, trueWindMps: 0, speedMps: 0 },
      { trueWindAngleDeg, trueWindMps: kn(20), speedMps: kn(6) },
    ]),
    leewayCoefficient: null,
    leewayCapDeg: 10,
  };
  const speedStopped = (changes: Partial<typeof tansy>): number | null => {
    const stopped = prepared({ boat: { ...tansy, ...changes } }).trialOf(0).crossing.engineStopped;
    const out = { speedThroughWaterMps: -1, leewayDeg: 0, engineOn: true, burnLitresPerHour: 9 };
    stopped?.propelInto(out, 0, kn(10), 90, true);
    return stopped === null ? null : out.speedThroughWaterMps / kn(1);
  };

  it("drifts if she goes under power, sails if she has sails, and is no case where she never uses it", () => {
    expect(speedStopped({})).toBe(0);
    expect(speedStopped({ goes: "motor-sail", sail })).toBeCloseTo(3, 9);
    expect(speedStopped({ goes: "sail", sail, engineRule: { onBelowMps: kn(3), offAboveMps: kn(4) } })).toBeCloseTo(3, 9);
    expect(speedStopped({ goes: "sail", sail })).toBeNull();
  });
});

describe("the wind that a boat is run with", () => {
  it("is a member's own where her speed depends on it, none else", () => {
    expect(prepared().trialOf(0).crossing.around.wind).toBeNull();
    const slow = { ...tansy, power: { ...(tansy.power as NonNullable<typeof tansy.power>), headwindLossShare: 0.3 } };
    const one = prepared({ boat: slow, weatherSources: [file] }, { water: [null], weather: [[windGrid(10), windGrid(18, { member: 1 })]] });
    const out = new Float64Array(WIND_SLOTS);
    for (const [member, knots] of [
      [0, 10],
      [1, 18],
    ] as const) {
      one.trialOf(member).crossing.around.wind?.readInto(out, 0, 0, clock(9));
      expect((out[WIND_SPEED_HIGH_MPS] as number) / kn(1)).toBeCloseTo(knots, 2);
    }
  });
});
