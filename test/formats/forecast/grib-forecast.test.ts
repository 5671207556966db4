import { describe, expect, it } from "vitest";
import { latLonOf } from "../../core/fields/grids.ts";
import { codesOf, HOUR, JUNE, join, message, reading, refusal } from "./sample-files.ts";

const EAST = { number: 2 };
const NORTH = { number: 3 };
const filled = (value: number, count = 12) => new Float64Array(count).fill(value);

/** East and north of a current at a time. */
const both = (hour: number, value: number, over: Parameters<typeof message>[0] = {}) => [
  message({ ...EAST, validFrom: JUNE + hour * HOUR, values: filled(value), ...over }),
  message({ ...NORTH, validFrom: JUNE + hour * HOUR, values: filled(-value), ...over }),
];

describe("a current in a GRIB2 file", () => {
  it("is joined over time, whatever the order of its messages", async () => {
    const parts = [...both(6, 0.3), ...both(0, 0.1), ...both(3, 0.2).reverse()];
    const read = await reading(join(parts));
    expect(read.kind).toBe("grib2");
    const grid = read.grids[0]!;
    expect([...grid.times].map((at) => (at - JUNE) / HOUR)).toEqual([0, 3, 6]);
    expect([0, 1, 2].map((t) => [grid.values[t * 24], grid.values[t * 24 + 1]])).toEqual(
      [0.1, 0.2, 0.3].map((value) => [Math.fround(value), Math.fround(-value)]),
    );
    expect(grid.issuedAt).toBe(JUNE);
    expect(read.oddities).toEqual([]);
    expect(read.contents.map((one) => [one.name, one.units, one.level, one.steps, one.quantity])).toEqual([
      ["u-component of current", "m/s", "0 m below sea level", 3, "currentEastMps"],
      ["v-component of current", "m/s", "0 m below sea level", 3, "currentNorthMps"],
    ]);
  });

  it("drops times that lack a component, and says so", async () => {
    const read = await reading(join([...both(0, 0.1), message({ validFrom: JUNE + 3 * HOUR })]));
    expect(read.grids[0]!.times).toHaveLength(1);
    expect(codesOf(read)).toEqual(["component-missing"]);
  });

  it("keeps the first of repeated fields, and says so", async () => {
    const read = await reading(join([...both(0, 0.1), ...both(0, 0.2), ...both(3, 0.3)]));
    expect(read.grids[0]!.values[0]).toBeCloseTo(0.1, 6);
    expect(codesOf(read)).toEqual(["times-repeated"]);
  });

  it("takes the bitmap's gaps as missing, where either component has one", async () => {
    const east = filled(0.5);
    const gap = new Uint8Array(12);
    gap[5] = 1;
    const read = await reading(join([message({ ...EAST, values: east, missing: gap }), message({ ...NORTH, values: east })]));
    expect([...read.grids[0]!.missing].indexOf(1)).toBe(5);
    expect(read.grids[0]!.values[11]).toBe(0);
  });

  it("keeps runs apart, the newest first, and joins analyses of one time each", async () => {
    const older = [0, 3, 6].flatMap((hour) => both(hour, 0.1));
    const newer = [6, 9, 12].flatMap((hour) => both(hour, 0.2, { referenceAt: JUNE + 6 * HOUR }));
    const read = await reading(join([...older, ...newer]));
    expect(read.grids.map((one) => [one.issuedAt, one.times.length])).toEqual([
      [JUNE + 6 * HOUR, 3],
      [JUNE, 3],
    ]);
    expect(codesOf(read)).toEqual(["several-runs"]);
    const analyses = await reading(join([0, 6, 12].flatMap((hour) => both(hour, 0.1, { referenceAt: JUNE + hour * HOUR }))));
    expect(analyses.grids.map((one) => [one.issuedAt, one.times.length])).toEqual([[null, 3]]);
  });

  it("keeps different grids apart, and says so", async () => {
    const finer = { rows: 3, columns: 4, southDeg: 40, westDeg: -10, latitudeStepDeg: 0.5, longitudeStepDeg: 0.5 };
    const read = await reading(join([...both(0, 0.1), ...both(0, 0.2, { grid: finer })]));
    expect(read.grids).toHaveLength(2);
    expect(codesOf(read)).toEqual(["grids-differ"]);
  });

  it("is cropped across the seam of a grid round the earth", async () => {
    const globe = { rows: 3, columns: 36, southDeg: 30, westDeg: 0, latitudeStepDeg: 10, longitudeStepDeg: 10 };
    const values = Float64Array.from({ length: 108 }, (_, index) => (index % 36) / 100);
    const parts = [message({ ...EAST, grid: globe, values }), message({ ...NORTH, grid: globe, values })];
    const crop = { southDeg: 31, northDeg: 39, westDeg: -5, eastDeg: 5, from: JUNE, until: JUNE };
    const grid = (await reading(join(parts), crop)).grids[0]!;
    expect([...latLonOf(grid).longitudesDeg]).toEqual([-10, 0, 10]);
    expect([...latLonOf(grid).latitudesDeg]).toEqual([30, 40]);
    expect([0, 2, 4].map((at) => Math.round(grid.values[at]! * 100))).toEqual([35, 0, 1]);
  });
});

describe("wind and gust in a GRIB2 file", () => {
  const wind = { discipline: 0, category: 2, level: { type: 103, value: 10 } };
  const member = (number: number) => ({ kindCode: 3, perturbationNumber: number, forecastsInEnsemble: 3 });

  it("gives a grid a member, and tells members that fall short", async () => {
    const parts = [0, 1, 2].flatMap((number) =>
      [0, 3, 6]
        .filter((hour) => number !== 2 || hour !== 3)
        .flatMap((hour) => both(hour, number + 1, { ...wind, ensemble: member(number) })),
    );
    // The component's number is the same for wind and current: 2 east, 3 north.
    const read = await reading(join(parts));
    expect(read.grids.map((one) => [one.quantities[0], one.member, one.times.length, one.values[0]])).toEqual([
      ["windEastMps", 0, 3, 1],
      ["windEastMps", 1, 3, 2],
      ["windEastMps", 2, 2, 3],
    ]);
    expect(codesOf(read)).toContain("members-unequal");
    expect(read.oddities.find((one) => one.code === "members-unequal")!.message).toMatch(/Member 2 of the wind has fewer than the 3 times/);
    expect(read.contents[0]!.members).toEqual([0, 1, 2]);
  });

  it("uses the wind at 10 m and names the others as not used", async () => {
    const high = { ...wind, level: { type: 103, value: 100 } };
    const read = await reading(join([...both(0, 5, wind), ...both(0, 9, high)]));
    expect(read.grids).toHaveLength(1);
    expect(read.grids[0]!.values[0]).toBe(5);
    expect(read.contents.map((one) => [one.level, one.quantity])).toEqual([
      ["10 m above ground", "windEastMps"],
      ["10 m above ground", "windNorthMps"],
      ["100 m above ground", null],
      ["100 m above ground", null],
    ]);
    expect(read.contents[2]!.whyNotUsed).toContain("winds serve at 10 m above ground");
  });

  it("knows the greatest gust of an interval, by its end", async () => {
    const gust = (from: number, until: number) =>
      message({
        ...wind,
        number: 22,
        validFrom: JUNE + from * HOUR,
        interval: { validUntil: (JUNE + until * HOUR) as never, processCode: 2 },
        values: filled(15),
      });
    const grid = (await reading(join([gust(0, 3), gust(3, 6)]))).grids[0]!;
    expect(grid.nature).toBe("maximumSincePrevious");
    // The first interval begins at 0: before its end it holds, at its beginning nothing is known yet.
    expect([...grid.times].map((at) => (at - JUNE) / HOUR)).toEqual([0, 3, 6]);
    expect([0, 1, 2].map((t) => grid.missing[t * 12])).toEqual([1, 0, 0]);
  });

  it("leaves the hours between intervals open", async () => {
    const gust = (from: number, until: number) =>
      message({
        ...wind,
        number: 22,
        validFrom: JUNE + from * HOUR,
        interval: { validUntil: (JUNE + until * HOUR) as never, processCode: 2 },
        values: filled(15),
      });
    // As a storm's ensemble has them: 69 to 72, 75 to 78 and 81 to 84 hours.
    const apart = (await reading(join([gust(69, 72), gust(75, 78), gust(81, 84)]))).grids[0]!;
    expect([...apart.times].map((at) => (at - JUNE) / HOUR)).toEqual([69, 72, 75, 78, 81, 84]);
    expect([0, 1, 2, 3, 4, 5].map((t) => apart.missing[t * 12])).toEqual([1, 0, 1, 0, 1, 0]);
    // Intervals that all begin with the run leave none open.
    const growing = (await reading(join([gust(0, 1), gust(0, 2), gust(0, 3)]))).grids[0]!;
    expect([...growing.times].map((at) => (at - JUNE) / HOUR)).toEqual([0, 1, 2, 3]);
  });

  it("takes a mean for the middle of its interval", async () => {
    const mean = (number: number) =>
      message({
        ...wind,
        number,
        validFrom: JUNE,
        interval: { validUntil: (JUNE + 6 * HOUR) as never, processCode: 0 },
        values: filled(7),
      });
    const grid = (await reading(join([mean(2), mean(3)]))).grids[0]!;
    expect([...grid.times].map((at) => (at - JUNE) / HOUR)).toEqual([3]);
    expect(grid.nature).toBe("meanSincePrevious");
  });

  it("makes components of a speed and a direction, and prefers components where there are both", async () => {
    const polar = [message({ ...wind, number: 1, values: filled(10) }), message({ ...wind, number: 0, values: filled(210) })];
    const grid = (await reading(join(polar))).grids[0]!;
    // From 210 means toward 030: half to the east, the root of three fourths to the north.
    expect([grid.values[0], grid.values[1]]).toEqual([Math.fround(5), Math.fround(10 * Math.sqrt(0.75))]);
    const both10 = await reading(join([...polar, ...both(0, 4, wind)]));
    expect(both10.grids.map((one) => one.values[0])).toEqual([4]);
    expect(both10.contents.map((one) => one.quantity)).toEqual([null, null, "windEastMps", "windNorthMps"]);
  });

  it("takes a wave model's wind at the surface where there is none at 10 m", async () => {
    const surface = { ...wind, level: { type: 1, value: 0 } };
    expect((await reading(join(both(0, 5, surface)))).grids.map((one) => one.quantities[0])).toEqual(["windEastMps"]);
    const read = await reading(join([...both(0, 5, surface), ...both(0, 6, wind)]));
    expect(read.grids.map((one) => one.values[0])).toEqual([6]);
  });

  it("keeps a positive and a negative perturbation of one number apart", async () => {
    const twin = (kindCode: number, value: number) =>
      both(0, value, { ...wind, ensemble: { kindCode, perturbationNumber: 1, forecastsInEnsemble: 2 } });
    const read = await reading(join([...twin(3, 5), ...twin(2, 9)]));
    expect(read.grids.map((one) => [one.member, one.values[0]])).toEqual([
      [1, 5],
      [2, 9],
    ]);
  });

  it("gives wind sea and swells with the way they run", async () => {
    const wave = (number: number, value: number, level: { type: number; value: number }) =>
      message({ discipline: 10, category: 0, number, level, values: filled(value) });
    const surface = { type: 1, value: 0 };
    const read = await reading(
      join([
        wave(5, 1.5, surface),
        wave(4, 270, surface),
        wave(8, 2, { type: 241, value: 1 }),
        wave(8, 1, { type: 241, value: 2 }),
        wave(9, 12, { type: 241, value: 2 }),
      ]),
    );
    expect(read.grids.map((one) => [one.quantities.join(), ...one.values.slice(0, one.quantities.length)])).toEqual([
      ["windSeaHeightMetres", 1.5],
      ["windSeaTowardEast,windSeaTowardNorth", 1, expect.closeTo(0, 6)],
      ["swellHeightMetres", 2],
      ["secondSwellHeightMetres", 1],
      ["secondSwellPeriodSeconds", 12],
    ]);
  });

  it("uses values hardly ever met, and says so; those that can't be are missing", async () => {
    const sea = (value: number) => message({ discipline: 10, category: 0, number: 3, level: { type: 1, value: 0 }, values: filled(value) });
    const high = await reading(sea(29.7));
    expect([codesOf(high), high.grids[0]!.values[0], high.grids[0]!.missing[0]]).toEqual([["value-doubtful"], Math.fround(29.7), 0]);
    const absurd = await reading(sea(88));
    expect([codesOf(absurd), absurd.grids[0]!.missing[0]]).toEqual([["value-implausible"], 1]);
  });

  it("takes vectors by their length: components may be sound where the whole isn't", async () => {
    const vectors = (about: typeof wind | object, speed: number) =>
      reading(join([message({ ...about, number: 2, values: filled(speed) }), message({ ...about, number: 3, values: filled(-speed) })]));
    const swift = await vectors({}, 5);
    expect([codesOf(swift), swift.grids[0]!.values[0]]).toEqual([["value-doubtful"], 5]);
    expect(swift.oddities[0]!.message).toContain("12 values of the current are beyond 6 m/s, up to 7.071");
    for (const [about, speed] of [
      [{}, 9],
      [wind, 88],
    ] as const) {
      const absurd = await vectors(about, speed);
      expect([codesOf(absurd), absurd.grids[0]!.missing[0], absurd.grids[0]!.values[0]]).toEqual([["value-implausible"], 1, 0]);
    }
  });

  it("keeps a lone component for the file that has the other", async () => {
    const read = await reading(message({ ...wind, number: 2, values: filled(5) }));
    expect(read.grids).toEqual([]);
    expect(read.lone.map(({ grid }) => [grid.quantities.join(), grid.values[0]])).toEqual([["windEastMps", 5]]);
  });

  it("uses one of several periods of the sea, the mean before the peak", async () => {
    const sea = { discipline: 10, category: 0, level: { type: 1, value: null } };
    const read = await reading(
      join([message({ ...sea, number: 34, values: filled(11) }), message({ ...sea, number: 15, values: filled(8) })]),
    );
    expect(read.grids.map((one) => [one.quantities[0], one.values[0]])).toEqual([["seaPeriodSeconds", 8]]);
    expect(read.contents[0]!.whyNotUsed).toContain("mean period of combined wind waves and swell");
  });
});

describe("a damaged GRIB2 file", () => {
  it("is refused whole, and the place named", async () => {
    const whole = join([...both(0, 0.1), ...both(3, 0.2)]);
    const cut = await refusal(whole.subarray(0, whole.length - 10));
    expect(cut.code).toBe("file-truncated");
    expect(cut).toMatchObject({ path: expect.stringMatching(/^made, message 4 at byte/) });
  });
});
