import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { DEMO, DEPARTURE, runJson } from "./run.ts";

interface Section {
  /** What each documented key refers to: a shared section's name, or nothing. */
  readonly keys: ReadonlyMap<string, string | null>;
}

/** The sections of the page with the keys of their tables. */
function sectionsOf(page: string): ReadonlyMap<string, Section> {
  const sections = new Map<string, Section>();
  for (const part of page.split(/^## /m).slice(1)) {
    const [title = "", ...lines] = part.split("\n");
    const keys = new Map<string, string | null>();
    for (const line of lines) {
      const row = /^\| `([^`]+)` \| (.*) \|$/.exec(line);
      if (row?.[1] === undefined) continue;
      if (keys.has(row[1])) throw new Error(`${title}: ${row[1]} stands twice`);
      keys.set(row[1], /^→ \[([^\]]+)\]/.exec(row[2] ?? "")?.[1] ?? null);
    }
    sections.set(title.trim(), { keys });
  }
  return sections;
}

const sections = sectionsOf(readFileSync(new URL("../../docs/json.md", import.meta.url), "utf8"));

/** The keys of an answer that its section doesn't have, with their whole paths. */
function undocumented(value: unknown, section: string, inside = "", whole = ""): string[] {
  const known = sections.get(section);
  if (known === undefined) return [`no section ${section}`];
  if (Array.isArray(value)) return value.flatMap((one) => undocumented(one, section, `${inside}[]`, `${whole}[]`));
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const path = inside === "" ? key : `${inside}.${key}`;
    const full = whole === "" ? key : `${whole}.${key}`;
    // A list that may be null is documented as a list.
    const named = Array.isArray(inner) || (inner === null && !known.keys.has(path)) ? `${path}[]` : path;
    if (!known.keys.has(named)) return [full];
    const shared = known.keys.get(named) ?? null;
    if (shared === null) return undocumented(inner, section, path, full);
    const entries = Array.isArray(inner) ? inner : [inner];
    return entries.flatMap((one) => undocumented(one, shared, "", full));
  });
}

const sum = ["--speed", "6 kn", "--set", "210", "--rate", "2 kn"];

describe("docs/json.md", () => {
  it.each([
    ["leave", ["leave", "--demo"]],
    ["cross", ["cross", "--demo", "--at", DEPARTURE]],
    ["cross", ["cross", "--demo", "--at", "2027-04-06 1400"]],
    ["cross", ["cross", "--demo", "--at", "2027-04-14 0300"]],
    ["cross", ["cross", "examples/traffic-lanes/passage.yaml", "--at", "2027-05-11 0600"]],
    ["cross", ["cross", "examples/bar-and-bridge/passage.yaml", "--at", "2027-04-09 0300"]],
    ["leave", ["leave", "examples/bar-and-bridge/passage.yaml"]],
    ["refuges", ["refuges", "--demo", "--at", DEPARTURE]],
    ["refuges", ["refuges", "--demo", "--at", "2027-04-08 1600"]],
    ["refuges", ["refuges", "--demo", "--at", "2027-04-14 0300"]],
    ["inlet", ["inlet", "examples/inlet/passage.yaml", "--gate", "the bar of Gull Narrow"]],
    ["inlet", ["inlet", "examples/bar-and-bridge/passage.yaml", "--gate", "the Ansa bridge"]],
    ["cross", ["cross", "examples/inlet/passage.yaml", "--at", "2027-04-09 0300"]],
    ["inspect", ["inspect", `${DEMO}/wind.grib2`, `${DEMO}/current.nc`, `${DEMO}/letter.txt`, `${DEMO}/passage.yaml`, "--demo"]],
    ["inspect", ["inspect", `${DEMO}/wind.grib2`, `${DEMO}/land.geojson`]],
    ["steer", ["steer", "--track", "090", ...sum, "--variation", "10W", "--deviation", "2E", "--distance", "45 nm"]],
    ["steer", ["steer", "--track", "090", "--speed", "2 kn", "--set", "270", "--rate", "3 kn"]],
    ["steer", ["steer", "--heading", "090", ...sum, "--near", "33S 118W", "--at", "2031-01-01 0000 UTC"]],
    ["sky", ["sky", "--demo"]],
    ["sky", ["sky", "--near", "69 39N 018 57E", "--on", "2027-06-21", "--zone", "Europe/Oslo"]],
    ["tide", ["tide", "examples/tidal-streams/passage.yaml", "--tide", "Sallow Harbour", "--on", "2027-05-10"]],
    ["stream", ["tide", "examples/tidal-streams/passage.yaml", "--stream", "off Sallow Head", "--on", "2027-05-10"]],
    ["stream", ["tide", "examples/tidal-streams/passage.yaml", "--stream", "Middle Deep", "--on", "2027-05-10"]],
    ["inspect", ["inspect", "examples/tidal-streams/passage.yaml"]],
    ["tide", ["tide", "--near", "48 07N 123 27W", "--on", "2027-04-08"]],
    ["variation", ["variation", "--near", "33 48.7S 118 02.2W", "--at", "2027-04-08"]],
    ["variation", ["variation", "--near", "33 48.7S 118 02.2W", "--at", "2031-01-01"]],
    ["wave", ["wave", "--wind", "NE 20", "--fetch", "40 nm", "--for", "6 h", "--set", "060", "--rate", "3 kn"]],
    ["wave", ["wave", "--height", "2 ft", "--period", "3.5 s", "--from", "045", "--set", "045", "--rate", "3 kn"]],
    [
      "wave",
      ["wave", "--height", "4 ft", "--period", "5 s", "--from", "010", "--boat-speed", "6 kn", "--course", "170", "--boat-length", "11 m"],
    ],
    ["wave", ["wave", "--height", "2 m", "--period", "9.5 s", "--from", "300", "--total"]],
    ["anchor", ["anchor", "--depth", "5 m", "--bow", "1.3 m", "--loa", "12 m", "--rode", "35 m", "--chain", "10 mm", "--draught", "1.7 m"]],
    ["anchor", ["anchor", "examples/two-anchorages/passage.yaml"]],
    ["issues", ["leave", "no-such-file.yaml"]],
  ])("has every key of %s: %j", async (name, words) => {
    const answer = await runJson(...words);
    expect(answer["schema"]).toBe(`athwart.${name}/1`);
    expect([...new Set(undocumented(answer, `athwart.${name}/1`))]).toEqual([]);
  });

  it("a key that it lacks is found, in shared shapes too", () => {
    const strange = { schema: "x", extra: 1, passage: { name: "x", from: { depthMetres: 2 } } };
    expect(undocumented(strange, "athwart.leave/1")).toEqual(["extra", "passage.from.depthMetres"]);
  });
});

describe("the answers themselves", () => {
  it("hold no number that is none, and every instant in UTC", async () => {
    for (const words of [
      ["leave", "--demo"],
      ["cross", "--demo", "--at", DEPARTURE],
      ["refuges", "--demo", "--at", "2027-04-08 1600"],
    ]) {
      const text = JSON.stringify(await runJson(...words));
      expect(text).not.toMatch(/NaN|Infinity|undefined/);
      const instants = text.match(/"\d{4}-\d\d-\d\dT[^"]*"/g) ?? [];
      expect(instants.length).toBeGreaterThan(10);
      expect(instants.filter((one) => !/^"\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d)?Z"$/.test(one))).toEqual([]);
    }
  });
});
