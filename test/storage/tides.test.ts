import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readWorldTides } from "../../src/atlas/index.ts";
import { prepare } from "../../src/core/plan/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import { tideNamed } from "../../src/core/water/index.ts";
import { openPassage } from "../../src/storage/index.ts";
import { temporaryFolders } from "./temporary-folder.ts";

const newFolder = temporaryFolders();

async function opened(more: string, water = "{uniform: {set: 215, rate: 1 kn}}") {
  const path = join(newFolder(), "passage.yaml");
  writeFileSync(
    path,
    `athwart: passage/1
name: T
zones: {ship: UTC-8}
boat: {name: B, goes: power, power: {speed: 5 kn}}
route:
  from: {name: A, position: 33 24.0S 118 57.0W}
  to: {name: Z, position: 33 48.7S 118 02.2W}
land: {coast: none}
water: {sources: [${water}]}
weather: {sources: [{periods: [{from: 2027-05-10 0000, until: 2027-05-12 0000, wind: W 8-12}]}]}
limits: {wind: {happy: 14 kn, never: 22 kn}}
${more}`,
  );
  return openPassage(path);
}

const issuesOf = (result: Awaited<ReturnType<typeof opened>>) =>
  result.ok ? [] : result.issues.map(({ path, code }) => `${path} ${code}`);

describe("a passage's tides", () => {
  it("that ship are filled in when it is opened, as plain data that threads can be handed, and tell what the atlas tells", async () => {
    const result = await opened(
      'tides: [{name: Far, station: "noaa/9413450"}, {name: Cove, position: 33 24S 118 57W, datum: LAT, secondary: {of: noaa/9413450, highWater: {later: 20 min, ratio: 1.1}, lowWater: {ratio: 1.1}}}]\n',
    );
    if (!result.ok) throw new Error(JSON.stringify(result.issues));
    const { prepared, gathered } = result.value;
    const atlas = readWorldTides().tide("noaa/9413450");
    if (!atlas.ok) throw new Error("no station");
    const [from, until] = [epochSeconds(1_809_000_000), epochSeconds(1_809_100_000)];
    const own = tideNamed(prepared.tides, "Far")!.highsAndLows(from, until);
    expect(own).toEqual(atlas.value.highsAndLows(from, until));
    expect(own.length).toBeGreaterThan(2);
    const high = own.find(({ kind }) => kind === "high")!;
    const cove = tideNamed(prepared.tides, "Cove")!.highsAndLows(from, until);
    expect(cove.find(({ kind, at }) => kind === "high" && Math.abs(at - high.at - 1200) < 1)?.heightMetres).toBeCloseTo(
      1.1 * high.heightMetres,
      9,
    );
    expect(tideNamed(prepared.tides, "elsewhere")).toBeNull();
    const again = prepare(structuredClone(prepared.passage), gathered);
    expect(again.ok && tideNamed(again.value.tides, "Far")!.highsAndLows(from, until)).toEqual(own);
  });

  it("that are no station's, or several stations', are told at their key", async () => {
    expect(issuesOf(await opened("tides: [{name: X, station: Nowhere at all}]\n"))).toEqual(["tides[0].station tide-station-unknown"]);
    expect(issuesOf(await opened("tides: [{name: X, station: Newport}]\n"))).toEqual(["tides[0].station tide-station-several"]);
    expect(
      issuesOf(
        await opened(
          "tides: [{name: X, position: 33 24S 118 57W, datum: LAT, secondary: {of: Nowhere at all, highWater: {ratio: 1}, lowWater: {ratio: 1}}}]\n",
        ),
      ),
    ).toEqual(["tides[0].secondary.of tide-station-unknown"]);
  });

  it("may not be told from a station that is itself told from another", async () => {
    const atlas = readWorldTides();
    const secondary = atlas.near({ latitudeDeg: 48, longitudeDeg: -123 }, 60).find(({ station }) => station.referenceId !== null)!.station;
    expect(
      issuesOf(
        await opened(
          `tides: [{name: X, position: 33 24S 118 57W, datum: LAT, secondary: {of: "${secondary.id}", highWater: {ratio: 1}, lowWater: {ratio: 1}}}]\n`,
        ),
      ),
    ).toEqual(["tides[0].secondary.of tide-reference-differs"]);
    const itself = await opened(`tides: [{name: X, station: "${secondary.id}"}]\n`);
    expect(itself.ok && itself.value.prepared.tides[0]?.tide.reference?.id).toBe(secondary.referenceId);
  });
});

describe("streams as a passage's water", () => {
  const stream = (more: string) =>
    `streams: [{name: S, position: 33 36S 118 30W, flood: 60, ${more}constants: [{name: S2, rate: 2 kn, phase: 90}]}]\n`;

  it("need a radius", async () => {
    expect(issuesOf(await opened(stream(""), "{streams: [all]}"))).toEqual(["water.sources[0] source-lacks-quantity"]);
    const result = await opened(stream("within: 29 nm, "), "{streams: [all]}");
    expect(issuesOf(result)).toEqual([]);
    expect(result.ok && result.value.prepared.current.covers).toBeNull();
  });

  it("are added to another source; a sum's file that isn't there is told at its part", async () => {
    const result = await opened(stream("within: 29 nm, "), "{sum: [{uniform: {set: 60, rate: 0.5 kn}}, {streams: [S]}]}");
    if (!result.ok) throw new Error(JSON.stringify(result.issues));
    const { prepared } = result.value;
    const sampler = prepared.current.onPlane(prepared.plane);
    const { xMetres, yMetres } = prepared.plane.toPlane({ latitudeDeg: -33.6, longitudeDeg: -118.5 });
    const out = new Float64Array(2);
    sampler.sampleInto(out, xMetres, yMetres, Date.parse("2027-05-10T03:00Z") / 1000);
    expect(Math.hypot(out[0]!, out[1]!) / 0.514444).toBeCloseTo(2.5, 3);
    expect(issuesOf(await opened(stream(""), "{sum: [{uniform: {set: 60, rate: 0.5 kn}}, {file: nothing.nc}]}"))).toEqual([
      "water.sources[0].sum[1] file-not-opened",
    ]);
  });

  it("a table by hours without ranges is told when it is opened", async () => {
    const hours = Array.from({ length: 13 }, (_, i) => `{hour: ${i - 6}, set: 60, springs: 2 kn, neaps: 1 kn}`).join(", ");
    const more = `tides: [{name: P, position: 33 24S 118 57W, datum: LAT, meanLevel: 1 m, constants: [{name: K1, amplitude: 1 m, phase: 0}]}]
streams: [{name: S, position: 33 36S 118 30W, flood: 60, byHours: {of: P, table: [${hours}]}}]
`;
    expect(issuesOf(await opened(more))).toEqual(["streams[0].byHours stream-range-missing"]);
  });
});
