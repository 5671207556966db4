import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { noAnswerJson } from "../../src/api/index.ts";
import { crossAt } from "../../src/core/plan/index.ts";
import { type OpenedPassage, openPassage } from "../../src/storage/index.ts";
import { assumptionsInWords, noAnswerInWords } from "../../src/words/index.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "athwart-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** From the Strait of Dover's northern side to its southern one, unless told. */
const DOVER = { from: "51 05.0N 1 25.0E", to: "50 54.0N 1 34.0E" };

async function open(land: string, { from, to }: { from: string; to: string } = DOVER, invented = "no") {
  const path = join(folder, "passage.yaml");
  writeFileSync(
    path,
    `athwart: passage/1
name: Over
invented: ${invented}
zones: {ship: UTC}
boat: {name: B, goes: power, power: {speed: 6 kn}}
route:
  from: {name: the first buoy, position: ${from}}
  to: {name: the last buoy, position: ${to}}
${land}
water: {sources: [{uniform: {set: 40, rate: 1 kn}}]}
weather: {sources: [{periods: [{from: 2027-06-01 0000, until: 2027-06-03 0000, wind: NE 8-12}]}]}
limits: {wind: {happy: 14 kn, never: 22 kn}}
`,
  );
  return await openPassage(path);
}

function prepared(read: Awaited<ReturnType<typeof open>>): OpenedPassage["prepared"] {
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value.prepared;
}

const area = (name: string, kind: string, corners: readonly (readonly [number, number])[]) =>
  JSON.stringify({
    type: "Feature",
    properties: { name, kind },
    geometry: { type: "Polygon", coordinates: [[...corners, corners[0]]] },
  });
const AT = Date.UTC(2027, 5, 1, 6) / 1000;

describe("the land of a passage", () => {
  it("is the world's coastline unless it is told otherwise or invented, and the answer says so", async () => {
    const world = prepared(await open(""));
    expect(world.land?.coast?.name).toContain("GSHHG");
    expect(world.land?.onPlane).not.toBeNull();
    const words = assumptionsInWords(world).join("\n");
    expect(words).toContain("No way leads through the world's coastline (GSHHG 2.3.7, high resolution, of 2017-06-15");
    expect(words).toContain("not for close approach");
    for (const none of [await open("land: {coast: none}"), await open("", DOVER, "yes")]) {
      expect(prepared(none).land).toBeNull();
      expect(assumptionsInWords(prepared(none))).toContain("No land is reckoned: hold every way against the chart.");
    }
    expect(prepared(await open("land: {coast: atlas}", DOVER, "yes")).land?.coast).not.toBeNull();
  });

  it("lets ways across clear water be, and stops those that lead over a headland, by name where it has one", async () => {
    expect(crossAt(prepared(await open("")), AT).advised?.name).toBe("oneHeading");
    // From Dungeness Road to Sandgate the straight line leads over the Ness.
    const ness = { from: "50 53.5N 0 54.0E", to: "51 03.0N 1 07.0E" };
    const held = crossAt(prepared(await open("", ness)), AT).ways.find(({ way }) => way.name === "holdTrack")?.way;
    expect(held?.kind === "fails" && held.why.code).toBe("across-land");
    if (held?.kind !== "fails") return;
    expect(noAnswerInWords(held.why, "UTC")).toMatch(/^runs across land Tue 0[67]:\d\d$/);
    expect(noAnswerJson(held.why).area).toEqual({ kind: "land", name: null });
    writeFileSync(
      join(folder, "own.geojson"),
      area("the range", "keptOut", [
        [1, 50.8],
        [1.3, 50.8],
        [1.3, 51.2],
        [1, 51.2],
      ]),
    );
    const kept = crossAt(prepared(await open("land: {files: [own.geojson]}", { ...DOVER, to: "50 52.0N 0 58.0E" })), AT).ways;
    for (const { way } of kept) {
      expect(way.kind === "fails" && way.why.code).toBe("across-land");
      if (way.kind === "fails" && way.name !== "acrossThenTurn")
        expect(noAnswerInWords(way.why, "UTC")).toContain("runs through the kept-out area the range");
    }
  });

  it("is refused with its cause where a file is wanting, wrong or elsewhere, and where the route ends ashore", async () => {
    const issuesOf = (read: Awaited<ReturnType<typeof open>>) => (read.ok ? [] : read.issues.map(({ path, code }) => `${path} ${code}`));
    expect(issuesOf(await open("land: {files: [nowhere.geojson]}"))).toEqual(["land.files[0] file-not-opened"]);
    writeFileSync(
      join(folder, "line.geojson"),
      JSON.stringify({
        type: "LineString",
        coordinates: [
          [1, 51],
          [2, 51],
        ],
      }),
    );
    expect(issuesOf(await open("land: {files: [line.geojson]}"))).toEqual(["line.geojson land-not-an-area"]);
    // Latitude first lands in the Indian Ocean.
    writeFileSync(
      join(folder, "far.geojson"),
      area("Varne", "keptOut", [
        [50.9, 1.3],
        [51, 1.3],
        [51, 1.4],
      ]),
    );
    expect(issuesOf(await open("land: {coast: none, files: [far.geojson]}"))).toEqual(["land.files[0] land-far-off"]);
    expect(issuesOf(await open("", { ...DOVER, from: "51 08.0N 1 18.0E" }))).toEqual(["route.from.position place-on-land"]);
    expect(issuesOf(await open("land: {coast: sea, file: [x]}"))).toEqual(["land.coast unknown-word", "land.file unknown-key"]);
    expect(issuesOf(await open("land: {files: []}"))).toEqual(["land.files list-too-short"]);
  });
});
