import { describe, expect, it } from "vitest";
import { madeFile, type VariableMade } from "./netcdf-files.ts";
import { codesOf, HOUR, JUNE, reading } from "./sample-files.ts";

const axes: Record<string, VariableMade> = {
  lat: { along: "lat", attributes: { units: "degrees_north" }, value: (y) => 40 + y! },
  lon: { along: "lon", attributes: { units: "degrees_east" }, value: (x) => x! },
};
const swh = (along: string): VariableMade => ({ along, attributes: { units: "m" }, value: (first) => first ?? 0 });
const SIZE = { lat: 2, lon: 2 };
const timesOf = async (bytes: Uint8Array) => [...((await reading(bytes)).grids[0]?.times ?? [])];
const hourly = (count: number): number[] => Array.from({ length: count }, (_, hour) => JUNE + hour * HOUR);
/** Days from 1858-11-17, the Modified Julian Date's origin, to 2030-06-01. */
const MJD_OF_JUNE = 62653;

describe("times that rounding has moved", () => {
  const along = (counts: readonly number[], units: string, type: "float" | "double" | "int" = "double") =>
    timesOf(
      madeFile(
        { time: counts.length, ...SIZE },
        { ...axes, time: { along: "time", type, attributes: { units }, value: (t) => counts[t!]! }, swh: swh("time lat lon") },
      ),
    );

  it("come to the whole hour: days in single precision (4160.0417 is 15 s off), days with few decimals, Modified Julian Dates", async () => {
    const days = Array.from({ length: 10 }, (_, hour) => hour / 24);
    expect(
      await along(
        days.map((day) => 4160 + day),
        "days since 2019-01-10",
        "float",
      ),
    ).toEqual(hourly(10));
    expect(
      await along(
        days.map((day) => Number((4160 + day).toFixed(5))),
        "days since 2019-01-10",
      ),
    ).toEqual(hourly(10));
    expect(
      await along(
        days.map((day) => MJD_OF_JUNE + day),
        "days since 1858-11-17 00:00:00",
      ),
    ).toEqual(hourly(10));
    // A step of the last binary digit is 337 s there: the nearest of ten minutes is all that can be known, and the hour fits.
    expect(
      await along(
        days.map((day) => MJD_OF_JUNE + day),
        "days since 1858-11-17 00:00:00",
        "float",
      ),
    ).toEqual(hourly(10));
  });

  it("come to the whole step where it is not an hour", async () => {
    const minutes = [0, 20, 40, 60, 80];
    const made = await along(
      minutes.map((minute) => 4160 + minute / 1440),
      "days since 2019-01-10",
      "float",
    );
    expect(made).toEqual(minutes.map((minute) => JUNE + 60 * minute));
  });

  it("stay as they are where they are exact, or fit no whole step", async () => {
    expect(await along([0, 3607, 7214], "seconds since 2030-06-01", "int")).toEqual([JUNE, JUNE + 3607, JUNE + 7214]);
    expect(await along([0, 3607.4, 7214.2], "seconds since 2030-06-01")).toEqual([JUNE, JUNE + 3607, JUNE + 7214]);
    const seconds = [7, 3607 + 13, 7200 + 29];
    expect(
      await along(
        seconds.map((second) => 4160 + second / 86400),
        "days since 2019-01-10",
      ),
    ).toEqual(seconds.map((second) => JUNE + second));
  });

  // The first two counts by cftime 1.6.2, `date2num`, standard calendar.
  it.each([
    ["hours since 1-1-1 00:00:00", 17789520],
    ["seconds since 1950-01-01 00:00:00", 2537654400],
    ["Hour since 2030-05-31T00:00:00Z", 24],
    ["minutes since 2030-06-01 02:00 +02:00", 0],
  ])("are read in %s", async (units, count) => {
    expect(await along([count], units)).toEqual([JUNE]);
  });
});

describe("times written in other ways", () => {
  it("Itime and Itime2 count before a time in single precision", async () => {
    const bytes = madeFile(
      { time: 3, ...SIZE },
      {
        ...axes,
        time: {
          along: "time",
          type: "float",
          attributes: { units: "days since 1858-11-17 00:00:00" },
          value: (t) => MJD_OF_JUNE + (t! * 7) / 1440,
        },
        Itime: { along: "time", type: "int", attributes: { units: "days since 1858-11-17 00:00:00" }, value: () => MJD_OF_JUNE },
        Itime2: { along: "time", type: "int", attributes: { units: "msec since 00:00:00" }, value: (t) => t! * 7 * 60_000 },
        swh: swh("time lat lon"),
      },
    );
    expect(await timesOf(bytes)).toEqual([JUNE, JUNE + 420, JUNE + 840]);
  });

  it("letters in `Times` count alone, and before numbers", async () => {
    const letters = ["2030-06-01T00:00:00.000000", "2030-06-01T00:07:00.000000", "2030-06-01T00:14:00.000000"];
    const other = ["2030-06-01_00:00:00.......", "2030-06-01_00:07:00.......", "2030-06-01_00:14:00......."].map((one) =>
      one.replace(/\./g, " "),
    );
    for (const [text, more] of [
      [
        letters,
        { time: { along: "time", type: "float", attributes: { units: "days since 1858-11-17 00:00:00" }, value: () => MJD_OF_JUNE } },
      ],
      [other, {}],
    ] as const) {
      const bytes = madeFile(
        { time: 3, letter: 26, ...SIZE },
        {
          ...axes,
          ...(more as Record<string, VariableMade>),
          Times: {
            name: "Times",
            dimensions: ["time", "letter"],
            attributes: {},
            values: Int8Array.from(text.flatMap((one) => [...one].map((letter) => letter.charCodeAt(0)))),
          },
          swh: swh("time lat lon"),
        },
      );
      expect(await timesOf(asLetters(bytes, "Times"))).toEqual([JUNE, JUNE + 420, JUNE + 840]);
    }
  });

  it("a lead counts from the run's reference time", async () => {
    const made = (reference: Record<string, VariableMade>) =>
      madeFile(
        { step: 3, ...SIZE },
        {
          ...axes,
          step: { along: "step", attributes: { units: "hours", standard_name: "forecast_period" }, value: (t) => 3 * t! },
          ...reference,
          swh: swh("step lat lon"),
        },
      );
    const run = {
      along: "",
      attributes: { units: "seconds since 1970-01-01", standard_name: "forecast_reference_time" },
      value: () => JUNE,
    };
    const read = await reading(made({ time: run }));
    expect([...read.grids[0]!.times]).toEqual([JUNE, JUNE + 3 * HOUR, JUNE + 6 * HOUR]);
    expect(read.grids[0]!.issuedAt).toBe(JUNE);
    const runless = await reading(made({}));
    expect([runless.grids, codesOf(runless)]).toEqual([[], ["time-not-read", "nothing-of-use"]]);
  });

  it("one time for the whole file may stand in a single value that no field names, or in the file's own attributes", async () => {
    const scalar = {
      ...axes,
      time_counter: { along: "", attributes: { units: "days since 2030-06-01T12:00:00" }, value: () => 0 },
      swh: swh("lat lon"),
    };
    expect(await timesOf(madeFile(SIZE, scalar))).toEqual([JUNE + 12 * HOUR]);
    const bare = { ...axes, swh: swh("lat lon") };
    expect(await timesOf(madeFile(SIZE, bare, { time_coverage_start: "2030-06-01T06:00:00Z" }))).toEqual([JUNE + 6 * HOUR]);
    const span = { time_coverage_start: "2030-06-01T06:00:00Z", time_coverage_end: "2030-06-02T06:00:00Z" };
    for (const attributes of [{}, span]) {
      const read = await reading(madeFile(SIZE, bare, attributes));
      expect(codesOf(read)).toContain("time-not-read");
    }
  });

  it("several axes of time: each field has its own", async () => {
    const time = (along: string, step: number): VariableMade => ({
      along,
      attributes: { units: "hours since 2030-06-01" },
      value: (t) => step * t!,
    });
    const bytes = madeFile(
      { time: 3, time1: 2, ...SIZE },
      {
        ...axes,
        time: time("time", 1),
        time1: time("time1", 6),
        swh: swh("time lat lon"),
        mwp: { ...swh("time1 lat lon"), attributes: { units: "s" } },
      },
    );
    const read = await reading(bytes);
    expect(read.grids.map((one) => [...one.times].map((at) => (at - JUNE) / HOUR))).toEqual([
      [0, 1, 2],
      [0, 6],
    ]);
  });

  it("several runs in one file, each with its own times, are refused in words; one is read", async () => {
    const runs = (count: number) =>
      madeFile(
        { run: count, time: 3, ...SIZE },
        {
          ...axes,
          run: {
            along: "run",
            attributes: { units: "hours since 2030-06-01", standard_name: "forecast_reference_time" },
            value: (run) => 6 * run!,
          },
          time: {
            along: "run time",
            attributes: { units: "hours since 2030-06-01", standard_name: "time" },
            value: (run, t) => 6 * run! + t!,
          },
          swh: swh("run time lat lon"),
        },
      );
    expect(await timesOf(runs(1))).toEqual(hourly(3));
    const read = await reading(runs(2));
    expect(read.grids).toEqual([]);
    expect(read.oddities[0]!.message).toContain('holds 2 runs of the forecast along "run"');
  });

  it("leads and milliseconds that end beyond the years 1800 to 2300 are refused, whatever their number", async () => {
    const leads = (count: number) =>
      madeFile(
        { step: 2, ...SIZE },
        {
          ...axes,
          step: { along: "step", attributes: { standard_name: "forecast_period", units: "hours" }, value: (t) => count * t! },
          run: { along: "", attributes: { standard_name: "forecast_reference_time", units: "hours since 2030-06-01" }, value: () => 0 },
          swh: swh("step lat lon"),
        },
      );
    expect(await timesOf(leads(1))).toEqual(hourly(2));
    for (const count of [1e5 * 8766, 1e300]) {
      const read = await reading(leads(count));
      expect([read.grids, codesOf(read)[0]]).toEqual([[], "time-not-read"]);
    }
    const milliseconds = madeFile(
      { time: 2, ...SIZE },
      {
        ...axes,
        Itime: { along: "time", type: "int", attributes: { units: "days since 1858-11-17 00:00:00" }, value: () => MJD_OF_JUNE },
        Itime2: { along: "time", attributes: { units: "msec since 00:00:00" }, value: (t) => 1e300 * t! },
        time: { along: "time", attributes: { units: "hours since 2030-06-01" }, value: (t) => t! },
        swh: swh("time lat lon"),
      },
    );
    expect(await timesOf(milliseconds)).toEqual(hourly(2));
  });

  it("a time that its own fill calls missing is kept where it stands evenly among the others, and told; a true gap is refused", async () => {
    const filled = (counts: readonly number[]) =>
      madeFile(
        { time: 4, ...SIZE },
        {
          ...axes,
          time: {
            along: "time",
            type: "int",
            attributes: { units: "hours since 2030-06-01", _FillValue: Int32Array.of(0) },
            value: (t) => counts[t!]!,
          },
          swh: swh("time lat lon"),
        },
      );
    const read = await reading(filled([0, 1, 2, 3]));
    expect([...read.grids[0]!.times]).toEqual(hourly(4));
    expect(codesOf(read)).toEqual(["fill-doubtful"]);
    const gap = await reading(filled([1, 2, 0, 4]));
    expect(gap.grids).toEqual([]);
    expect(codesOf(gap)).toContain("file-lies");
  });
});

/** The writer has no letters: turns a variable of bytes without attributes into one of letters, by its type's number in the header (CDF-1 specification: 1 byte, 2 char). */
function asLetters(bytes: Uint8Array, name: string): Uint8Array {
  const out = bytes.slice();
  const view = new DataView(out.buffer);
  const at = new TextDecoder("latin1").decode(out).indexOf(`\0\0\0\x05${name}\0\0\0`);
  // Length and name padded to 12 bytes, the number of dimensions, the two dimensions, an empty list of attributes.
  const type = at + 12 + 4 + 8 + 8;
  if (at < 0 || view.getUint32(type) !== 1) throw new Error(`no bytes ${name} without attributes`);
  view.setUint32(type, 2);
  return out;
}
