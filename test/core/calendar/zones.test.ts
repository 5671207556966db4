import { describe, expect, it } from "vitest";
import { formatInstant, isoInstant, offsetMinutesAt, offsetName, parseZone } from "../../../src/core/calendar/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";

describe("zones as written", () => {
  it.each([
    ["UTC-10", "UTC-10"],
    ["UTC−10", "UTC-10"],
    ["utc -10:00", "UTC-10"],
    ["UTC+5:30", "UTC+5:30"],
    ["UTC+0530", "UTC+5:30"],
    ["GMT+2", "UTC+2"],
    ["UTC+14", "UTC+14"],
    ["UTC+0", "UTC"],
    ["UTC", "UTC"],
    ["Z", "UTC"],
    ["GMT", "UTC"],
    ["Pacific/Tahiti", "Pacific/Tahiti"],
    ["pacific/tahiti", "Pacific/Tahiti"],
    ["America/St Johns", "America/St_Johns"],
  ])("reads %s", (text, name) => expect(parseZone(text, "x")).toEqual({ ok: true, value: name }));

  it.each(["UTC-13", "UTC+15", "UTC+5:75", "EST", "HST", "CET", "Mars/Olympus", "-10", "10", "", "UTC-10 or so", "constructor", "local"])(
    "refuses %s",
    (text) => {
      const parsed = parseZone(text, "zones.ship");
      expect(parsed).toMatchObject({ ok: false, issues: [{ path: "zones.ship", code: "zone-unknown" }] });
    },
  );

  it("offers the nearest name, by the whole or by the town", () => {
    expect(parseZone("Pacific/Tahitti", "x")).toMatchObject({
      issues: [{ message: expect.stringContaining("did you mean Pacific/Tahiti?") }],
    });
    expect(parseZone("Tahiti", "x")).toMatchObject({ issues: [{ message: expect.stringContaining("did you mean Pacific/Tahiti?") }] });
  });

  it("names offsets", () => {
    expect([-600, 0, 330, -570, 765].map(offsetName)).toEqual(["UTC-10", "UTC", "UTC+5:30", "UTC-9:30", "UTC+12:45"]);
  });
});

describe("instants on a local clock", () => {
  // Reference: Python 3.11's zoneinfo with Debian's tzdata 2025b; instants drawn with random.seed(7) between 2025 and 2028.
  it.each([
    ["Pacific/Tahiti", 1817184780, "Sun 2027-08-01 19:33", -600],
    ["Pacific/Marquesas", 1773652020, "Sun 2026-03-15 23:37", -570],
    ["Pacific/Chatham", 1835050140, "Fri 2028-02-25 13:54", 825],
    ["Atlantic/Azores", 1747841220, "Wed 2025-05-21 15:27", 0],
    ["Europe/Lisbon", 1753918740, "Thu 2025-07-31 00:39", 60],
    ["America/St_Johns", 1759378200, "Thu 2025-10-02 01:40", -150],
    ["Australia/Lord_Howe", 1827718200, "Thu 2027-12-02 14:30", 660],
    ["Asia/Kolkata", 1750285500, "Thu 2025-06-19 03:55", 330],
    ["Pacific/Kiritimati", 1789720140, "Fri 2026-09-18 22:29", 840],
    ["America/Halifax", 1745125680, "Sun 2025-04-20 02:08", -180],
    ["Africa/Casablanca", 1757318880, "Mon 2025-09-08 09:08", 60],
  ])("in %s at %d", (zone, at, local, offset) => {
    const pieces = formatInstant(epochSeconds(at), zone);
    expect(`${pieces.weekdayShort} ${pieces.isoDate} ${pieces.time}`).toBe(local);
    expect(pieces.offsetMinutes).toBe(offset);
    expect(offsetMinutesAt(epochSeconds(at), zone)).toBe(offset);
    expect(pieces.offsetLabel).toBe(offsetName(offset));
  });

  it("gives every piece, rounded to the minute or the second", () => {
    const at = epochSeconds(1807200000 + 29.6);
    expect(formatInstant(at, "UTC-10")).toEqual({
      date: { year: 2027, month: 4, day: 8 },
      isoDate: "2027-04-08",
      weekday: 4,
      weekdayShort: "Thu",
      weekdayLong: "Thursday",
      monthShort: "Apr",
      monthLong: "April",
      hour: 6,
      minute: 0,
      second: 0,
      time: "06:00",
      offsetMinutes: -600,
      offsetLabel: "UTC-10",
    });
    expect(formatInstant(at, "UTC-10", "second").time).toBe("06:00:30");
    expect(formatInstant(epochSeconds(1807200000 + 59 * 60 + 45), "UTC-10").time).toBe("07:00");
    expect(isoInstant(epochSeconds(1807200000))).toBe("2027-04-08T16:00Z");
  });

  it("takes a zone that was not read at the door for a bug", () => {
    expect(() => formatInstant(epochSeconds(0), "Mars/Olympus")).toThrow("Mars/Olympus");
  });
});
