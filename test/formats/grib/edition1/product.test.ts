/**
 * Section 1 of edition 1: levels, times, statistics, parameters, members. Codes are those of the Manual on Codes I.2, FM 92 GRIB edition
 * 1 (tables 2 to 5) and edition 2 (tables 4.2, 4.5, 4.6, 4.10); ECMWF's tables 128, 140, 151 and 228 as ecCodes' definitions have them;
 * NCEP's table 2 and its ensemble octets MEMORY of its office note 388.
 */
import { describe, expect, test } from "vitest";
import { codesOf, HOUR, hoursOn, itemsOf, oneField, RUN_AT } from "../sample-message.ts";
import { type Edition1Sample, edition1Message } from "./sample-edition1.ts";

const fieldOf = (sample: Edition1Sample) => oneField(edition1Message(sample));
const refusalsOf = (sample: Edition1Sample) => codesOf(edition1Message(sample));

describe("levels", () => {
  const levels: readonly (readonly [octets: readonly [number, number, number], level: unknown, second?: unknown])[] = [
    [
      [1, 0, 0],
      [1, null],
    ],
    [
      [102, 0, 0],
      [101, null],
    ],
    [
      [200, 0, 0],
      [10, null],
    ],
    [
      [105, 0, 10],
      [103, 10],
    ],
    [
      [105, 1, 4],
      [103, 260],
    ],
    [
      [103, 0, 50],
      [102, 50],
    ],
    [
      [100, 3, 82],
      [100, 85_000],
    ],
    [
      [107, 0x26, 0xdc],
      [104, 0.9948],
    ],
    [
      [109, 0, 137],
      [105, 137],
    ],
    [
      [111, 0, 7],
      [106, 0.07],
    ],
    [
      [113, 1, 44],
      [107, 300],
    ],
    [
      [119, 0x23, 0x28],
      [111, 0.9],
    ],
    [
      [125, 0, 250],
      [103, 2.5],
    ],
    [
      [160, 0, 15],
      [160, 15],
    ],
    [
      [100, 255, 255],
      [100, null],
    ],
    [
      [101, 50, 100],
      [100, 50_000],
      [100, 100_000],
    ],
    [
      [104, 20, 10],
      [102, 2000],
      [102, 1000],
    ],
    [
      [106, 30, 0],
      [103, 3000],
      [103, 0],
    ],
    [
      [108, 50, 100],
      [104, 0.5],
      [104, 1],
    ],
    [
      [112, 0, 10],
      [106, 0],
      [106, 0.1],
    ],
    [
      [114, 175, 155],
      [107, 300],
      [107, 320],
    ],
    [
      [116, 30, 0],
      [108, 3000],
      [108, 0],
    ],
    [
      [121, 200, 100],
      [100, 90_000],
      [100, 100_000],
    ],
    [
      [128, 200, 100],
      [104, 0.9],
      [104, 1],
    ],
    [
      [141, 50, 100],
      [100, 50_000],
      [100, 100_000],
    ],
    [
      [112, 255, 255],
      [106, null],
      [106, null],
    ],
    [
      [222, 1, 1],
      [255, null],
    ],
  ];

  test("each code of table 3 is its surface of table 4.5, in its unit; layers have both sides; a centre's own is no level", async () => {
    for (const [octets, [type, value], second] of levels as readonly (readonly [
      readonly [number, number, number],
      [number, number],
      [number, number]?,
    ])[]) {
      const { level, secondLevel } = await fieldOf({ level: octets });
      expect([octets, level, secondLevel]).toEqual([
        octets,
        { type, value },
        second === undefined ? null : { type: second[0], value: second[1] },
      ]);
    }
  });

  test("ECMWF's pressure in Pa and NCEP's ordered sequence belong to them alone", async () => {
    expect((await fieldOf({ centre: 98, level: [210, 0x13, 0x88] })).level).toEqual({ type: 100, value: 5000 });
    expect((await fieldOf({ centre: 7, level: [241, 0, 2] })).level).toEqual({ type: 241, value: 2 });
    expect((await fieldOf({ centre: 34, level: [210, 0x13, 0x88] })).level.type).toBe(255);
    expect((await fieldOf({ centre: 98, level: [241, 0, 2] })).level.type).toBe(255);
  });

  test("a level in the parameter's name stands for the surface, and for nothing else", async () => {
    const wind = { centre: 98, tableVersion: 128, parameter: 165 };
    expect((await fieldOf({ ...wind, level: [1, 0, 0] })).level).toEqual({ type: 103, value: 10 });
    expect((await fieldOf({ ...wind, level: [105, 0, 10] })).level).toEqual({ type: 103, value: 10 });
    expect((await fieldOf({ ...wind, level: [105, 0, 80] })).level).toEqual({ type: 103, value: 80 });
    expect((await fieldOf({ ...wind, parameter: 151, level: [1, 0, 0] })).level).toEqual({ type: 101, value: null });
    expect((await fieldOf({ ...wind, parameter: 131, level: [1, 0, 0] })).level).toEqual({ type: 1, value: null });
  });

  test("at height or altitude nought the sea's own are at its surface; wind isn't", async () => {
    expect((await fieldOf({ parameter: 100, level: [105, 0, 0] })).level).toEqual({ type: 1, value: null });
    expect((await fieldOf({ parameter: 49, level: [103, 0, 0] })).level).toEqual({ type: 101, value: null });
    expect((await fieldOf({ parameter: 49, level: [160, 0, 0] })).level).toEqual({ type: 160, value: 0 });
    expect((await fieldOf({ parameter: 33, level: [105, 0, 0] })).level).toEqual({ type: 103, value: 0 });
  });
});

describe("times", () => {
  test("every unit of table 4", async () => {
    const seconds: Readonly<Record<number, number>> = {
      0: 60,
      1: HOUR,
      2: 24 * HOUR,
      10: 3 * HOUR,
      11: 6 * HOUR,
      12: 12 * HOUR,
      13: 900,
      14: 1800,
      254: 1,
    };
    for (const [unit, length] of Object.entries(seconds)) {
      const { validFrom, validAt, statistic, referenceAt } = await fieldOf({ time: [Number(unit), 7, 0, 0] });
      expect([unit, referenceAt, validFrom, validAt, statistic]).toEqual([unit, RUN_AT, RUN_AT + 7 * length, RUN_AT + 7 * length, null]);
    }
  });

  test("months and years have no one length, but nought of them has", async () => {
    for (const unit of [3, 4, 5, 6, 7, 99]) {
      expect(await refusalsOf({ time: [unit, 1, 0, 0] })).toEqual(["product-not-read"]);
      expect((await fieldOf({ time: [unit, 0, 0, 0] })).validAt).toBe(RUN_AT);
    }
  });

  test("P1 on two octets, intervals and what was made over them, backwards too", async () => {
    const over = async (time: readonly [number, number, number, number]) => {
      const { validFrom, validAt, statistic, productTemplate } = await fieldOf({ time });
      return [
        (validFrom - RUN_AT) / HOUR,
        (validAt - RUN_AT) / HOUR,
        statistic?.process ?? null,
        statistic?.processCode ?? null,
        productTemplate,
      ];
    };
    expect(await over([1, 1, 44, 10])).toEqual([300, 300, null, null, 0]);
    expect(await over([1, 0, 5, 1])).toEqual([0, 0, null, null, 0]);
    expect(await over([1, 6, 12, 2])).toEqual([6, 12, "other", 255, 8]);
    expect(await over([1, 6, 12, 3])).toEqual([6, 12, "mean", 0, 8]);
    expect(await over([1, 0, 12, 4])).toEqual([0, 12, "accumulation", 1, 8]);
    expect(await over([1, 6, 12, 5])).toEqual([6, 12, "other", 4, 8]);
    expect(await over([1, 6, 3, 6])).toEqual([-6, -3, "mean", 0, 8]);
    expect(await over([1, 6, 3, 7])).toEqual([-6, 3, "mean", 0, 8]);
  });

  test("an interval that ends before it begins is no interval", async () => {
    for (const indicator of [2, 3, 4, 5]) expect(await refusalsOf({ time: [1, 12, 6, indicator] })).toEqual(["file-lies"]);
  });

  test("products over many runs, and unknown ranges, are refused by name", async () => {
    for (const [indicator, name] of [
      [51, /climatological mean/],
      [113, /average of several forecasts/],
      [114, /sum of several forecasts/],
      [123, /average of several analyses/],
      [125, /standard deviation/],
      [99, /time range indicator 99/],
    ] as const) {
      const [item] = await itemsOf(edition1Message({ time: [1, 0, 6, indicator] }));
      expect(item).toMatchObject({ kind: "oddity", issue: { code: "product-not-read", message: expect.stringMatching(name) } });
    }
  });

  test("the century's last year is its hundredth; no century, month or day that isn't one", async () => {
    expect((await fieldOf({ date: [100, 12, 31, 23, 59, 20] })).referenceAt).toBe(Date.UTC(2000, 11, 31, 23, 59) / 1000);
    expect((await fieldOf({ date: [0, 2, 29, 0, 0, 21] })).referenceAt).toBe(Date.UTC(2000, 1, 29) / 1000);
    expect((await fieldOf({ date: [1, 1, 1, 0, 0, 21] })).referenceAt).toBe(Date.UTC(2001, 0, 1) / 1000);
    for (const date of [
      [26, 5, 1, 6, 0, 0],
      [101, 5, 1, 6, 0, 20],
      [26, 13, 1, 6, 0, 21],
      [26, 2, 30, 6, 0, 21],
      [26, 5, 1, 24, 0, 21],
      [26, 5, 1, 6, 0, 50],
      [99, 5, 1, 6, 0, 12],
      [26, 5, 1, 6, 60, 21],
    ] as const) {
      expect([date, await refusalsOf({ date })]).toEqual([date, ["file-lies"]]);
    }
  });
});

describe("parameters", () => {
  test("international numbers for every centre, in versions 1 to 3 only", async () => {
    const numbers = [
      [2, "0.3.1"],
      [11, "0.0.0"],
      [20, "0.19.0"],
      [31, "0.2.0"],
      [32, "0.2.1"],
      [33, "0.2.2"],
      [34, "0.2.3"],
      [47, "10.1.0"],
      [48, "10.1.1"],
      [49, "10.1.2"],
      [50, "10.1.3"],
      [61, "0.1.8"],
      [100, "10.0.3"],
      [101, "10.0.4"],
      [102, "10.0.5"],
      [103, "10.0.6"],
      [104, "10.0.7"],
      [105, "10.0.8"],
      [106, "10.0.9"],
      [107, "10.0.10"],
      [108, "10.0.11"],
      [109, "10.0.12"],
      [110, "10.0.13"],
      [127, "255.255.255"],
      [180, "255.255.255"],
    ] as const;
    for (const [parameter, is] of numbers) {
      for (const tableVersion of [1, 2, 3]) {
        const { discipline, category, number, edition1 } = await fieldOf({ centre: 34, tableVersion, parameter });
        expect([parameter, `${discipline}.${category}.${number}`, edition1]).toEqual([parameter, is, { tableVersion, parameter }]);
      }
      expect((await fieldOf({ centre: 34, tableVersion: 4, parameter })).discipline).toBe(255);
    }
  });

  test("ECMWF's are ECMWF's, also where it is the sub-centre, and no other's", async () => {
    const waves = { tableVersion: 140, level: [102, 0, 0] } as const;
    expect(await fieldOf({ ...waves, centre: 98, parameter: 229 })).toMatchObject({
      discipline: 10,
      category: 0,
      number: 3,
      level: { type: 101 },
    });
    expect(await fieldOf({ ...waves, centre: 98, parameter: 235 })).toMatchObject({ discipline: 10, category: 0, number: 4 });
    expect(await fieldOf({ ...waves, centre: 98, parameter: 121 })).toMatchObject({ discipline: 10, category: 0, number: 47 });
    expect(await fieldOf({ ...waves, centre: 98, parameter: 245 })).toMatchObject({
      discipline: 0,
      number: 1,
      level: { type: 103, value: 10 },
    });
    expect(await fieldOf({ ...waves, centre: 88, subCentre: 98, parameter: 229 })).toMatchObject({ discipline: 10, number: 3 });
    expect(await fieldOf({ ...waves, centre: 34, parameter: 229 })).toMatchObject({ discipline: 255, category: 255, number: 255 });
    // Rain in metres is not edition 2's rain in kilograms.
    expect((await fieldOf({ centre: 98, tableVersion: 128, parameter: 228 })).discipline).toBe(255);
  });

  test("MET Norway's waves of table 128, NCEP's and MET Norway's gusts", async () => {
    const norway = { centre: 88, tableVersion: 128, level: [105, 0, 0] } as const;
    expect(await fieldOf({ ...norway, parameter: 100 })).toMatchObject({ discipline: 10, number: 3, level: { type: 1, value: null } });
    expect(await fieldOf({ ...norway, parameter: 107 })).toMatchObject({ discipline: 10, number: 10 });
    expect((await fieldOf({ ...norway, parameter: 165 })).discipline).toBe(255);
    expect(await fieldOf({ centre: 88, tableVersion: 1, parameter: 228 })).toMatchObject({ discipline: 0, category: 2, number: 22 });
    expect(await fieldOf({ centre: 7, parameter: 180 })).toMatchObject({ discipline: 0, category: 2, number: 22, statistic: null });
    expect(await fieldOf({ centre: 7, parameter: 157 })).toMatchObject({ discipline: 0, category: 7, number: 6 });
    expect((await fieldOf({ centre: 34, parameter: 180 })).discipline).toBe(255);
  });

  test("the greatest gust of the last 3 or 6 hours brings its interval, from the run at the earliest; section 1's own goes before", async () => {
    const gust = async (tableVersion: number, parameter: number, time: readonly [number, number, number, number]) => {
      const { validFrom, validAt, statistic, number, level } = await fieldOf({
        centre: 98,
        tableVersion,
        parameter,
        time,
        level: [1, 0, 0],
      });
      expect([number, level]).toEqual([22, { type: 103, value: 10 }]);
      return [validFrom, validAt, statistic?.process ?? null];
    };
    expect(await gust(228, 28, [1, 72, 0, 0])).toEqual([hoursOn(69), hoursOn(72), "maximum"]);
    expect(await gust(228, 28, [1, 69, 72, 2])).toEqual([hoursOn(69), hoursOn(72), "maximum"]);
    expect(await gust(228, 28, [1, 70, 72, 2])).toEqual([hoursOn(70), hoursOn(72), "maximum"]);
    expect(await gust(228, 28, [1, 2, 0, 0])).toEqual([hoursOn(0), hoursOn(2), "maximum"]);
    expect(await gust(128, 123, [1, 72, 0, 0])).toEqual([hoursOn(66), hoursOn(72), "maximum"]);
    expect(await gust(228, 29, [1, 72, 0, 0])).toEqual([hoursOn(72), hoursOn(72), null]);
  });

  test("the gust since the last output, which may be any time since the run began", async () => {
    const sample = { centre: 98, tableVersion: 128, parameter: 49, level: [1, 0, 0] } as const;
    expect(await fieldOf({ ...sample, time: [1, 72, 0, 0] })).toMatchObject({
      validFrom: RUN_AT,
      validAt: hoursOn(72),
      statistic: { processCode: 2 },
    });
    expect(await fieldOf({ ...sample, time: [1, 66, 72, 2] })).toMatchObject({ validFrom: hoursOn(66), validAt: hoursOn(72) });
    expect(await fieldOf({ ...sample, time: [1, 0, 0, 0] })).toMatchObject({ validFrom: RUN_AT, validAt: RUN_AT });
  });

  test("over an interval a gust or a highest temperature is the greatest, a lowest temperature the least; a wind is not told", async () => {
    const process = async (sample: Edition1Sample) => (await fieldOf({ ...sample, time: [1, 3, 6, 2] })).statistic?.process;
    expect(await process({ centre: 7, parameter: 180 })).toBe("maximum");
    expect(await process({ parameter: 15 })).toBe("maximum");
    expect(await process({ parameter: 16 })).toBe("minimum");
    expect(await process({ centre: 98, tableVersion: 228, parameter: 27 })).toBe("minimum");
    expect(await process({ parameter: 33 })).toBe("other");
    expect(await process({ centre: 98, tableVersion: 128, parameter: 165 })).toBe("other");
  });
});

describe("members", () => {
  const ecmwf = (definition: number, type: number, number: number, count = 51): readonly number[] => [
    ...[definition, 1, type, 4, 11, 0x30, 0x30, 0x30, 0x31, number, count],
    ...new Array<number>(55).fill(0),
  ];

  test("ECMWF's control and members, with their interval's template", async () => {
    for (const definition of [1, 26, 30, 36, 40]) {
      expect(await fieldOf({ centre: 98, local: ecmwf(definition, 10, 0) })).toMatchObject({
        member: 0,
        ensemble: { kindCode: 1, forecastsInEnsemble: 51 },
      });
      expect(await fieldOf({ centre: 98, local: ecmwf(definition, 11, 50) })).toMatchObject({
        member: 50,
        productTemplate: 1,
        ensemble: { kindCode: 3, perturbationNumber: 50, forecastsInEnsemble: 51 },
      });
    }
    expect((await fieldOf({ centre: 98, local: ecmwf(1, 11, 7), time: [1, 0, 6, 4] })).productTemplate).toBe(11);
  });

  test("a single forecast is no ensemble; neither is what another centre keeps in its octets", async () => {
    for (const type of [2, 9])
      expect(await fieldOf({ centre: 98, local: ecmwf(1, type, 0, 0) })).toMatchObject({ ensemble: null, member: 0 });
    expect((await fieldOf({ centre: 34, local: ecmwf(1, 11, 7) })).ensemble).toBeNull();
    expect((await fieldOf({ centre: 98, local: [1] })).ensemble).toBeNull();
  });

  test("means, spreads, probabilities and members that can't be told apart are refused, so that none passes for a forecast", async () => {
    for (const [type, name] of [
      [16, /probabilities/],
      [17, /ensemble's mean/],
      [18, /standard deviation/],
      [27, /extremes/],
    ] as const) {
      const [item] = await itemsOf(edition1Message({ centre: 98, local: ecmwf(1, type, 0) }));
      expect(item).toMatchObject({ kind: "oddity", issue: { code: "product-not-read", message: expect.stringMatching(name) } });
    }
    expect(await refusalsOf({ centre: 98, local: ecmwf(99, 11, 7) })).toEqual(["product-not-read"]);
    expect(await refusalsOf({ centre: 98, local: [1, 1, 11] })).toEqual(["product-not-read"]);
  });

  test("NCEP's control, its pairs, and its count of members where it is given", async () => {
    const ncep = async (kind: number, number: number, more: readonly number[] = []) => {
      const { member, ensemble } = await fieldOf({ centre: 7, local: [1, kind, number, 1, 0, ...more] });
      return [member, ensemble?.kindCode, ensemble?.forecastsInEnsemble];
    };
    expect(await ncep(1, 1)).toEqual([0, 0, 0]);
    expect(await ncep(1, 2)).toEqual([0, 1, 0]);
    expect(await ncep(2, 5)).toEqual([5, 2, 0]);
    expect(await ncep(3, 5, [...new Array<number>(15).fill(0), 21])).toEqual([5, 3, 21]);
    expect(await refusalsOf({ centre: 7, local: [1, 5, 1, 1, 0] })).toEqual(["product-not-read"]);
    expect(await refusalsOf({ centre: 7, local: [1, 3, 1, 2, 0] })).toEqual(["product-not-read"]);
    expect((await fieldOf({ centre: 7, local: [2, 3, 1, 2, 0] })).ensemble).toBeNull();
  });
});
