import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { editPassage, readPassage } from "../../../src/formats/passage/index.ts";
import { changed, good, issuesOf } from "./fixture.ts";

const EXAMPLE = readFileSync(new URL("../../../examples/letter-only/passage.yaml", import.meta.url), "utf8");
const withGates = (gates: string): string => changed(EXAMPLE, "\nlimits:", `\ngates:\n${gates}\nlimits:`);
const gatesOf = (gates: string) => good(withGates(gates)).passage.gates ?? [];
const codesOf = (gates: string) => issuesOf(withGates(gates)).map(({ code, path }) => `${path} ${code}`);

const BRIDGE = `  - name: the bridge                  # swings
    on: in
    wait: 20 min
    opens:
      - {from: 0700, until: 0900, every: 30 min, stays: 5 min, days: mon-fri}
      - {at: ["0730", "1730"], season: 1 May to 30 Sep}
    shut: [{from: 0745, until: 0815}]
    holidays: [2027-04-08]`;

describe("the gates of a passage file", () => {
  it("are read with their clock rules", () => {
    const [bridge] = gatesOf(BRIDGE);
    expect(bridge).toMatchObject({
      name: "the bridge",
      on: "in",
      place: { kind: "sea" },
      waitSeconds: 1200,
      clearanceMetres: null,
      office: null,
    });
    expect(bridge?.zone).toBe(good(EXAMPLE).passage.arrivalZone);
    const holidays = [{ year: 2027, month: 4, day: 8 }];
    const daily = [1, 2, 3, 4, 5, 6, 7];
    expect(bridge?.needs).toEqual([
      {
        kind: "clock",
        rules: {
          zone: bridge?.zone,
          rules: [
            { weekdays: [1, 2, 3, 4, 5], season: null, opens: { kind: "times", minutes: [420, 450, 480, 510, 540], staysSeconds: 300 } },
            {
              weekdays: daily,
              season: { from: { month: 5, day: 1 }, until: { month: 9, day: 30 } },
              opens: { kind: "times", minutes: [450, 1050], staysSeconds: 0 },
            },
          ],
          holidays,
          onHolidays: [],
        },
      },
      {
        kind: "notDuring",
        rules: {
          zone: bridge?.zone,
          rules: [{ weekdays: daily, season: null, opens: { kind: "hours", fromMinutes: 465, untilMinutes: 495 } }],
          holidays,
          onHolidays: [],
        },
      },
    ]);
  });

  it("take windows, slacks, light and an office", () => {
    const gates = gatesOf(`  - name: the cut
    on: in
    light: daylight
    around: {times: [2027-04-08 1200 UTC], before: 30 min, after: 20 min}
    windows: [{from: 2027-04-08 1800 UTC, until: 2027-04-08 1900 UTC}]
  - name: the office
    on: in
    zone: UTC+14
    wait: no
    opens: [{from: 0800, until: 1600}]
    office: {ashore: 20 min, notice: {least: 24 h}}`);
    const noon = Date.UTC(2027, 3, 8, 12) / 1000;
    expect(gates[0]?.needs).toEqual([
      {
        kind: "windows",
        windows: [
          { from: noon + 6 * 3600, until: noon + 7 * 3600 },
          { from: noon - 1800, until: noon + 1200 },
        ],
      },
      { kind: "light", sunAboveDeg: -6 },
    ]);
    expect(gates[1]).toMatchObject({
      place: { kind: "berth" },
      zone: "UTC+14",
      waitSeconds: 0,
      office: { ashoreSeconds: 1200, notice: { leastSeconds: 86400, mostSeconds: null } },
    });
  });

  it("are edited entry by entry, the rest staying letter for letter", () => {
    const text = withGates(BRIDGE);
    const edited = editPassage(good(text), "gates[0].wait", "35 min");
    if (!edited.ok) throw new Error(JSON.stringify(edited.issues));
    expect(edited.value.text).toBe(text.replace("wait: 20 min", "wait: 35 min"));
    expect(edited.value.passage.gates?.[0]?.waitSeconds).toBe(2100);
  });

  it("name everything that is wrong at once, with key, code and what to do", () => {
    const text = withGates(`  - name: a
    on: in
    zone: UTC+99
    wait: -5 min
    opens: [{from: 0700, until: 0700}, {at: ["2560"]}]
  - name: b
    on: in
  - name: b
    on: out
    at: 40 minutes past
    windows: [{from: 2027-04-08 1200 UTC, until: 2027-04-08 1100 UTC}]
  - name: c
    on: in
    opens: [{from: 0900, every: 30 min}, {days: monday}, {at: ["0900"], every: 30 min}, {from: 0900, until: 1000, days: mon-xyz}]
    shut: [{from: 0800, until: 0800}]`);
    const issues = issuesOf(text);
    expect(issues.map(({ path, code }) => `${path} ${code}`)).toEqual([
      "gates[0].zone zone-unknown",
      "gates[0].wait out-of-range",
      "gates[0].opens[0] hours-without-length",
      "gates[0].opens[1].at[0] date-not-real",
      "gates[1] gate-never-opens",
      "gates[2].name name-twice",
      "gates[2].at key-out-of-place",
      "gates[2].windows[0].until times-upside-down",
      "gates[3].opens[0].until missing-key",
      "gates[3].opens[1] choose-one",
      "gates[3].opens[2].every key-out-of-place",
      "gates[3].opens[3].days unknown-word",
      "gates[3].shut[0] hours-without-length",
    ]);
    for (const one of issues) expect(one.whatToDo).toMatch(/\.$/);
  });

  it("ask for what a gate is held against", () => {
    expect(codesOf("  - {name: a, on: in, clearance: 12 m, opens: [{from: 0700, until: 0900}]}")).toEqual([
      "gates[0].clearance missing-key",
    ]);
    expect(codesOf("  - {name: a, on: in, clearance: 12 m, light: daylight}")).toEqual([
      "gates[0].clearance missing-key",
      "gates[0].clearance key-out-of-place",
    ]);
    expect(codesOf("  - {name: a, on: in, at: 20 min, light: daylight}")).toEqual([]);
    expect(codesOf("  - {name: a, on: out, light: daylight, shut: [{from: 0700, until: 0900}]}")).toEqual([
      "gates[0].shut key-out-of-place",
    ]);
    expect(codesOf("  - {name: a, on: out, opens: [{from: 0700, until: 0900}], office: {}}")).toEqual(["gates[0].office key-out-of-place"]);
    expect(codesOf("  - {name: a, on: in, light: daylight, onHolidays: [{from: 0700, until: 0900}]}")).toEqual([
      "gates[0].onHolidays key-out-of-place",
    ]);
    expect(
      codesOf(
        "  - {name: a, on: in, sill: {depth: 1 m, underKeel: 0.5 m, heights: [{at: 2027-04-08 1200 UTC, height: 1 m}, {at: 2027-04-08 1430 UTC, height: 2 m}, {at: 2027-04-08 1430 UTC, height: 2 m}]}}",
      ),
    ).toEqual(["gates[0].sill.heights[1] gate-heights-apart", "gates[0].sill.heights[2] times-upside-down"]);
    expect(codesOf("  - {name: a, on: in, opens: [{from: 0700, until: 0900}], office: {notice: {least: 24 h, most: 24 h}}}")).toEqual([
      "gates[0].office.notice.most times-upside-down",
    ]);
  });

  it("are none where none are given", () => {
    expect(good(EXAMPLE).passage.gates).toEqual([]);
    expect(readPassage(withGates("  []"), { name: "p" }).ok).toBe(false);
  });
});
