import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatInstant, openings, type Timetable, type Weekday } from "../../../src/core/calendar/index.ts";
import { epochSeconds, type Interval } from "../../../src/core/units/index.ts";

const weekdays: readonly Weekday[] = [1, 2, 3, 4, 5];
const everyDay: readonly Weekday[] = [1, 2, 3, 4, 5, 6, 7];
const within = (fromIso: string, untilIso: string): Interval => ({
  from: epochSeconds(Date.parse(fromIso) / 1000),
  until: epochSeconds(Date.parse(untilIso) / 1000),
});
const plain = (intervals: readonly Interval[]) => intervals.map(({ from, until }) => [Number(from), Number(until)]);

const office: Timetable = {
  zone: "Europe/Lisbon",
  hours: [
    { weekdays, fromMinutes: 480, untilMinutes: 720, season: null },
    { weekdays, fromMinutes: 810, untilMinutes: 1020, season: null },
    { weekdays: [5, 6], fromMinutes: 1320, untilMinutes: 120, season: null },
  ],
  holidays: [{ year: 2026, month: 3, day: 30 }],
  holidayHours: [{ fromMinutes: 600, untilMinutes: 660 }],
};

describe("a week's hours as intervals", () => {
  // Reference: every minute of the week asked of Python 3.11's zoneinfo ("is the office open at this local time?"), with the clocks put forward
  // in the night to Sunday 29 March 2026 and a holiday on the Monday.
  it("is right across a holiday, midnight and a change of clocks", () => {
    expect(plain(openings(office, within("2026-03-26T00:00Z", "2026-04-01T00:00Z")))).toEqual([
      [1774512000, 1774526400],
      [1774531800, 1774544400],
      [1774598400, 1774612800],
      [1774618200, 1774630800],
      [1774648800, 1774663200],
      [1774735200, 1774746000],
      [1774861200, 1774864800],
      [1774940400, 1774954800],
      [1774960200, 1774972800],
    ]);
  });

  it("cuts what begins before and ends after", () => {
    expect(plain(openings(office, within("2026-03-28T01:00Z", "2026-03-28T23:00Z")))).toEqual([
      [1774659600, 1774663200],
      [1774735200, 1774738800],
    ]);
    expect(openings(office, within("2026-03-28T05:00Z", "2026-03-28T05:00Z"))).toEqual([]);
  });

  it("closes when the clock first reads the closing time on the night it comes twice", () => {
    const night: Timetable = { ...office, hours: [{ weekdays: [6], fromMinutes: 1320, untilMinutes: 90, season: null }], holidays: [] };
    // Sat 24 October 2026 22:00 UTC+1 to Sun 01:30 UTC+1, the first of two.
    expect(plain(openings(night, within("2026-10-24T00:00Z", "2026-10-26T00:00Z")))).toEqual([[1792875600, 1792888200]]);
  });

  it("leaves out hours that the clocks skip and begins late those they skip into", () => {
    const early = (fromMinutes: number, untilMinutes: number): Timetable => ({
      ...office,
      hours: [{ weekdays: [7], fromMinutes, untilMinutes, season: null }],
      holidays: [],
    });
    expect(openings(early(75, 105), within("2026-03-28T00:00Z", "2026-03-30T00:00Z"))).toEqual([]);
    expect(plain(openings(early(90, 180), within("2026-03-28T00:00Z", "2026-03-30T00:00Z")))).toEqual([[1774746000, 1774749600]]);
  });

  it("keeps a season, also over the year's end", () => {
    const winter: Timetable = {
      zone: "UTC-10",
      hours: [
        { weekdays: everyDay, fromMinutes: 0, untilMinutes: 1440, season: { from: { month: 11, day: 1 }, until: { month: 3, day: 31 } } },
      ],
      holidays: [],
      holidayHours: [],
    };
    expect(openings(winter, within("2026-09-01T00:00Z", "2027-09-01T00:00Z"))).toEqual([within("2026-11-01T10:00Z", "2027-04-01T10:00Z")]);
    const summer: Timetable = {
      ...winter,
      hours: [{ ...winter.hours[0]!, season: { from: { month: 6, day: 1 }, until: { month: 6, day: 2 } } }],
    };
    expect(openings(summer, within("2026-01-01T00:00Z", "2027-01-01T00:00Z"))).toEqual([within("2026-06-01T10:00Z", "2026-06-03T10:00Z")]);
  });

  it("is closed on a holiday without hours, though the eve runs on", () => {
    const bridge: Timetable = { ...office, zone: "UTC", holidays: [{ year: 2026, month: 3, day: 28 }], holidayHours: [] };
    expect(plain(openings(bridge, within("2026-03-27T18:00Z", "2026-03-29T12:00Z")))).toEqual([[1774648800, 1774663200]]);
  });

  it("quotes hours that are none", () => {
    const broken: Timetable = { ...office, hours: [{ weekdays: everyDay, fromMinutes: 600, untilMinutes: Number.NaN, season: null }] };
    expect(() => openings(broken, within("2026-03-27T00:00Z", "2026-03-28T00:00Z"))).toThrow("NaN");
  });
});

describe("any hours", () => {
  const minutes = fc.integer({ min: 0, max: 1439 });
  const anyHours = fc.record({
    weekdays: fc.uniqueArray(fc.constantFrom(...everyDay), { minLength: 1 }),
    fromMinutes: minutes,
    untilMinutes: minutes,
    season: fc.constant(null),
  });
  it("gives sorted intervals apart from one another inside the asked one, open exactly by the local clock where the clocks keep still", () => {
    const asked = within("2026-06-01T07:13Z", "2026-06-11T19:47Z");
    fc.assert(
      fc.property(
        fc.array(anyHours, { maxLength: 4 }),
        fc.constantFrom("Europe/Lisbon", "UTC-10", "Pacific/Chatham"),
        fc.nat(10 * 1440),
        (hours, zone, minute) => {
          const timetable: Timetable = { zone, hours, holidays: [], holidayHours: [] };
          const open = openings(timetable, asked);
          for (const [index, one] of open.entries()) {
            expect(one.until).toBeGreaterThan(one.from);
            expect(one.from).toBeGreaterThanOrEqual(index === 0 ? asked.from : open[index - 1]!.until + 1);
            expect(one.until).toBeLessThanOrEqual(asked.until);
          }
          const at = epochSeconds(asked.from + minute * 60 + 30);
          const clock = formatInstant(epochSeconds(at - 30), zone);
          const ofDay = clock.hour * 60 + clock.minute;
          const eve = ((clock.weekday + 5) % 7) + 1;
          const isOpen = hours.some(({ weekdays: days, fromMinutes, untilMinutes }) => {
            const end = untilMinutes <= fromMinutes ? untilMinutes + 1440 : untilMinutes;
            const holds = (day: number, now: number) => days.includes(day as Weekday) && now >= fromMinutes && now < end;
            return holds(clock.weekday, ofDay) || holds(eve, ofDay + 1440);
          });
          expect(open.some((one) => at >= one.from && at < one.until)).toBe(isOpen);
        },
      ),
      { numRuns: 300 },
    );
  });
});
