import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Parsed } from "../../../src/core/answers/index.ts";
import { formatInstant, parseLocalDate, parseLocalTime } from "../../../src/core/calendar/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";

const codes = (parsed: Parsed<unknown>): string => (parsed.ok ? "" : parsed.issues.map((one) => one.code).join(" "));
const message = (parsed: Parsed<unknown>): string => (parsed.ok ? "" : parsed.issues.map((one) => one.message).join("\n"));

/** Thu 2027-04-08 06:00 in UTC-10, by Python's datetime. */
const THURSDAY_SIX = 1807200000;

describe("dates with times", () => {
  it.each([
    ["2027-04-08 0600", "UTC-10"],
    ["2027-04-08 06:00", "Pacific/Tahiti"],
    ["2027-04-08T06:00", "UTC-10"],
    ["2027-04-08 0600 local", "UTC-10"],
    ["2027-04-08 at 0600", "UTC-10"],
    ["2027-04-08 0600h", "UTC-10"],
    ["8 Apr 2027 0600", "UTC-10"],
    ["8 April 2027, 06:00", "UTC-10"],
    ["April 8, 2027 06:00", "UTC-10"],
    ["THU 08 APR 2027 0600", "UTC-10"],
    ["Thursday 2027-04-08 0600", "UTC-10"],
    ["2027-04-08 0600 UTC-10", null],
    ["2027-04-08 0600 UTC-10", "Europe/Lisbon"],
    ["2027-04-08 0600 Pacific/Tahiti", null],
    ["2027-04-08T16:00Z", null],
    ["2027-04-08T16:00:00.000Z", "UTC-10"],
    ["2027-04-08 1600Z", null],
    ["2027-04-08 1600 UTC", null],
    ["2027-04-08T06:00-10:00", null],
    ["2027-04-08T21:30+05:30", null],
    ["2027-04-07 2400 UTC-4", "UTC"],
    ["13/04/2027 0600", "UTC-10"],
  ])("reads %s in %s", (text, zone) => {
    const expected = text.startsWith("13/") ? THURSDAY_SIX + 5 * 86400 : text.includes("2400") ? 1807156800 : THURSDAY_SIX;
    expect(parseLocalTime(text, zone, "x")).toEqual({ ok: true, value: expected });
  });

  it.each([
    ["2027-04-08 0600", null, "zone-missing"],
    ["2027-04-08 0600 local", null, "zone-missing"],
    ["2027-04-08", "UTC", "time-missing"],
    ["0600", "UTC", "date-missing"],
    ["THU 0600", "UTC", "date-missing"],
    ["2027-02-29 0600", "UTC", "date-not-real"],
    ["2027-13-01 0600", "UTC", "date-not-real"],
    ["31/31/2027 0600", "UTC", "date-not-real"],
    ["2027-04-08 2500", "UTC", "date-not-real"],
    ["2027-04-08 0660", "UTC", "date-not-real"],
    ["FRI 2027-04-08 0600", "UTC", "weekday-mismatch"],
    ["2027-04-08 0600 Mars/Olympus", "UTC", "zone-unknown"],
    ["2027-04-08 0600 EST", "UTC", "zone-unknown"],
    ["2027-04-08 0600-1200", "UTC", "time-not-understood"],
    ["2027-04-08 06:00-12:00", "UTC", "time-not-understood"],
    ["2027-04-08 6 o'clock", "UTC", "time-not-understood"],
    ["8 Apr 0600", "UTC", "time-not-understood"],
    ["soon", "UTC", "time-not-understood"],
    ["", "UTC", "time-not-understood"],
  ])("asks about %s in %s (%s)", (text, zone, code) => expect(codes(parseLocalTime(text, zone, "leave.from"))).toBe(code));

  it("lists both readings of a date in figures", () => {
    const parsed = parseLocalTime("04/05/2027 0600", "UTC", "x");
    expect(codes(parsed)).toBe("date-ambiguous");
    expect(message(parsed)).toContain("2027-05-04 or 2027-04-05");
    expect(parseLocalDate("05/05/2027", "x")).toEqual({ ok: true, value: { year: 2027, month: 5, day: 5 } });
    expect(codes(parseLocalDate("2027-04-08 0600", "x"))).toBe("time-not-understood");
  });
});

describe("times on and off the clock", () => {
  // Reference: Python 3.11's zoneinfo, both values of fold.
  it("says when a time never comes", () => {
    const parsed = parseLocalTime("2026-03-29 0130", "Europe/Lisbon", "x");
    expect(codes(parsed)).toBe("time-skipped");
    expect(message(parsed)).toContain("2026-03-29 01:30 never comes in Europe/Lisbon: the clocks go from 01:00 to 02:00");
    expect(message(parseLocalTime("2026-10-04 0215", "Australia/Lord_Howe", "x"))).toContain("from 02:00 to 02:30");
  });

  it("lists both readings of a time that comes twice", () => {
    const parsed = parseLocalTime("2026-10-25 0130", "Europe/Lisbon", "x");
    expect(codes(parsed)).toBe("time-ambiguous");
    expect(message(parsed)).toContain("01:30 UTC+1 (2026-10-25T00:30Z) or 01:30 UTC (2026-10-25T01:30Z)");
    expect(parseLocalTime("2026-10-25 0130 UTC+1", "Europe/Lisbon", "x")).toEqual({ ok: true, value: 1792888200 });
    expect(parseLocalTime("2026-10-25 0130 UTC", "Europe/Lisbon", "x")).toEqual({ ok: true, value: 1792891800 });
    expect(message(parseLocalTime("2026-04-05 0145", "Australia/Lord_Howe", "x"))).toContain(
      "UTC+11 (2026-04-04T14:45Z) or 01:45 UTC+10:30 (2026-04-04T15:15Z)",
    );
  });
});

describe("weekdays and times alone, counted from an instant", () => {
  const reference = epochSeconds(Date.UTC(2027, 3, 7, 5, 10) / 1000); // Tue 2027-04-06 19:10 UTC-10
  it("takes the first on or after the day", () => {
    expect(parseLocalTime("THU 0600", "UTC-10", "x", { reference })).toEqual({ ok: true, value: THURSDAY_SIX });
    expect(parseLocalTime("TUE 1910", "UTC-10", "x", { reference })).toEqual({ ok: true, value: reference });
    expect(parseLocalTime("Mon 0600", "UTC-10", "x", { reference })).toEqual({ ok: true, value: THURSDAY_SIX + 4 * 86400 });
    expect(parseLocalTime("2000 local", "UTC-10", "x", { reference })).toEqual({ ok: true, value: reference + 50 * 60 });
  });
  it("asks when that day's time is past", () => {
    const parsed = parseLocalTime("TUE 0600", "UTC-10", "x", { reference });
    expect(codes(parsed)).toBe("date-doubtful");
    expect(message(parsed)).toContain("Tue 2027-04-06 or Tue 2027-04-13");
    const time = parseLocalTime("0930 local", "UTC-10", "x", { reference });
    expect(codes(time)).toBe("date-doubtful");
    expect(message(time)).toContain("Tue 2027-04-06 or Wed 2027-04-07");
  });
});

describe("any text, any instant", () => {
  const pieces = [
    "2027-04-08",
    "04/05/2027",
    "8 Apr 2027",
    "THU",
    "T",
    "0600",
    "06:00",
    "2400",
    "9999",
    "Z",
    "UTC-10",
    "+05:30",
    "local",
    "Pacific/Tahiti",
    " ",
    ",",
    "-",
    "0000-00-00",
    "at",
  ];
  const texts = fc.oneof(
    fc.string({ unit: "binary", maxLength: 40 }),
    fc.array(fc.constantFrom(...pieces), { maxLength: 7 }).map((parts) => parts.join("")),
    fc.array(fc.constantFrom(...pieces), { maxLength: 7 }).map((parts) => parts.join(" ")),
  );
  it("never throws, never gives what is not a number", () => {
    fc.assert(
      fc.property(texts, fc.constantFrom(null, "UTC", "Europe/Lisbon", "UTC-10"), fc.boolean(), (text, zone, counted) => {
        const parsed = parseLocalTime(text, zone, "x", counted ? { reference: epochSeconds(THURSDAY_SIX) } : {});
        if (parsed.ok) expect(Number.isFinite(parsed.value)).toBe(true);
        else expect(parsed.issues.length).toBeGreaterThan(0);
      }),
      { numRuns: 2000 },
    );
  });
  it("comes back from its written form, in every zone", () => {
    const zones = fc.constantFrom(
      "UTC",
      "UTC-10",
      "UTC+5:45",
      "Europe/Lisbon",
      "Pacific/Chatham",
      "America/St_Johns",
      "Australia/Lord_Howe",
    );
    fc.assert(
      fc.property(fc.integer({ min: 26_000_000, max: 34_000_000 }), zones, (minutes, zone) => {
        const at = epochSeconds(minutes * 60);
        const pieces = formatInstant(at, zone);
        const written = `${pieces.weekdayShort} ${pieces.isoDate} ${pieces.time} ${pieces.offsetLabel}`;
        expect(parseLocalTime(written, null, "x"), written).toEqual({ ok: true, value: at });
      }),
      { numRuns: 300 },
    );
  });
});
