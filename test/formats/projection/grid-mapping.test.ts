/**
 * Grid mappings by the CF conventions (version 1.11, appendix F) and by PROJ's parameters: the same map, told either way, puts places
 * in the same spot.
 */
import { describe, expect, test } from "vitest";
import { type MapProjection, type MappingAttributes, projectorOf, readGridMapping } from "../../../src/formats/projection/index.ts";
import { WGS84 } from "./maps.ts";

const attributes = (given: Record<string, string | readonly number[]>): MappingAttributes => new Map(Object.entries(given));

function projectionIn(given: Record<string, string | readonly number[]>, metresPerUnit?: number): MapProjection {
  const mapping = readGridMapping(attributes(given), metresPerUnit);
  if (mapping.kind !== "projected") throw new Error(JSON.stringify(mapping));
  return mapping.projection;
}

const SPHERE_6371 = { semiMajorMetres: 6_371_000, semiMinorMetres: 6_371_000 };
const none = { falseEastingMetres: 0, falseNorthingMetres: 0 };

describe("CF's grid mappings", () => {
  test("latitudes and longitudes are no projection", () => {
    expect(readGridMapping(attributes({ grid_mapping_name: "latitude_longitude" }))).toEqual({ kind: "plain" });
  });

  test("a turned pole", () => {
    const given = { grid_mapping_name: "rotated_latitude_longitude", grid_north_pole_latitude: [39.25], grid_north_pole_longitude: [-162] };
    expect(projectionIn(given)).toEqual({ kind: "rotatedPole", southPoleLatitudeDeg: -39.25, southPoleLongitudeDeg: 18, rotationDeg: 0 });
  });

  test("the true pole has the turned longitude that the mapping says", async () => {
    const given = {
      grid_mapping_name: "rotated_latitude_longitude",
      grid_north_pole_latitude: [39.25],
      grid_north_pole_longitude: [-162],
      north_pole_grid_longitude: [35],
    };
    const out = new Float64Array(2);
    expect((await projectorOf(projectionIn(given))).toMapInto(out, 90, 0)).toBe(true);
    expect(out[0]).toBeCloseTo(35, 9);
    expect(out[1]).toBeCloseTo(39.25, 9);
  });

  test("Lambert with one parallel and with two, on a sphere and an ellipsoid", () => {
    const lambert = {
      grid_mapping_name: "lambert_conformal_conic",
      longitude_of_central_meridian: [15],
      latitude_of_projection_origin: [63],
    };
    expect(projectionIn({ ...lambert, standard_parallel: [63], earth_radius: [6371000] })).toEqual({
      kind: "lambertConformal",
      standardLatitude1Deg: 63,
      standardLatitude2Deg: 63,
      originLatitudeDeg: 63,
      originLongitudeDeg: 15,
      earth: SPHERE_6371,
      ...none,
    });
    const two = projectionIn({ ...lambert, standard_parallel: [30, 60], semi_major_axis: [6378137], inverse_flattening: [298.257223563] });
    expect(two).toMatchObject({ standardLatitude1Deg: 30, standardLatitude2Deg: 60, earth: WGS84 });
  });

  test("an inverse flattening of nought is a sphere", () => {
    const given = { grid_mapping_name: "mercator", standard_parallel: [20], semi_major_axis: [6371000], inverse_flattening: [0] };
    expect(projectionIn(given)).toMatchObject({ earth: SPHERE_6371 });
  });

  test("polar stereographic by its parallel; false eastings in the grid's own unit", () => {
    const given = {
      grid_mapping_name: "polar_stereographic",
      straight_vertical_longitude_from_pole: [58],
      latitude_of_projection_origin: [90],
      standard_parallel: [60],
      earth_radius: [6371000],
      false_easting: [100],
      false_northing: [-7],
    };
    expect(projectionIn(given, 1000)).toEqual({
      kind: "polarStereographic",
      pole: "north",
      trueScaleLatitudeDeg: 60,
      originLongitudeDeg: 58,
      earth: SPHERE_6371,
      falseEastingMetres: 100_000,
      falseNorthingMetres: -7000,
    });
  });

  test("the universal polar map's scale 0.994 is true at 81°07', south as north", () => {
    // 81°06'52.3" is the textbook figure for UPS (common practice), on WGS84.
    for (const [origin, expected] of [
      [90, 81.1145],
      [-90, -81.1145],
    ] as const) {
      const given = {
        grid_mapping_name: "stereographic",
        latitude_of_projection_origin: [origin],
        longitude_of_projection_origin: [0],
        scale_factor_at_projection_origin: [0.994],
        semi_major_axis: [6378137],
        inverse_flattening: [298.257223563],
      };
      const projection = projectionIn(given);
      if (projection.kind !== "polarStereographic") throw new Error(projection.kind);
      expect(projection.trueScaleLatitudeDeg).toBeCloseTo(expected, 3);
    }
  });

  test("a scale of 1 at the pole is true at the pole; on a sphere 0.75 is true at 30 degrees", () => {
    const given = {
      grid_mapping_name: "polar_stereographic",
      straight_vertical_longitude_from_pole: [0],
      latitude_of_projection_origin: [90],
      earth_radius: [6371000],
    };
    // A thousandth of a degree off the pole the scale is the same to 1e-10.
    expect(projectionIn({ ...given, scale_factor_at_projection_origin: [1] })).toMatchObject({
      trueScaleLatitudeDeg: expect.closeTo(90, 3),
    });
    expect(projectionIn({ ...given, scale_factor_at_projection_origin: [0.75] })).toMatchObject({
      trueScaleLatitudeDeg: expect.closeTo(30, 9),
    });
    // (1 + sin 60°) / 2 on a sphere.
    expect(projectionIn({ ...given, scale_factor_at_projection_origin: [(1 + Math.sqrt(3) / 2) / 2] })).toMatchObject({
      trueScaleLatitudeDeg: expect.closeTo(60, 9),
    });
  });

  test("Mercator by its scale is the same map as by its parallel", async () => {
    const common = {
      grid_mapping_name: "mercator",
      longitude_of_projection_origin: [110],
      semi_major_axis: [6377397.155],
      semi_minor_axis: [6356078.963],
    };
    const byParallel = await projectorOf(projectionIn({ ...common, standard_parallel: [4.45405154589748] }));
    // The scale 0.997 of a map on Bessel's ellipsoid goes with that parallel (EPSG guidance note 7-2, Mercator variants A and B: MEMORY).
    const byScale = await projectorOf(projectionIn({ ...common, scale_factor_at_projection_origin: [0.997] }));
    const [a, b] = [new Float64Array(2), new Float64Array(2)];
    byParallel.toMapInto(a, -3, 120);
    byScale.toMapInto(b, -3, 120);
    expect(Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!)).toBeLessThan(0.01);
    // The same note's example for variant A: 3°S 120°E is at 5,009,726.58 E 569,150.82 N, with 3,900,000 and 900,000 for the
    // origin (MEMORY).
    expect(Math.abs(b[0]! - 1_109_726.58)).toBeLessThan(0.01);
    expect(Math.abs(b[1]! + 330_849.18)).toBeLessThan(0.01);
  });
});

describe("PROJ's parameters", () => {
  test("stand in where the name is missing or no name of CF's", () => {
    const proj4 = "+proj=stere +lat_0=90 +lon_0=-32 +lat_ts=60 +a=6371000 +b=6371000 +units=m +no_defs";
    const expected = {
      kind: "polarStereographic",
      pole: "north",
      trueScaleLatitudeDeg: 60,
      originLongitudeDeg: -32,
      earth: SPHERE_6371,
      ...none,
    };
    expect(projectionIn({ proj4 })).toEqual(expected);
    expect(projectionIn({ grid_mapping_name: "projection_stere", proj4_string: proj4 })).toEqual(expected);
    expect(projectionIn({ spatial_ref: proj4 })).toEqual(expected);
  });

  test("give CF's mapping the figure of the earth that it leaves out", () => {
    const given = {
      grid_mapping_name: "polar_stereographic",
      straight_vertical_longitude_from_pole: [58],
      longitude_of_projection_origin: [-58],
      latitude_of_projection_origin: [90],
      standard_parallel: [60],
      proj4_string: "+proj=stere +a=6371000 +b=6371000 +lat_0=90 +lat_ts=60 +lon_0=58",
    };
    expect(projectionIn(given)).toMatchObject({ originLongitudeDeg: 58, earth: SPHERE_6371 });
  });

  test.each([
    ["+R=6371000", SPHERE_6371],
    ["+a=6371000 +e=0", SPHERE_6371],
    ["+ellps=WGS84", WGS84],
    ["+datum=WGS84", WGS84],
    ["+a=6378137 +rf=298.257223563", WGS84],
  ])("the earth as %s", (earth, expected) => {
    const { semiMajorMetres, semiMinorMetres } = (
      projectionIn({ proj4: `+proj=lcc +lat_1=63 +lat_0=63 +lon_0=15 ${earth}` }) as { earth: typeof WGS84 }
    ).earth;
    expect(semiMajorMetres).toBe(expected.semiMajorMetres);
    expect(semiMinorMetres).toBeCloseTo(expected.semiMinorMetres, 6);
  });

  test("a turned pole is the same by CF and by PROJ", () => {
    const byProj = projectionIn({ proj4: "+proj=ob_tran +o_proj=longlat +lon_0=-40 +o_lat_p=22 +a=6367470 +e=0" });
    const byCf = projectionIn({
      grid_mapping_name: "rotated_latitude_longitude",
      grid_north_pole_latitude: [22],
      grid_north_pole_longitude: [140],
    });
    expect(byProj).toEqual(byCf);
  });

  test("Mercator without a parallel is true on the equator; Lambert's second parallel and origin may be left out", () => {
    expect(projectionIn({ proj4: "+proj=merc +lon_0=10 +R=6371000" })).toMatchObject({ trueScaleLatitudeDeg: expect.closeTo(0, 6) });
    expect(projectionIn({ proj4: "+proj=lcc +lat_1=63 +lon_0=15 +R=6371000" })).toMatchObject({
      standardLatitude2Deg: 63,
      originLatitudeDeg: 63,
    });
  });
});

describe("what is not read is told in words, never thrown", () => {
  const lambert = {
    grid_mapping_name: "lambert_conformal_conic",
    longitude_of_central_meridian: [15],
    latitude_of_projection_origin: [63],
    standard_parallel: [63],
    earth_radius: [6371000],
  };
  test.each<[string, Record<string, string | readonly number[]>, RegExp]>([
    ["nothing", {}, /has no name/],
    ["a name that isn't known", { grid_mapping_name: "vertical_perspective" }, /"vertical_perspective" is not read/],
    ["no earth", { ...lambert, earth_radius: [] }, /figure of the earth/],
    ["an earth of radius 0", { ...lambert, earth_radius: [0] }, /radius is given as 0/],
    ["no parallel", { ...lambert, standard_parallel: [] }, /no standard parallel/],
    ["a parallel that is no number", { ...lambert, standard_parallel: "sixty" }, /no standard parallel/],
    ["parallels equal and opposite", { ...lambert, standard_parallel: [30, -30] }, /make no cone/],
    ["no upright meridian", { ...lambert, longitude_of_central_meridian: "" }, /stands upright/],
    ["a turned pole nowhere", { grid_mapping_name: "rotated_latitude_longitude" }, /turned pole lies/],
    [
      "a turned pole beyond the pole",
      { grid_mapping_name: "rotated_latitude_longitude", grid_north_pole_latitude: [95], grid_north_pole_longitude: [0] },
      /-95/,
    ],
    [
      "a stereographic map of nowhere near a pole",
      {
        grid_mapping_name: "stereographic",
        latitude_of_projection_origin: [52],
        longitude_of_projection_origin: [5],
        standard_parallel: [52],
        earth_radius: [6371000],
      },
      /about latitude 52/,
    ],
    [
      "a scale that no polar map has",
      {
        grid_mapping_name: "stereographic",
        latitude_of_projection_origin: [90],
        longitude_of_projection_origin: [5],
        scale_factor_at_projection_origin: [1.2],
        earth_radius: [6371000],
      },
      /scale 1.2/,
    ],
    ["Mercator true nowhere", { grid_mapping_name: "mercator", earth_radius: [6371000] }, /where its scale is true/],
    ["PROJ's map that isn't known", { proj4: "+proj=aea +lat_1=29.5 +lat_2=45.5" }, /"aea" is not read/],
    ["PROJ's numbers that are none", { proj4: "+proj=stere +lat_0=90 +lat_ts=sixty +R=6371000" }, /NaN/],
    ["PROJ's Lambert with a scale", { proj4: "+proj=lcc +lat_1=50 +k_0=0.999 +R=6371000" }, /scale of its own/],
    ["another prime meridian", { proj4: "+proj=merc +R=6371000 +pm=paris" }, /another meridian/],
    ["PROJ's turned map of another sort", { proj4: "+proj=ob_tran +o_proj=merc +o_lat_p=30" }, /turned map projection \("merc"\)/],
  ])("%s", (_, given, words) => {
    const mapping = readGridMapping(attributes(given));
    expect(mapping.kind).toBe("notRead");
    if (mapping.kind === "notRead") expect(mapping.reason).toMatch(words);
  });
});
