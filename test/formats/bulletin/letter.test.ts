import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Issue, Parsed } from "../../../src/core/answers/index.ts";
import { formatInstant } from "../../../src/core/calendar/index.ts";
import { type EpochSeconds, knotsFromMps, metresFromFeet } from "../../../src/core/units/index.ts";
import { type Letter, type LetterOptions, readLetter } from "../../../src/formats/bulletin/index.ts";

const read = (text: string, options: Partial<LetterOptions> = {}) =>
  readLetter(text, { zone: null, issued: null, strikeOutLines: [], path: "letter.txt", ...options });
const issuesOf = (parsed: Parsed<unknown>): readonly Issue[] => (parsed.ok ? [] : parsed.issues);
const codes = (parsed: Parsed<unknown>): string =>
  issuesOf(parsed)
    .map((one) => one.code)
    .join(" ");

function letterOf(parsed: Parsed<Letter>): Letter {
  if (!parsed.ok) throw new Error(parsed.issues.map((one) => `${one.path} ${one.message}`).join("\n"));
  return parsed.value;
}

/** Each wind as `Thu 08 06:00 > Thu 08 12:00 45+0 12-16 20`, on the letter's own clock. */
function windsOf(letter: Letter): string[] {
  const said = (at: EpochSeconds) => {
    const pieces = formatInstant(at, letter.zone);
    return `${pieces.weekdayShort} ${pieces.isoDate.slice(8)} ${pieces.time}`;
  };
  const knots = (mps: number) => Math.round(knotsFromMps(mps) * 10) / 10;
  return letter.wind.map(
    (one) =>
      `${said(one.from)} > ${said(one.until)} ${one.fromDegTrue}+${one.arcDeg} ${knots(one.speedLowMps)}-${knots(one.speedHighMps)} ${one.gustMps === null ? "-" : knots(one.gustMps)}`,
  );
}

const HEAD = "ISSUED TUE 06 APR 2027 1910 UTC-10";
const LETTER = `Hello Ada and Jo,

The ridge holds until Friday. Then a front.
# kept from Monday's mail
> THU 0600-1200 N 40
--------
${HEAD}

THU 0600-1200 NE 12-16 G20
THU 1200–1800: N to NE 14 to 18 gusting 22, seas 2-3 ft @ 9 s.
THU 1800-FRI 0600 N-NE 15-20 G28 SEA 3-4 ft @ 7 s
FRI 00-06 E 10
SAT SE 8-12
SUN-MON VRB 5
Fair winds, Tom`;

describe("a forecaster's letter", () => {
  it("stops at every line it does not understand, with its number, its words and the cure", () => {
    const issues = issuesOf(read(LETTER));
    expect(issues.map((one) => one.path)).toEqual(["letter.txt line 1", "letter.txt line 3", "letter.txt line 15"]);
    expect(new Set(issues.map((one) => one.code))).toEqual(new Set(["letter-line-not-understood"]));
    expect(issues[1]!.message).toContain("line 3 “The ridge holds until Friday. Then a front.”");
    // One cure for all of them, to copy, with what is struck out already.
    expect(new Set(issues.map((one) => one.whatToDo)).size).toBe(1);
    expect(issues[1]!.whatToDo).toContain("strikeOut: [1, 3, 15]");
    expect(issuesOf(read(LETTER, { strikeOutLines: [15, 1] }))[0]!.whatToDo).toContain("strikeOut: [1, 3, 15]");
  });

  it("is read once those lines are struck out, and says what each line was read as", () => {
    const letter = letterOf(read(LETTER, { strikeOutLines: [1, 3, 15] }));
    expect(letter.zone).toBe("UTC-10");
    // Tue 2027-04-06 19:10 at UTC-10 by Python's datetime.
    expect(letter.issuedAt).toBe(1807074600);
    expect(windsOf(letter)).toEqual([
      "Thu 08 06:00 > Thu 08 12:00 45+0 12-16 20",
      "Thu 08 12:00 > Thu 08 18:00 0+45 14-18 22",
      "Thu 08 18:00 > Fri 09 06:00 0+45 15-20 28",
      "Fri 09 00:00 > Fri 09 06:00 90+0 10-10 -",
      "Sat 10 00:00 > Sun 11 00:00 135+0 8-12 -",
      "Sun 11 00:00 > Tue 13 00:00 0+360 5-5 -",
    ]);
    expect(letter.sea).toHaveLength(2);
    expect(letter.sea[1]).toEqual({
      from: letter.wind[2]!.from,
      until: letter.wind[2]!.until,
      heightLowMetres: metresFromFeet(3),
      heightHighMetres: metresFromFeet(4),
      periodLowSeconds: 7,
      periodHighSeconds: 7,
    });
    expect(letter.lines.map((line) => line.readAs)).toEqual(
      "struckOut blank struckOut aside aside rule issued blank forecast forecast forecast forecast forecast forecast struckOut".split(" "),
    );
    expect(letter.lines[8]).toMatchObject({ number: 9, text: "THU 0600-1200 NE 12-16 G20", wind: letter.wind[0], sea: null });
  });

  it("notes where periods overlap and where none stands", () => {
    const letter = letterOf(read(LETTER, { strikeOutLines: [1, 3, 15] }));
    const [friday, gapFrom, saturday] = [letter.wind[3]!, letter.wind[3]!.until, letter.wind[4]!];
    expect(letter.noted).toEqual([
      { kind: "overlap", quantity: "wind", from: friday.from, until: friday.until },
      { kind: "gap", quantity: "wind", from: gapFrom, until: saturday.from },
    ]);
  });

  it("is the same with line ends of any system, a byte order mark, tabs and hard spaces", () => {
    const one = letterOf(read(`${HEAD}\nTHU 0600-1200 NE 12-16 G20\n`));
    const two = letterOf(read(`\uFEFF${HEAD}\r\nTHU\t0600-1200  NE\u00a012-16 G20\r\n`));
    expect(two.wind).toEqual(one.wind);
  });

  it("reads dates in place of weekdays and the short ways of writing a head", () => {
    const letter = letterOf(read("Issued: 2027-04-07 0510 UTC\nAll times in UTC-10\n- WED 18-24 E 5\n2027-04-13 0600-1200 NE 10"));
    expect([letter.issuedAt, letter.zone]).toEqual([1807074600, "UTC-10"]);
    expect(windsOf(letter)).toEqual(["Wed 07 18:00 > Thu 08 00:00 90+0 5-5 -", "Tue 13 06:00 > Tue 13 12:00 45+0 10-10 -"]);
  });
});

describe("docs/passage.md", () => {
  it("shows a letter that is read as it says", () => {
    const text = /```text\n(To Tansy[\s\S]*?)```/.exec(readFileSync("docs/passage.md", "utf8"))?.[1] ?? "";
    expect(issuesOf(read(text))[0]!.whatToDo).toContain("`strikeOut: [1, 11]`");
    const letter = letterOf(read(text, { strikeOutLines: [1, 11] }));
    expect([letter.wind.length, letter.sea.length]).toEqual([4, 2]);
  });
});

describe("the weekday of a line", () => {
  const days = (text: string) => windsOf(letterOf(read(`${HEAD}\n${text}`))).map((one) => one.slice(0, 6));
  it("is the first on or after the day of issue", () => {
    expect(days("TUE 1800-2400 N 5\nWED N 5\nMON N 5")).toEqual(["Tue 06", "Wed 07", "Mon 12"]);
    expect(days("TUE N 5")).toEqual(["Tue 06"]);
  });
  it("is asked about when that day's time was over at issue", () => {
    const parsed = read(`${HEAD}\nTUE 0600-1200 N 5`);
    expect(codes(parsed)).toBe("letter-date-doubtful");
    expect(issuesOf(parsed)[0]!.message).toContain(
      "Tue 2027-04-06, which was over when the letter was issued, Tue 2027-04-06 19:10 UTC-10, or Tue 2027-04-13",
    );
    expect(issuesOf(parsed)[0]!.message).toContain("line 2 “TUE 0600-1200 N 5”");
  });
  it("is asked about when a line goes back to a day before the line above", () => {
    const parsed = read(`${HEAD}\nWED N 5\nMON N 5\nTUE N 5`);
    expect(codes(parsed)).toBe("letter-date-doubtful");
    expect(issuesOf(parsed)[0]!.message).toContain("Tue 2027-04-06, which is before the line above, or Tue 2027-04-13");
    expect(windsOf(letterOf(read(`${HEAD}\nWED N 5\nMON N 5\nTUE N 5`, { strikeOutLines: [4] })))).toHaveLength(2);
    expect(windsOf(letterOf(read(`${HEAD}\nWED N 5\nMON N 5\n2027-04-13 N 5`)))).toHaveLength(3);
  });
  it("may start again in a part of its own for the sea", () => {
    const letter = letterOf(read(`${HEAD}\nWED N 5\nMON N 5\nWED SEA 1 m\nMON SEA 2 m @ 8 s`));
    expect([letter.wind.length, letter.sea.length]).toEqual([2, 2]);
  });
  it("knows the local day where the clocks change", () => {
    // The clocks go forward in Lisbon on Sun 29 March 2026 at 01:00: the day has 23 hours (zoneinfo).
    const letter = letterOf(read("Issued 2026-03-27 1000 Europe/Lisbon\nSUN N 5"));
    expect([letter.wind[0]!.from, letter.wind[0]!.until]).toEqual([1774742400, 1774742400 + 23 * 3600]);
    expect(codes(read("Issued 2026-03-27 1000 Europe/Lisbon\nSUN 0130-0600 N 5"))).toBe("time-skipped");
  });
});

describe("what a letter must say", () => {
  it("asks for the zone and the issue time where they are missing, and takes them from beside the letter", () => {
    expect(codes(read("Issued 2027-04-06 1910\nTHU N 5"))).toBe("zone-missing");
    expect(codes(read("THU N 5"))).toBe("letter-issue-missing zone-missing");
    expect(codes(read("THU N 5", { zone: "UTC-10" }))).toBe("letter-issue-missing");
    expect(codes(read("THU N 5", { issued: "2027-04-06 1910" }))).toBe("zone-missing");
    const beside = letterOf(read("THU N 5", { zone: "UTC-10", issued: "2027-04-06 1910" }));
    expect([beside.issuedAt, beside.zone]).toEqual([1807074600, "UTC-10"]);
    expect(letterOf(read("THU N 5", { issued: "2027-04-06 1910 UTC-10" })).zone).toBe("UTC-10");
    expect(letterOf(read("THU N 5", { zone: "UTC-10", issued: "2027-04-07 0510 UTC" })).wind[0]!.from).toBe(beside.wind[0]!.from);
  });
  it("names the lines and keys that say them", () => {
    const [issued, zone] = issuesOf(read("THU N 5"));
    expect(issued!.whatToDo).toMatch(/`Issued 2027-04-06 1910 UTC-10`.*`issued` beside `letter:`/);
    expect(zone!.whatToDo).toMatch(/`Zone UTC-10`.*`zone` beside `letter:`/);
  });
  it.each(["All times UTC.", "Times are in UTC-10.", "Zone: Pacific/Tahiti."])("reads %s with its full stop", (line) => {
    expect(codes(read(`Issued 2027-04-06 1910.\n${line}\nTHU N 5`))).toBe("");
  });
  it("asks when they are stated twice and differ", () => {
    const zone = read(`${HEAD}\nTHU N 5`, { zone: "UTC-9" });
    expect(codes(zone)).toContain("letter-zone-doubtful");
    expect(
      issuesOf(zone)
        .map((one) => one.message)
        .join(),
    ).toMatch(/UTC-9.*UTC-10/);
    expect(codes(read(`${HEAD}\nTHU N 5`, { zone: "Pacific/Tahiti" }))).toBe("");
    expect(codes(read(`${HEAD}\nTHU N 5`, { issued: "2027-04-06 1900" }))).toBe("letter-issue-doubtful");
    expect(codes(read(`${HEAD}\nIssued 2027-04-05 1910 UTC-10\nTHU N 5`))).toBe("letter-issue-doubtful");
    expect(letterOf(read(`${HEAD}\nIssued 2027-04-05 1910 UTC-10\nTHU N 5`, { strikeOutLines: [2] })).issuedAt).toBe(1807074600);
    expect(codes(read(`${HEAD}\nZone UTC-10\nZone UTC-9\nTHU N 5`))).toBe("letter-zone-doubtful");
  });
  it("asks for a forecast", () => {
    expect(codes(read(HEAD))).toBe("letter-no-forecast");
    expect(codes(read(""))).toBe("letter-issue-missing zone-missing letter-no-forecast");
    expect(codes(read(`${HEAD}\n> THU N 5`))).toBe("letter-no-forecast");
  });
  it("refuses what is no text", () => {
    expect(codes(read("GRIB\0\0\0"))).toBe("letter-not-text");
    expect(codes(read("THU N 5\n".repeat(50_000)))).toBe("letter-not-text");
  });
});

describe("lines that are wrong", () => {
  it.each([
    ["THU NE", "wind-speed-missing"],
    ["THU 0600-1200 12-16", "wind-direction-missing"],
    ["THU 0600-1200 NE 16-12", "range-upside-down"],
    ["THU 0600-1200 NE 12-16 G14", "gust-below-wind"],
    ["THU 1200-0600 NE 12", "letter-until-before-from"],
    ["THU 1200-1200 NE 12", "letter-until-before-from"],
    ["THU 1200-THU 0600 NE 12", "letter-until-before-from"],
    ["2027-04-09 0600-2027-04-08 0600 NE 12", "letter-until-before-from"],
    ["THU 0600 NE 12", "letter-until-missing"],
    ["THU 0600-2500 NE 12", "date-not-real"],
    ["THU 0600-1260 NE 12", "date-not-real"],
    ["FRI 2027-04-08 0600-1200 NE 12", "weekday-mismatch"],
    ["04/05/2027 0600-1200 NE 12", "date-ambiguous"],
    ["THU 0600-1200 NE 12 SEA 3", "unit-missing"],
    ["THU 0600-1200 N-S 12", "arc-doubtful"],
    ["THU 0600-1200", "letter-line-not-understood"],
    ["THU", "letter-line-not-understood"],
    ["THU NIGHT NE 12", "letter-line-not-understood"],
    ["THU-FRI 0600 NE 12", "letter-line-not-understood"],
    ["THU 12 NE 10", "letter-line-not-understood"],
    ["THU 0600-1200 NE 12-16, squalls", "letter-line-not-understood"],
    ["0600-1200 NE 12", "letter-line-not-understood"],
    ["Sat phone is charged", "letter-line-not-understood"],
    ["Sun is out today", "letter-line-not-understood"],
    ["NE 12-16 G20", "letter-line-not-understood"],
    ["Issued by Tom", "letter-line-not-understood"],
    ["Times are hard", "zone-unknown"],
  ])("asks about %s (%s), and leaves it out when it is struck out", (line, code) => {
    const parsed = read(`${HEAD}\n${line}\nFRI N 5`);
    expect(codes(parsed)).toBe(code);
    const [one] = issuesOf(parsed);
    expect(one!.path).toBe("letter.txt line 2");
    expect(one!.message).toContain(`line 2 “${line}”`);
    expect(one!.whatToDo).toMatch(/2 to strikeOut|strikeOut: \[2\]|in place of the weekday/);
    expect(letterOf(read(`${HEAD}\n${line}\nFRI N 5`, { strikeOutLines: [2] })).wind).toHaveLength(1);
  });

  it("are told in the order of their lines", () => {
    const places = issuesOf(read("Hi\nTHU NE\nAll times EST\nIssued by Tom\nbye")).map((one) => one.path.replace("letter.txt line ", ""));
    expect(places.filter((one) => /^\d+$/.test(one))).toEqual(["1", "2", "3", "4", "5"]);
  });

  it("are all named at once, wherever they stand", () => {
    expect(codes(read(`Hi\n${HEAD}\nTHU NE\nFRI 0600-1200 NE 16-12 SEA 3`))).toBe(
      "letter-line-not-understood wind-speed-missing range-upside-down unit-missing",
    );
    expect(codes(read("Hi\nTHU NE"))).toBe("letter-issue-missing zone-missing letter-line-not-understood wind-speed-missing");
  });
});

describe("striking out", () => {
  const text = `${HEAD}\n\n# aside\n---\nAll times UTC-10\nTHU N 5\nHello`;
  it.each([1, 2, 3, 4, 5, 6, 0, -1, 8, 1.5, Number.NaN])("asks about line %s, which was understood or is none", (number) => {
    const parsed = read(text, { strikeOutLines: [7, number] });
    expect(codes(parsed)).toContain("letter-strike-out-needless");
    expect(issuesOf(parsed).find((one) => one.code === "letter-strike-out-needless")!.message).toContain(`line ${number} `);
  });
  it("takes one of two statements out, when the letter and the skipper differ", () => {
    expect(letterOf(read(`${HEAD}\nTHU N 5`, { strikeOutLines: [1], zone: "UTC-9", issued: "2027-04-06 1910" })).zone).toBe("UTC-9");
  });
});

describe("any letter at all", () => {
  const pieces = [
    "THU",
    "FRI",
    "0600",
    "-",
    "1200",
    "NE",
    "12-16",
    "G20",
    "SEA",
    "3-4 ft",
    "@ 7 s",
    "Issued",
    "2027-04-06",
    "1910",
    "UTC-10",
    "Zone",
    "#",
    ">",
    "---",
    "calm",
    "VRB",
    "2400",
    "N 5",
  ];
  const known = fc.constantFrom("THU 0600-1200 NE 12-16 G20", "THU 1800-FRI 0600 N 5", "2027-04-12 calm", "SAT-SUN SEA 1 m @ 6 s", "");
  const lines = fc.oneof(
    { arbitrary: known, weight: 8 },
    { arbitrary: fc.array(fc.constantFrom(...pieces), { maxLength: 8 }).map((parts) => parts.join(" ")), weight: 1 },
    { arbitrary: fc.string({ unit: "binary", maxLength: 30 }), weight: 1 },
  );
  it("gives finite periods in order or issues; nothing throws", () => {
    let readable = 0;
    fc.assert(
      fc.property(
        fc.array(lines, { maxLength: 8 }),
        fc.array(fc.integer({ min: -1, max: 10 }), { maxLength: 3 }),
        fc.boolean(),
        (all, strikeOutLines, headed) => {
          const parsed = read([...(headed ? [HEAD] : []), ...all].join("\n"), { strikeOutLines });
          if (!parsed.ok) {
            expect(parsed.issues.length).toBeGreaterThan(0);
            return;
          }
          readable++;
          for (const { from, until } of [...parsed.value.wind, ...parsed.value.sea]) expect(until).toBeGreaterThan(from);
          const numbers = [...parsed.value.wind, ...parsed.value.sea].flatMap((one) => Object.values(one)).filter((one) => one !== null);
          expect(numbers.every((one) => Number.isFinite(one))).toBe(true);
        },
      ),
      { numRuns: 1500 },
    );
    expect(readable).toBeGreaterThan(20);
  });

  it("reads back every wind that is written in its form", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 6 }), fc.nat(22), fc.nat(40), fc.nat(10), (daysOn, hour, low, more) => {
        const at = formatInstant((1807074600 + daysOn * 86400) as EpochSeconds, "UTC-10");
        const two = (number: number) => String(number).padStart(2, "0");
        const letter = letterOf(
          read(`${HEAD}\n${at.weekdayShort.toUpperCase()} ${two(hour)}00-${two(hour + 1)}00 SW ${low}-${low + more} G${low + more + 5}`),
        );
        const [wind] = letter.wind;
        expect(formatInstant(wind!.from, "UTC-10")).toMatchObject({ isoDate: at.isoDate, hour });
        expect(wind!.until - wind!.from).toBe(3600);
        expect([wind!.speedLowMps, wind!.speedHighMps, wind!.gustMps].map((mps) => Math.round(knotsFromMps(mps ?? -1)))).toEqual([
          low,
          low + more,
          low + more + 5,
        ]);
      }),
      { numRuns: 300 },
    );
  });
});
