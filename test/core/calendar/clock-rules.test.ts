import { describe, expect, it } from "vitest";
import { type ClockRules, parseSeason, parseWeekdays, ruleSpans, type Weekday } from "../../../src/core/calendar/index.ts";

const daily: readonly Weekday[] = [1, 2, 3, 4, 5, 6, 7];
const at = (iso: string): number => Date.parse(iso) / 1000;
const plain = (rules: ClockRules, from: string, until: string): string[] =>
  ruleSpans(rules, { from: at(from), until: at(until) }).map((span) =>
    [span.from, span.until].map((one) => new Date(one * 1000).toISOString().slice(5, 16)).join(" "),
  );

const bridge = (changes: Partial<ClockRules> = {}): ClockRules => ({
  zone: "Europe/Lisbon",
  rules: [{ weekdays: daily, season: null, opens: { kind: "times", minutes: [450, 1050], staysSeconds: 300 } }],
  holidays: [],
  onHolidays: [],
  ...changes,
});

describe("times by the local clock", () => {
  it("are those the clock reads, over a change of it", () => {
    // 07:30 and 17:30 in Lisbon: UTC until 29 March 2026, UTC+1 from then on.
    expect(plain(bridge(), "2026-03-28T12:00Z", "2026-03-30T00:00Z")).toEqual([
      "03-28T17:30 03-28T17:35",
      "03-29T06:30 03-29T06:35",
      "03-29T16:30 03-29T16:35",
    ]);
  });

  it("give way on holidays to those of holidays, and to none where there are none", () => {
    const holidays = [{ year: 2026, month: 6, day: 4 }];
    expect(plain(bridge({ holidays }), "2026-06-03T12:00Z", "2026-06-05T12:00Z")).toEqual([
      "06-03T16:30 06-03T16:35",
      "06-05T06:30 06-05T06:35",
    ]);
    const onHolidays = [{ kind: "hours", fromMinutes: 540, untilMinutes: 600 } as const];
    expect(plain(bridge({ holidays, onHolidays }), "2026-06-04T00:00Z", "2026-06-04T22:00Z")).toEqual(["06-04T08:00 06-04T09:00"]);
  });

  it("hold in their season only, and on their weekdays", () => {
    const rules = [
      {
        weekdays: [6, 7] as const,
        season: { from: { month: 5, day: 1 }, until: { month: 9, day: 30 } },
        opens: { kind: "times" as const, minutes: [720], staysSeconds: 0 },
      },
    ];
    // Saturday 2 May 2026; on Saturday 25 April it is not yet the season.
    expect(plain(bridge({ rules }), "2026-04-24T00:00Z", "2026-05-04T00:00Z")).toEqual([
      "05-02T11:00 05-02T11:00",
      "05-03T11:00 05-03T11:00",
    ]);
  });
});

describe("days and seasons as written", () => {
  it.each([
    ["mon-fri", [1, 2, 3, 4, 5]],
    ["Sat, Sun", [6, 7]],
    ["fri to mon", [1, 5, 6, 7]],
    ["daily", daily],
    ["Tuesday and thurs", [2, 4]],
    ["tuesdays", null],
    ["m-f", null],
  ])("%s", (text, expected) => {
    const read = parseWeekdays(text, "days");
    expect(read.ok ? read.value : null).toEqual(expected);
  });

  it("reads a season, and refuses days there are not", () => {
    expect(parseSeason("1 May to 30 Sep", "season")).toEqual({
      ok: true,
      value: { from: { month: 5, day: 1 }, until: { month: 9, day: 30 } },
    });
    expect(parseSeason("15 Nov - 31 Mar", "season")).toMatchObject({ ok: true });
    expect(parseSeason("31 Apr to 1 May", "season")).toMatchObject({ ok: false, issues: [{ code: "date-not-real" }] });
    expect(parseSeason("summer", "season")).toMatchObject({ ok: false, issues: [{ code: "time-not-understood" }] });
  });
});
