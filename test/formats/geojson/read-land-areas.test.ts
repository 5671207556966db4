import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LandArea, landOn } from "../../../src/core/coast/index.ts";
import { planeAround } from "../../../src/core/earth/index.ts";
import { readLandAreas } from "../../../src/formats/geojson/index.ts";

const square = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
  [0, 0],
];
const feature = (geometry: unknown, properties: unknown = null) => ({ type: "Feature", properties, geometry });
const collection = (...features: unknown[]) => ({ type: "FeatureCollection", features });
const polygon = (...coordinates: unknown[]) => ({ type: "Polygon", coordinates });

function areasOf(value: unknown): readonly LandArea[] {
  const read = readLandAreas(typeof value === "string" ? value : JSON.stringify(value), "land.geojson");
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

function issuesOf(value: unknown): readonly string[] {
  const read = readLandAreas(typeof value === "string" ? value : JSON.stringify(value), "land.geojson");
  if (read.ok) throw new Error("it was read");
  for (const one of read.issues) expect(one.whatToDo).not.toBe("");
  return read.issues.map((one) => `${one.path}: ${one.code}: ${one.message}`);
}

describe("GeoJSON", () => {
  it("is read as a collection, a feature or a bare geometry", () => {
    const bare = areasOf(polygon(square));
    expect(bare).toEqual([{ kind: "land", name: null, rings: [Float64Array.of(0, 0, 1, 0, 1, 1, 0, 1)] }]);
    for (const value of [
      feature(polygon(square)),
      collection(feature(polygon(square))),
      { type: "MultiPolygon", coordinates: [[square]] },
    ]) {
      expect(areasOf(value)).toEqual(bare);
    }
    expect(areasOf(feature({ type: "GeometryCollection", geometries: [polygon(square), polygon(square)] }))).toHaveLength(2);
    expect(areasOf(`\uFEFF${JSON.stringify(polygon(square))}`)).toEqual(bare);
  });

  it("gives names and kinds; a number is a name, blank is none, left out is land", () => {
    const about = (properties: unknown) => {
      const { name, kind } = areasOf(feature(polygon(square), properties))[0] as LandArea;
      return [name, kind];
    };
    expect(about({ name: " Harrier Reef ", kind: "keptOut" })).toEqual(["Harrier Reef", "keptOut"]);
    expect(about({ name: 7, kind: null, depth: 3 })).toEqual(["7", "land"]);
    expect(about({ name: " " })).toEqual([null, "land"]);
    expect(issuesOf(feature(polygon(square), { kind: "keptout" }))).toEqual([
      'land.geojson properties.kind: land-kind: kind is "keptout", not land or keptOut; did you mean keptOut?',
    ]);
    expect(issuesOf(feature(polygon(square), { name: ["a"] }))[0]).toContain("land-shape");
  });

  it("may turn either way, have holes, heights, repeated corners and open rings", () => {
    const hole = [
      [0.2, 0.2],
      [0.4, 0.2],
      [0.4, 0.4],
      [0.2, 0.2],
    ];
    const [area] = areasOf(polygon([...square].reverse(), hole));
    expect(area?.rings.map((ring) => ring.length)).toEqual([8, 6]);
    const turning = (ring: Float64Array) => {
      let sum = 0;
      for (let i = 0, k = ring.length - 2; i < ring.length; k = i, i += 2) sum += ring[k]! * ring[i + 1]! - ring[i]! * ring[k + 1]!;
      return Math.sign(sum);
    };
    expect(area?.rings.map(turning)).toEqual([1, -1]);
    const odd = [
      [0, 0, 12.5],
      [0, 0, 13],
      [1, 0, 0],
      [1, 1, 0, 9],
      [0, 1],
    ];
    expect(areasOf(polygon(odd))[0]?.rings).toEqual([Float64Array.of(0, 0, 1, 0, 1, 1, 0, 1)]);
  });

  it("joins what was cut apart at 180°, holes on the cut too", () => {
    // One area from 178° E to 178° W with a hole from 179.5° E to 179.5° W, cut as RFC 7946 shows in section 3.1.9.
    const east = [
      [178, -18],
      [180, -18],
      [180, -17.4],
      [179.5, -17.4],
      [179.5, -16.6],
      [180, -16.6],
      [180, -16],
      [178, -16],
      [178, -18],
    ];
    const west = [
      [-180, -18],
      [-178, -18],
      [-178, -16],
      [-180, -16],
      [-180, -16.6],
      [-179.5, -16.6],
      [-179.5, -17.4],
      [-180, -17.4],
      [-180, -18],
    ];
    const areas = areasOf(feature({ type: "MultiPolygon", coordinates: [[east], [west]] }, { name: "Ring Isle" }));
    expect(areas).toHaveLength(1);
    const [area] = areas;
    expect(area?.name).toBe("Ring Isle");
    expect(area?.rings).toHaveLength(2);
    const plane = planeAround({ latitudeDeg: -17, longitudeDeg: 180 }, 150_000);
    const land = landOn(plane, areas);
    const at = (latitudeDeg: number, longitudeDeg: number) => plane.toPlane({ latitudeDeg, longitudeDeg });
    const [middle, south] = [at(-17, 180), at(-17.7, 180)];
    expect(land?.contains(middle.xMetres, middle.yMetres)).toBe(false);
    expect(land?.contains(south.xMetres, south.yMetres)).toBe(true);
    // The cut is no edge any more: from the middle of the land south of the hole the nearest is 0.3° off.
    expect(land?.edgeDistanceMetres(south.xMetres, south.yMetres, 1e5)).toBeGreaterThan(33_000);
    // Uncut, as many programs write it, the area is the same.
    const uncut = areasOf(
      polygon(
        [
          [178, -18],
          [-178, -18],
          [-178, -16],
          [178, -16],
          [178, -18],
        ],
        [
          [179.5, -17.4],
          [-179.5, -17.4],
          [-179.5, -16.6],
          [179.5, -16.6],
          [179.5, -17.4],
        ],
      ),
    );
    const same = landOn(plane, uncut);
    for (let lon = 177.9; lon < 182.1; lon += 0.11) {
      for (let lat = -18.05; lat < -15.9; lat += 0.11) {
        const place = plane.toPlaneIfOn({ latitudeDeg: lat, longitudeDeg: lon > 180 ? lon - 360 : lon });
        if (place !== null) expect(land?.contains(place.xMetres, place.yMetres)).toBe(same?.contains(place.xMetres, place.yMetres));
      }
    }
  });

  it("leaves pieces on either side of 180° that do not meet as they are, less the cut they share", () => {
    const east = [
      [179, 0],
      [180, 0],
      [180, 1],
      [179, 1],
      [179, 0],
    ];
    const west = [
      [-180, 2],
      [-179, 2],
      [-179, 3],
      [-180, 3],
      [-180, 2],
    ];
    expect(areasOf({ type: "MultiPolygon", coordinates: [[east], [west]] })).toHaveLength(2);
    expect(areasOf({ type: "MultiPolygon", coordinates: [[east], [square]] })).toHaveLength(2);
  });

  it("tells everything that is wrong at once, each with its place", () => {
    const issues = issuesOf(
      collection(
        feature(
          polygon([
            [-34, -118.5],
            [-34, -118],
            [-33.5, -118],
            [-34, -118.5],
          ]),
        ),
        feature(
          {
            type: "LineString",
            coordinates: [
              [0, 0],
              [1, 1],
            ],
          },
          { name: "The Wall" },
        ),
        feature(
          polygon([
            [0, 0],
            [2, 2],
            [2, 0],
            [0, 2],
            [0, 0],
          ]),
        ),
        feature(
          polygon(square, [
            [3, 3],
            [4, 3],
            [4, 4],
            [3, 3],
          ]),
        ),
        feature(
          polygon([
            [0, 0],
            [1, 1],
            [0, 0],
          ]),
        ),
        feature(
          polygon([
            [0, 0],
            [1, 1],
            [2, 2],
            [0, 0],
          ]),
        ),
        feature(
          polygon([
            [0, 0],
            ["a", 1],
            [1, 1],
            [0, 0],
          ]),
        ),
        feature(null),
        { type: "Feature" },
        feature(
          polygon(square, [
            [0.5, 0.5],
            [1.5, 0.5],
            [0.5, 0.7],
            [0.5, 0.5],
          ]),
        ),
      ),
    );
    const expected = [
      "features[0].geometry.coordinates[0][0]: land-position: [-34, -118.5] is longitude -34, latitude -118.5: latitude seems to stand first",
      "features[1].geometry: land-not-an-area: this is a LineString (The Wall)",
      "features[2].geometry.coordinates[0]: ring-crosses-itself",
      "features[3].geometry.coordinates[1]: hole-outside: the hole lies outside the outer ring",
      "features[4].geometry.coordinates[0]: ring-too-short: the ring has 2 different corners",
      "features[5].geometry.coordinates[0]: ring-too-short: the ring's corners lie in one line",
      'features[6].geometry.coordinates[0][1]: land-shape: a position is [longitude, latitude], not ["a",1]',
      "features[7].geometry: land-shape: the feature has no geometry: null",
      "features[8].geometry: land-shape: the feature has no geometry: nothing",
      "features[9].geometry.coordinates[1]: hole-outside: the hole crosses another ring",
    ];
    expect(issues).toHaveLength(expected.length);
    for (const [i, text] of expected.entries()) expect(issues[i]).toContain(`land.geojson ${text}`);
  });

  it("refuses what is no such document", () => {
    expect(issuesOf("{")[0]).toContain("land-syntax");
    expect(issuesOf("[1]")[0]).toContain("land-shape");
    expect(issuesOf({ type: "Topology", objects: {} })[0]).toContain('"Topology" is no type that GeoJSON has here');
    expect(issuesOf(collection())[0]).toContain("land-empty");
    expect(issuesOf({ ...polygon(square), crs: { type: "name", properties: { name: "urn:ogc:def:crs:EPSG::3857" } } })[0]).toContain(
      "land-datum",
    );
    expect(areasOf({ ...polygon(square), crs: { type: "name", properties: { name: "urn:ogc:def:crs:OGC:1.3:CRS84" } } })).toHaveLength(1);
    expect(issuesOf("[".repeat(200_000))[0]).toContain("land-syntax");
  });

  it("never throws on any JSON", () => {
    const word = fc.constantFrom(
      "type",
      "features",
      "geometry",
      "coordinates",
      "properties",
      "Polygon",
      "MultiPolygon",
      "Feature",
      "FeatureCollection",
      "GeometryCollection",
      "geometries",
      "kind",
      "name",
      "crs",
    );
    const any = fc.letrec((tie) => ({
      value: fc.oneof(
        { depthSize: "small" },
        fc.double(),
        word,
        fc.constant(null),
        fc.array(tie("value"), { maxLength: 4 }),
        fc.dictionary(word, tie("value")),
      ),
    })).value;
    fc.assert(
      fc.property(any, (value) => {
        const read = readLandAreas(JSON.stringify(value), "x");
        expect(read.ok ? read.value.length : read.issues.length).toBeGreaterThan(0);
      }),
      { numRuns: 500 },
    );
    fc.assert(
      fc.property(
        fc.array(
          fc.array(fc.tuple(fc.double({ min: -360, max: 360, noNaN: true }), fc.double({ min: -90, max: 90, noNaN: true })), {
            maxLength: 8,
          }),
          { maxLength: 3 },
        ),
        (coordinates) => {
          const read = readLandAreas(JSON.stringify(polygon(...coordinates)), "x");
          if (read.ok) landOn(planeAround({ latitudeDeg: 0, longitudeDeg: 0 }, 10_000), read.value);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("reads the demo's land", () => {
    const areas = areasOf(readFileSync(new URL("../../../demo/morrel/land.geojson", import.meta.url), "utf8"));
    expect(areas.map(({ name, kind }) => [name, kind])).toEqual([
      ["Tavora", "land"],
      ["Sarume", "land"],
      ["Harrier Reef", "keptOut"],
    ]);
  });
});
