import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { daysFromDate } from "../../../src/formats/netcdf/calendar-days.ts";
import { readTimeUnits, secondsFrom } from "../../../src/formats/netcdf/index.ts";

function instant(units: string, count: number, calendar = ""): string {
  const read = readTimeUnits("time", units, calendar);
  return read.ok ? new Date(secondsFrom(read.value, count) * 1000).toISOString() : read.issues[0]!.code;
}

describe("days from a date", () => {
  it("agrees with the ECMAScript calendar, which is proleptic Gregorian", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1000, max: 9999 }),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 1, max: 28 }),
        (year, month, day) => {
          const theirs = new Date(0);
          theirs.setUTCFullYear(year, month - 1, day);
          expect(daysFromDate(year, month, day, "proleptic")).toBe(theirs.getTime() / 86400000);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it("counts Julian days before the reform (JD 1721423.5 for 1 January of year 1; the Gregorian date of that name is two days later)", () => {
    expect(daysFromDate(1, 1, 1, "mixed") + 2440587.5).toBe(1721423.5);
    expect(daysFromDate(1, 1, 1, "proleptic") + 2440587.5).toBe(1721425.5);
    expect(daysFromDate(1582, 10, 15, "mixed") - daysFromDate(1582, 10, 4, "mixed")).toBe(1);
  });
});

describe("units of time", () => {
  it.each([
    ["hours since 2000-01-01 00:00", 6, "2000-01-01T06:00:00.000Z"],
    ["Hour since 2023-02-28 00:00:00", 48, "2023-03-02T00:00:00.000Z"],
    ["hours since 2023-02-25 12:00:00", 120, "2023-03-02T12:00:00.000Z"],
    ["hours since 2000-01-01T00:00:00Z", 1, "2000-01-01T01:00:00.000Z"],
    ["hours since 2000-1-1 0:0:0.0", 1, "2000-01-01T01:00:00.000Z"],
    ["seconds since 1970-01-01 00:00:00 UTC", 1454371200, "2016-02-02T00:00:00.000Z"],
    ["minutes since 2020-02-28 23:30", 45, "2020-02-29T00:15:00.000Z"],
    ["hours since 2000-01-01 06:00:00 -6:00", 0, "2000-01-01T12:00:00.000Z"],
    ["hours since 2000-01-01 06:00:00 +05:30", 0, "2000-01-01T00:30:00.000Z"],
    ["days since 20000101", 1.5, "2000-01-02T12:00:00.000Z"],
    ["msec since 2000-01-01", 3600000, "2000-01-01T01:00:00.000Z"],
    // Day 738900 from JD 1721423.5 is JD 2460323.5, thirteen days after JD 2460310.5, 1 January 2024.
    ["hours since 1-1-1 00:00:0.0", 17733600, "2024-01-14T00:00:00.000Z"],
  ])("%s, %d", (units, count, expected) => {
    expect(instant(units, count)).toBe(expected);
  });

  it("rounds days that fall a little short to the second", () => {
    // 3 h in a file that says "days since 2006-01-01": 4748.125 written as 4748.124999997.
    expect(instant("days since 2006-01-01", 4748.124999997)).toBe("2019-01-01T03:00:00.000Z");
  });

  it("minds the calendar", () => {
    expect(instant("days since 2000-01-01", 59, "proleptic_gregorian")).toBe("2000-02-29T00:00:00.000Z");
    expect(instant("days since 2000-01-01", 59, "GREGORIAN")).toBe("2000-02-29T00:00:00.000Z");
    for (const calendar of ["noleap", "365_day", "360_day", "julian", "none"]) {
      expect(instant("days since 2000-01-01", 59, calendar)).toBe("calendar-not-read");
    }
  });

  it.each([
    "months since 2000-01-01",
    "day as %Y%m%d.%f",
    "hours",
    "",
    "hours since yesterday",
    "hours since 2001-02-29",
    "hours since 2000-01-01 25:00",
  ])("doesn't guess at %j", (units) => {
    expect(instant(units, 1)).toBe("time-not-read");
  });
});
