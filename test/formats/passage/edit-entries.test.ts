import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Parsed } from "../../../src/core/answers/index.ts";
import { editEntries, nameFirst, type PassageDocument, type PassageEdit, readPassage } from "../../../src/formats/passage/index.ts";

const TEXT = readFileSync("demo/morrel/passage.yaml", "utf8");

function had<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return parsed.value;
}

const read = (text: string): PassageDocument => had(readPassage(text, { name: "p" }));
const DEMO = read(TEXT);
const edit = (document: PassageDocument, ...edits: PassageEdit[]): string => had(editEntries(document, edits)).text;
const codesOf = (parsed: Parsed<unknown>): string[] => (parsed.ok ? [] : parsed.issues.map((one) => one.code));

/** The lines that differ, `-` as they were, `+` as they are. */
function difference(before: string, after: string): string[] {
  const [old, now] = [before.split("\n"), after.split("\n")];
  return [
    ...old.filter((line) => !now.includes(line)).map((line) => `-${line}`),
    ...now.filter((line) => !old.includes(line)).map((line) => `+${line}`),
  ];
}

describe("changes to a passage's entries", () => {
  it("touch nothing else: not the comment on the line, not a space", () => {
    const after = edit(DEMO, { path: "limits.seaHeight.never", typed: "2.35 m" }, { path: "leave.from", typed: "2027-04-06 0900" });
    expect(difference(TEXT, after)).toEqual([
      "-  seaHeight: {happy: 1.2 m, never: 2.1 m}",
      "-  from: 2027-04-06 0800               # the letter has come, the boat is ready",
      "+  seaHeight: {happy: 1.2 m, never: 2.35 m}",
      "+  from: 2027-04-06 0900               # the letter has come, the boat is ready",
    ]);
  });

  it("set in what isn't there yet, in braces where a mapping is missing", () => {
    const after = edit(
      DEMO,
      { path: "limits.wind.tolerated", typed: "20 min" },
      { path: "limits.eyeball.sunAltitude.happy", typed: "30 deg" },
      { path: "limits.eyeball.sunAltitude.never", typed: "15 deg" },
    );
    expect(difference(TEXT, after)).toEqual([
      "-  wind: {happy: 14 kn, never: 22 kn}",
      "+  wind: {happy: 14 kn, never: 22 kn, tolerated: 20 min}",
      "+  eyeball: {sunAltitude: {happy: 30 deg, never: 15 deg}}",
    ]);
  });

  it("take entries out, with the mappings that they leave empty", () => {
    expect(difference(TEXT, edit(DEMO, { path: "limits.gust", typed: null }))).toEqual(["-  gust: {happy: 18 kn, never: 29 kn}"]);
    const both = edit(DEMO, { path: "limits.gust.happy", typed: null }, { path: "limits.gust.never", typed: null });
    expect(difference(TEXT, both)).toEqual(["-  gust: {happy: 18 kn, never: 29 kn}"]);
    expect(edit(read(both), { path: "limits.gust.never", typed: "29 kn" }, { path: "limits.gust.happy", typed: "18 kn" })).toContain(
      "  gust: {never: 29 kn, happy: 18 kn}\n",
    );
  });

  it("hold together: none is made where one can't be, or where what comes of them is no whole passage", () => {
    expect(
      codesOf(
        editEntries(DEMO, [
          { path: "boat.name", typed: "Sorrel" },
          { path: "boat.keel", typed: null },
        ]),
      ),
    ).toEqual(["no-such-entry"]);
    expect(codesOf(editEntries(DEMO, [{ path: "limits.gust.never", typed: null }]))).toEqual(["missing-key"]);
    expect(codesOf(editEntries(DEMO, [{ path: "limits.weather.happy", typed: "good" }]))).toEqual(["unknown-key"]);
    expect(codesOf(editEntries(DEMO, [{ path: "limits", typed: "none" }]))).toEqual(["no-such-entry"]);
    expect(codesOf(editEntries(DEMO, [{ path: "boat.name.first", typed: "x" }]))).toEqual(["no-such-entry"]);
    expect(codesOf(editEntries(DEMO, [{ path: "", typed: "x" }]))).toEqual(["no-such-entry"]);
  });

  it("write what needs quotes in quotes", () => {
    const names = ["a: b # c", "{x}", "- y", "'", '"', "yes: no", "#", "[", "a, b"];
    for (const name of names) expect(read(edit(DEMO, { path: "boat.name", typed: name })).passage.boat.name).toBe(name);
    for (const name of names) expect(read(edit(DEMO, { path: "refuges[0].name", typed: name })).data.refuges?.[0]?.name).toBe(name);
  });

  it("keep a JSON file JSON", () => {
    const text = JSON.stringify(DEMO.data, null, 2);
    const after = edit(
      read(text),
      { path: "limits.visibility.happy", typed: "5 nm" },
      { path: "limits.visibility.never", typed: "1 nm" },
      { path: "limits.gust", typed: null },
    );
    expect(JSON.parse(after).limits.visibility).toEqual({ happy: "5 nm", never: "1 nm" });
    expect(JSON.parse(after).limits.gust).toBeUndefined();
  });

  it("made and made back give the same text, whatever is typed", () => {
    const paths = ["limits.wind.never", "boat.name", "route.from.name", "anchorage.openTo[0].from", "water.whereUnknown"];
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.string({ minLength: 1, maxLength: 30, unit: "binary" }), (path, typed) => {
        const changed = editEntries(DEMO, [{ path, typed }]);
        if (!changed.ok) {
          expect(changed.issues.length).toBeGreaterThan(0);
          return;
        }
        const old = path
          .split(/[.[\]]+/)
          .filter((step) => step !== "")
          .reduce<unknown>((at, step) => (at as Record<string, unknown>)[step], DEMO.data);
        const back = edit(changed.value, { path, typed: String(old) });
        expect(read(back).data).toEqual(DEMO.data);
      }),
      { numRuns: 200 },
    );
  });

  it("keep line breaks as they are", () => {
    const crlf = TEXT.replaceAll("\n", "\r\n");
    const after = edit(read(crlf), { path: "limits.wind.never", typed: "24 kn" });
    expect(after).toBe(crlf.replace("happy: 14 kn, never: 22 kn", "happy: 14 kn, never: 24 kn"));
  });
});

describe("a file named as the first source", () => {
  const first = (document: PassageDocument, ...named: ["water" | "weather", "file" | "letter", string]) =>
    had(nameFirst(document, ...named));

  it("is set in before the others, quoted where it must be", () => {
    expect(first(DEMO, "water", "file", "new.nc").text).toBe(
      TEXT.replace("    - file: current.nc\n", "    - file: new.nc\n    - file: current.nc\n"),
    );
    expect(first(DEMO, "water", "file", "a: b #1.nc").passage.waterSources[0]).toEqual({ kind: "files", files: ["a: b #1.nc"] });
  });

  it("that is a source already is moved, with its own remarks and keys", () => {
    const moved = first(DEMO, "weather", "letter", "letter.txt");
    expect(moved.passage.weatherSources.map((one) => one.kind)).toEqual(["letter", "files"]);
    expect(moved.text).toMatch(/- letter: letter\.txt +# the sea.*\n +strikeOut: \[5\] .*\n +- file: wind\.grib2/);
    expect(first(moved, "weather", "file", "wind.grib2").text).toBe(TEXT);
    expect(first(DEMO, "weather", "file", "wind.grib2").text).toBe(TEXT);
  });

  it("is set into lists in brackets, and into JSON", () => {
    const flow = read(TEXT.replace("  sources:\n    - file: current.nc\n", "  sources: [{file: current.nc}]\n"));
    expect(first(flow, "water", "file", "new.nc").text).toContain("sources: [{file: new.nc}, {file: current.nc}]");
    expect(first(first(flow, "water", "file", "new.nc"), "water", "file", "current.nc").text).toContain(
      "sources: [{file: current.nc}, {file: new.nc}]",
    );
    const json = first(read(JSON.stringify(DEMO.data)), "weather", "letter", "new.txt").text;
    expect(JSON.parse(json).weather.sources[0]).toEqual({ letter: "new.txt" });
  });
});
