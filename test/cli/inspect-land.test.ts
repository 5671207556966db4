import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { at, DEMO, run, runJson } from "./run.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "athwart-"));
});
afterAll(async () => await rm(folder, { recursive: true }));

const file = async (name: string, text: string): Promise<string> => {
  const path = join(folder, name);
  await writeFile(path, text);
  return path;
};

const square = (west: number, south: number, size: number) => [
  [west, south],
  [west + size, south],
  [west + size, south + size],
  [west, south + size],
  [west, south],
];
const feature = (properties: object | null, coordinates: unknown) => ({
  type: "Feature",
  properties,
  geometry: { type: "Polygon", coordinates },
});

const DRAWN = {
  type: "FeatureCollection",
  features: [
    feature({ name: "Lower Skerry" }, [square(3, 50, 1), square(3.4, 50.4, 0.2)]),
    feature({ name: "the wreck", kind: "keptOut" }, [square(5, 50.5, 0.1)]),
    feature(null, [square(4.5, 51, 0.25)]),
  ],
};

describe("inspect, of a GeoJSON file", () => {
  it("tells areas, kinds, names and extent", async () => {
    const { code, out } = await run("inspect", await file("any-name.txt", JSON.stringify(DRAWN)));
    expect(code).toBe(0);
    const plain = out.replace(/\s+/g, " ");
    expect(plain).toContain("Land and hazards (GeoJSON), ");
    expect(plain).toContain("3 areas, 16 corners in all. It reaches from 50°00.0'N to 51°15.0'N, 003°00.0'E eastward to 005°06.0'E.");
    expect(plain).toContain("Land, 2 areas: Lower Skerry; 1 without a name.");
    expect(plain).toContain("To keep out of, 1 area: the wreck.");
  });

  it("tells the same as JSON", async () => {
    const answer = await runJson("inspect", await file("drawn.geojson", JSON.stringify(DRAWN)));
    expect(at(answer, "files", 0, "kind")).toBe("land");
    expect(at(answer, "files", 0, "land")).toEqual({
      extent: { southDeg: 50, northDeg: 51.25, westDeg: 3, eastDeg: 5.1 },
      areas: [
        { kind: "land", name: "Lower Skerry", corners: 8, holes: 1, extent: { southDeg: 50, northDeg: 51, westDeg: 3, eastDeg: 4 } },
        { kind: "keptOut", name: "the wreck", corners: 4, holes: 0, extent: { southDeg: 50.5, northDeg: 50.6, westDeg: 5, eastDeg: 5.1 } },
        { kind: "land", name: null, corners: 4, holes: 0, extent: { southDeg: 51, northDeg: 51.25, westDeg: 4.5, eastDeg: 4.75 } },
      ],
    });
  });

  it("reads the demo's, and one longer than what a person types", async () => {
    expect((await run("inspect", `${DEMO}/land.geojson`)).out).toContain("Tavora");
    const features = Array.from({ length: 15_000 }, (_, i) =>
      feature({ name: `rock ${i}` }, [square(3 + (i % 150) / 100, 50 + i / 15_000, 0.001)]),
    );
    const { code, out } = await run("inspect", await file("long.json", JSON.stringify({ type: "FeatureCollection", features })));
    expect([code, out]).toEqual([0, expect.stringContaining("15000 areas")]);
    expect(out.replace(/\s+/g, " ")).toContain("14988 more with a name");
  });

  it("says everything that is wrong with it; JSON of another kind is called by what it is", async () => {
    const line = { type: "Feature", properties: { name: "a track" }, geometry: { type: "LineString", coordinates: [] } };
    const { code, err } = await run("inspect", await file("line.geojson", JSON.stringify({ ...DRAWN, features: [line, line] })));
    expect(code).toBe(2);
    for (const what of ["features[0]", "features[1]", "a LineString (a track)", "land-not-an-area"]) expect(err).toContain(what);
    const other = await run("inspect", await file("other.json", '{"type": "Topology"}'));
    expect(other).toMatchObject({ code: 2, err: expect.stringContaining("file-not-recognised") });
  });
});
