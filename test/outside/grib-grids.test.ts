/**
 * Grids on maps and turned poles against the reference library: ecCodes (its command-line tools, Debian package libeccodes-tools; made
 * with 2.28.0) says where every node lies. What ecCodes 2.28 can't say, or says against the WMO's own words, is told where it matters:
 *
 * - It lists a map's nodes from the first grid point toward +x and +y whatever the scanning mode, so only messages that run that way are
 *   asked of it; other scanning modes are held against the same grid told that way.
 * - It has no polar stereographic map of an ellipsoid, and loses a southern Lambert map of a sphere (the same map on an ellipsoid a
 *   decimetre flatter serves instead).
 * - It takes a Mercator map's step along x for the one along y too; it reads a southern pole's longitude as never negative; and it
 *   subtracts a turned pole's angle of rotation from the true longitude, where template 3.1 turns about the new pole.
 */
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import geographiclib from "geographiclib-geodesic";
import { NetCDFReader } from "netcdfjs";
import { describe, expect, test } from "vitest";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { decodeGribField, type GribField, nodesOf, type ProjectedGrid, readGribFields } from "../../src/formats/grib/index.ts";
import { type MapProjection, type NodePlaces, placesOfNodes, projectorOf, readGridMapping } from "../../src/formats/projection/index.ts";
import { bytesFromFile } from "../../src/storage/file-bytes.ts";
import {
  type EarthOctets,
  earthOfAxes,
  earthOfRadius,
  earthOfShape,
  lambertSection,
  mercatorSection,
  messageOn,
  polarSection,
  rotatedSection,
} from "../formats/grib/grid-sections.ts";
import { decoded, oneField, placeOf, written } from "../formats/grib/sample-message.ts";
import { type EccodesPoint, haveEccodes, inFolder, pointsByEccodes, rewrittenByEccodes } from "./eccodes.ts";

const METRES_PER_DEGREE = 111_195;

/** How far apart two places are, metres, near enough where they are near. */
function apartMetres(nodes: NodePlaces, at: number, latitudeDeg: number, longitudeDeg: number): number {
  const east = (((((nodes.longitudesDeg[at]! - longitudeDeg) % 360) + 540) % 360) - 180) * Math.cos((latitudeDeg * Math.PI) / 180);
  return Math.hypot(nodes.latitudesDeg[at]! - latitudeDeg, east) * METRES_PER_DEGREE;
}

function projectedGridOf(field: GribField): ProjectedGrid {
  if (field.grid.kind !== "projected") throw new Error(field.grid.kind);
  return field.grid;
}

/** The worst distance between our node and ecCodes' place for the same value; values are counted from 0 in the message's order. */
async function worstMetres(message: Uint8Array, points: readonly EccodesPoint[]): Promise<number> {
  const field = await oneField(message);
  const nodes = await nodesOf(projectedGridOf(field));
  const { values } = await decoded(message, field);
  const nodeOf = new Map([...values].map((value, at) => [value, at]));
  expect(points.length).toBe(values.length);
  expect(nodes.withoutPlace).toBeNull();
  return Math.max(
    ...points.map(({ latitudeDeg, longitudeDeg, value }) => apartMetres(nodes, nodeOf.get(value!)!, latitudeDeg, longitudeDeg)),
  );
}

const SPHERES: readonly (readonly [string, EarthOctets])[] = [
  ["0", earthOfShape(0)],
  ["1", earthOfRadius(6_371_200)],
  ["1 in decimetres", earthOfRadius(6_370_997.5, 1)],
  ["6", earthOfShape(6)],
  ["8", earthOfShape(8)],
];
const ELLIPSOIDS: readonly (readonly [string, EarthOctets])[] = [
  ["2", earthOfShape(2)],
  ["3", earthOfAxes(3, 6378.206, 6356.584, 3)],
  ["4", earthOfShape(4)],
  ["5", earthOfShape(5)],
  ["7", earthOfAxes(7, 6_378_388, 6_356_911.95, 2)],
  ["9", earthOfShape(9)],
];
const ALL_EARTHS = [...SPHERES, ...ELLIPSOIDS];
const SPHERE = earthOfShape(6);
/** The same sphere for us and an ellipsoid for ecCodes. */
const ALMOST_SPHERE = earthOfAxes(7, 6_371_229, 6_371_228.9, 1);

type Corner = { readonly firstLatitudeDeg: number; readonly firstLongitudeDeg: number };
/** Section 3 of a grid of 5 by 4 for a scanning mode and its first point's place. */
type Section = (earth: EarthOctets, scanOctet: number, first: Corner) => Uint8Array;

interface GridCase {
  readonly name: string;
  readonly section: Section;
  readonly first: Corner;
  readonly earths: readonly (readonly [string, EarthOctets])[];
}

const size = { ni: 5, nj: 4 };

const MAP_CASES: readonly GridCase[] = [
  {
    name: "Lambert, two parallels",
    first: { firstLatitudeDeg: 40.123456, firstLongitudeDeg: 352 },
    earths: ALL_EARTHS,
    section: (earth, scanOctet, first) =>
      lambertSection({
        ...size,
        ...first,
        earth,
        scanOctet,
        originLongitudeDeg: 5,
        originLatitudeDeg: 45,
        parallelsDeg: [40, 55],
        stepXMetres: 50_000,
        stepYMetres: 40_000,
      }),
  },
  {
    name: "Lambert, one parallel, over 180",
    first: { firstLatitudeDeg: 18, firstLongitudeDeg: 178 },
    earths: ALL_EARTHS,
    section: (earth, scanOctet, first) =>
      lambertSection({
        ...size,
        ...first,
        earth,
        scanOctet,
        originLongitudeDeg: 190,
        originLatitudeDeg: 25,
        parallelsDeg: [25, 25],
        stepXMetres: 81_271,
        stepYMetres: 81_271,
      }),
  },
  {
    name: "Lambert, southern",
    first: { firstLatitudeDeg: -43, firstLongitudeDeg: 172 },
    earths: [["a sphere all but", ALMOST_SPHERE], ...ELLIPSOIDS],
    section: (earth, scanOctet, first) =>
      lambertSection({
        ...size,
        ...first,
        earth,
        scanOctet,
        originLongitudeDeg: 175,
        originLatitudeDeg: -45,
        parallelsDeg: [-40, -50],
        centreOctet: 0x80,
        stepXMetres: 50_000,
        stepYMetres: 40_000,
      }),
  },
  {
    name: "polar stereographic, northern",
    first: { firstLatitudeDeg: 58, firstLongitudeDeg: 352 },
    earths: SPHERES,
    section: (earth, scanOctet, first) =>
      polarSection({
        ...size,
        ...first,
        earth,
        scanOctet,
        originLongitudeDeg: 20,
        trueScaleLatitudeDeg: 60,
        centreOctet: 0,
        stepXMetres: 50_000,
        stepYMetres: 40_000,
      }),
  },
  {
    name: "polar stereographic, southern",
    first: { firstLatitudeDeg: -58, firstLongitudeDeg: 179 },
    earths: SPHERES,
    section: (earth, scanOctet, first) =>
      polarSection({
        ...size,
        ...first,
        earth,
        scanOctet,
        originLongitudeDeg: 320,
        trueScaleLatitudeDeg: -71,
        centreOctet: 0x80,
        stepXMetres: 50_000,
        stepYMetres: 40_000,
      }),
  },
  ...[
    { name: "Mercator", southDeg: 17, firstLongitudeDeg: 354, trueScaleLatitudeDeg: 18 },
    { name: "Mercator over 180, southern", southDeg: -44.5, firstLongitudeDeg: 178.25, trueScaleLatitudeDeg: -41 },
  ].map(
    ({ name, southDeg, firstLongitudeDeg, trueScaleLatitudeDeg }): GridCase => ({
      name,
      first: { firstLatitudeDeg: southDeg, firstLongitudeDeg },
      earths: ALL_EARTHS,
      section: (earth, scanOctet, first) => {
        const step = 25_000;
        const lengthDeg = 360 / (2 * Math.PI * 6_371_229);
        const eastward = (4 * step * lengthDeg) / Math.cos((trueScaleLatitudeDeg * Math.PI) / 180);
        const northward = (3 * step * lengthDeg * Math.cos((southDeg * Math.PI) / 180)) / Math.cos((trueScaleLatitudeDeg * Math.PI) / 180);
        return mercatorSection({
          ...size,
          ...first,
          earth,
          scanOctet,
          trueScaleLatitudeDeg,
          // Near enough: the last point is only held against the steps.
          lastLatitudeDeg: first.firstLatitudeDeg + (scanOctet & 0x40 ? northward : -northward),
          lastLongitudeDeg: (first.firstLongitudeDeg + (scanOctet & 0x80 ? -eastward : eastward) + 360) % 360,
          stepXMetres: step,
          stepYMetres: step,
        });
      },
    }),
  ),
];

const turnedSection =
  (southPoleLatitudeDeg: number, southPoleLongitudeDeg: number): Section =>
  (_, scanOctet, { firstLatitudeDeg, firstLongitudeDeg }) =>
    rotatedSection({
      ...size,
      firstLatitudeDeg,
      firstLongitudeDeg,
      lastLatitudeDeg: firstLatitudeDeg + (scanOctet & 0x40 ? 3 : -3),
      lastLongitudeDeg: (firstLongitudeDeg + (scanOctet & 0x80 ? -4 : 4) + 360) % 360,
      stepXDeg: 1,
      stepYDeg: 1,
      scanOctet,
      southPoleLatitudeDeg,
      southPoleLongitudeDeg,
    });

const TURNED_CASES: readonly GridCase[] = [
  {
    name: "turned pole",
    section: turnedSection(-39.25, 18),
    first: { firstLatitudeDeg: 1, firstLongitudeDeg: 358 },
    earths: [["any", SPHERE]],
  },
  {
    name: "turned pole on the southern side, grid over its own 180",
    section: turnedSection(30, 190),
    first: { firstLatitudeDeg: -20, firstLongitudeDeg: 178 },
    earths: [["any", SPHERE]],
  },
];

const SCAN_OCTETS = Array.from({ length: 16 }, (_, i) => i << 4);
const TOWARD_EAST_AND_NORTH = 0x40;

describe.skipIf(!haveEccodes)("where ecCodes puts the nodes", () => {
  test.each([...MAP_CASES, ...TURNED_CASES])("$name, on every shape of the earth: to a metre", ({ section, first, earths }) =>
    inFolder(async (folder) => {
      for (const [shape, earth] of earths) {
        const message = messageOn(section(earth, TOWARD_EAST_AND_NORTH, first));
        const path = join(folder, "grid.grib2");
        writeFileSync(path, message);
        const worst = await worstMetres(message, pointsByEccodes(path)[0]!);
        expect([shape, worst < 1]).toEqual([shape, true]);
      }
    }),
  );

  test.each([...MAP_CASES, ...TURNED_CASES])("$name, in all 16 scanning modes: every value at its place to a metre", (grid) =>
    inFolder(async (folder) => {
      const [, earth] = grid.earths[0]!;
      const path = join(folder, "grid.grib2");
      writeFileSync(path, messageOn(grid.section(earth, TOWARD_EAST_AND_NORTH, grid.first)));
      // Row after row from the south-west of the map, as the values count.
      const points = pointsByEccodes(path)[0]!.toSorted((a, b) => a.value! - b.value!);
      const isTurned = TURNED_CASES.includes(grid);
      for (const octet of SCAN_OCTETS) {
        const corner = points[placeOf(0, size.nj, size.ni, octet)]!;
        const turnedFirst = {
          firstLatitudeDeg: grid.first.firstLatitudeDeg + (octet & 0x40 ? 0 : 3),
          firstLongitudeDeg: (grid.first.firstLongitudeDeg + (octet & 0x80 ? 4 : 0)) % 360,
        };
        const first = isTurned ? turnedFirst : { firstLatitudeDeg: corner.latitudeDeg, firstLongitudeDeg: corner.longitudeDeg };
        const message = messageOn(grid.section(earth, octet, first));
        // The k-th value of the message belongs at this place, by the words of flag table 3.4.
        const expected = points.map((_, k) => ({ ...points[placeOf(k, size.nj, size.ni, octet)]!, value: k }));
        expect([octet, (await worstMetres(message, expected)) < 1]).toEqual([octet, true]);
      }
    }),
  );

  test("a turned pole in all scanning modes but the alternating ones, straight from ecCodes", () =>
    inFolder(async (folder) => {
      for (const octet of SCAN_OCTETS.filter((one) => (one & 0x10) === 0)) {
        const first = { firstLatitudeDeg: octet & 0x40 ? 1 : 4, firstLongitudeDeg: octet & 0x80 ? 2 : 358 };
        const message = messageOn(turnedSection(-39.25, 18)(SPHERE, octet, first));
        const path = join(folder, "grid.grib2");
        writeFileSync(path, message);
        expect([octet, (await worstMetres(message, pointsByEccodes(path)[0]!)) < 1]).toEqual([octet, true]);
      }
    }));

  const eastAndNorth = "iScansNegatively=0,jScansPositively=1,latitudeOfFirstGridPointInDegrees=";
  test.each([
    [
      "Lambert",
      `gridType=lambert,shapeOfTheEarth=6,Nx=5,Ny=4,${eastAndNorth}40,longitudeOfFirstGridPointInDegrees=350,LaDInDegrees=45,LoVInDegrees=5,DxInMetres=30000,DyInMetres=25000,Latin1InDegrees=42,Latin2InDegrees=48`,
    ],
    [
      "polar stereographic",
      `gridType=polar_stereographic,shapeOfTheEarth=6,Nx=5,Ny=4,${eastAndNorth}60,longitudeOfFirstGridPointInDegrees=350,LaDInDegrees=60,orientationOfTheGridInDegrees=15,DxInMetres=30000,DyInMetres=25000`,
    ],
    [
      "turned pole",
      `gridType=rotated_ll,Ni=5,Nj=4,${eastAndNorth}1,longitudeOfFirstGridPointInDegrees=358,latitudeOfLastGridPointInDegrees=4,longitudeOfLastGridPointInDegrees=2,iDirectionIncrementInDegrees=1,jDirectionIncrementInDegrees=1,latitudeOfSouthernPoleInDegrees=-40,longitudeOfSouthernPoleInDegrees=10`,
    ],
    [
      "Mercator",
      `gridType=mercator,shapeOfTheEarth=6,Ni=5,Nj=4,${eastAndNorth}10,longitudeOfFirstGridPointInDegrees=350,latitudeOfLastGridPointInDegrees=10.6746,longitudeOfLastGridPointInDegrees=350.9137,LaDInDegrees=10,DiInMetres=25000,DjInMetres=25000`,
    ],
  ])("messages that ecCodes wrote: %s", (name, settings) =>
    inFolder(async (folder) => {
      const values = Float64Array.from({ length: 20 }, (_, k) => k);
      const grid = { rows: 4, columns: 5, southDeg: 0, westDeg: 0, latitudeStepDeg: 1, longitudeStepDeg: 1 };
      const path = rewrittenByEccodes(
        folder,
        written({ values, grid, decimalScale: 0, scan: { jPositive: true } }),
        name.replace(" ", "-"),
        settings,
      );
      expect(await worstMetres(readFileSync(path), pointsByEccodes(path)[0]!)).toBeLessThan(1);
    }),
  );
});

/**
 * How the map's y lies at a node, from places alone: the mean of the bearings along geodesics from the node before and to the node
 * after in its column, on the grid's own sphere. A column is no geodesic; the two bearings stray from it by as much to either side but
 * for the change of its bend over a step, which on the widest steps here (81 km) stays below 0.01 degrees.
 */
function expectNorthByGeodesics(nodes: NodePlaces, rows: number, columns: number, radiusMetres: number): void {
  const sphere = new geographiclib.Geodesic.Geodesic(radiusMetres, 0);
  let worst = 0;
  for (let row = 1; row + 1 < rows; row += Math.ceil(rows / 20)) {
    for (let column = 0; column < columns; column += Math.ceil(columns / 20)) {
      const at = row * columns + column;
      const place = (k: number): [number, number] => [nodes.latitudesDeg[k]!, nodes.longitudesDeg[k]!];
      const ahead = sphere.Inverse(...place(at), ...place(at + columns)).azi1!;
      const astern = sphere.Inverse(...place(at - columns), ...place(at)).azi2!;
      const middle = astern + ((((ahead - astern) % 360) + 540) % 360) / 2 - 90;
      worst = Math.max(worst, Math.abs(((((nodes.gridNorthDegTrue[at]! - middle) % 360) + 540) % 360) - 180));
    }
  }
  expect(worst).toBeLessThan(0.02);
}

describe("which way the grid's y points, by geodesics between its nodes", () => {
  test.each([...MAP_CASES, ...TURNED_CASES].filter(({ earths }) => earths.some(([, earth]) => earth[0] === 6)))(
    "$name",
    async ({ section, first }) => {
      const grid = projectedGridOf(await oneField(messageOn(section(SPHERE, TOWARD_EAST_AND_NORTH, first))));
      expectNorthByGeodesics(await nodesOf(grid), grid.rows, grid.columns, 6_371_229);
    },
  );
});

const folder = process.env.ATHWART_REAL_DATA ?? "";
if (folder === "") console.warn("SKIPPED: checks of projected grids against real files; ATHWART_REAL_DATA names no folder.");
const real = (name: string): string => join(folder, name);

async function firstFieldIn(path: string): Promise<GribField> {
  const source = await bytesFromFile(path);
  try {
    for await (const item of readGribFields(source)) if (item.kind === "field") return item;
  } finally {
    await source.close();
  }
  throw new Error(`no field in ${path}`);
}

const EVERY = 97;

/** Every 97th point of a file's first field, as its index among the nodes from the least x and y and ecCodes' place and value. */
function sparsePoints(path: string, points: number): readonly (EccodesPoint & { readonly at: number })[] {
  const listing = 'grib_get_data -w count=1 -m -1e33 -L "%.7f %.7f" -F "%.17g" "$1" 2>/dev/null | awk "NR % $2 == 2 && NR <= $3 + 1"';
  const text = execFileSync("sh", ["-c", listing, "sh", path, String(EVERY), String(points)], { encoding: "utf8", maxBuffer: 2 ** 28 });
  return text
    .trim()
    .split("\n")
    .map((line, i) => {
      const [latitude, longitude, value] = line
        .trim()
        .split(/[\s,]+/)
        .map(Number) as [number, number, number];
      return { at: i * EVERY, latitudeDeg: latitude, longitudeDeg: longitude, value: value === -1e33 ? null : value };
    });
}

describe.skipIf(folder === "" || !haveEccodes)("real files on maps, as ecCodes reads them", () => {
  const HRRR = "wind/hrrr_10u_lambert_20230722_f01.grib2";
  const NAM = "wind/nam_awp211_lambert_20180917.grib2";
  const NDFD = "waves/ndfd_waveheight_mercator_20231130_f14.grib2";

  test.each([
    [HRRR, "lambertConformal", 1799, 1059, true],
    [NAM, "lambertConformal", 93, 65, true],
    [NDFD, "mercator", 2517, 1793, false],
  ] as const)("%s: every 97th node to a metre", { timeout: 60_000 }, async (file, kind, columns, rows, componentsAlongGrid) => {
    const grid = projectedGridOf(await firstFieldIn(real(file)));
    expect([grid.projection.kind, grid.columns, grid.rows, grid.componentsAlongGrid]).toEqual([kind, columns, rows, componentsAlongGrid]);
    const nodes = await nodesOf(grid);
    const points = sparsePoints(real(file), rows * columns);
    expect(points.length).toBe(Math.ceil((rows * columns) / EVERY));
    let worst = 0;
    for (const { at, latitudeDeg, longitudeDeg } of points) worst = Math.max(worst, apartMetres(nodes, at, latitudeDeg, longitudeDeg));
    expect(worst).toBeLessThan(1);
    const radius = grid.projection.kind === "rotatedPole" ? Number.NaN : grid.projection.earth.semiMajorMetres;
    expectNorthByGeodesics(nodes, rows, columns, radius);
  });

  test(`${HRRR}: every 97th value`, { timeout: 60_000 }, async () => {
    const path = real(HRRR);
    const field = await firstFieldIn(path);
    const read = await decodeGribField(bytesFromMemory(readFileSync(path)), field);
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    for (const { at, value } of sparsePoints(path, field.pointCount)) expect(read.value.values[at]).toBeCloseTo(value!, 9);
  });
});

describe.skipIf(folder === "")("real NetCDF grids with a mapping: the file's own latitudes and longitudes", () => {
  test("currents/arctic20_polarstereo_20160201-05.nc: its mapping contradicts its latitudes and longitudes", async () => {
    const file = new NetCDFReader(readFileSync(real("currents/arctic20_polarstereo_20160201-05.nc")));
    const variable = file.variables.find(({ name }) => name === "polar_stereographic")!;
    const attributes = new Map(
      variable.attributes.map(({ name, value }) => [name, typeof value === "string" ? value : typeof value === "number" ? [value] : value]),
    );
    const mapping = readGridMapping(attributes as ReadonlyMap<string, string | readonly number[]>, 1000);
    if (mapping.kind !== "projected" || mapping.projection.kind !== "polarStereographic") throw new Error(JSON.stringify(mapping));
    const metres = (name: string): Float64Array => Float64Array.from(file.getDataVariable(name) as number[], (km) => km * 1000);
    const latitudes = file.getDataVariable("latitude") as number[];
    const longitudes = file.getDataVariable("longitude") as number[];
    expect(latitudes.length).toBe(51 * 91);
    const apart = async (projection: MapProjection): Promise<readonly number[]> => {
      const nodes = placesOfNodes(await projectorOf(projection), metres("X"), metres("Y"));
      return latitudes.map((latitude, at) => apartMetres(nodes, at, latitude, longitudes[at]!));
    };
    // As the mapping has it, a sphere of 6371 km: nearly a cell off, everywhere.
    const asSaid = await apart(mapping.projection);
    expect([Math.min(...asSaid) > 15_000, Math.max(...asSaid) < 18_000]).toEqual([true, true]);
    // What the latitudes and longitudes were made with (found by a fit of one against the other in numpy): a sphere of 6367 km, and x
    // and y counted from 9 and 13 km off the pole. They stand in single precision, which at 50 degrees is 0.4 m.
    const earth = { semiMajorMetres: 6_367_000, semiMinorMetres: 6_367_000 };
    const asMade = await apart({ ...mapping.projection, earth, falseEastingMetres: 9000, falseNorthingMetres: 13_000 });
    expect(Math.max(...asMade)).toBeLessThan(1);
  });

  test("wind/arome_metcoop_20160114_00-02Z.nc: nine nodes", async () => {
    // Read with netCDF4-python (netCDF-C): x and y (single precision), latitude and longitude of rows 0, 75, 150 and columns 0, 70, 140.
    const NODES: readonly (readonly [number, number, number, number])[] = [
      [-697442.1875, -229321.796875, 60.315495421, 2.264932581],
      [-522442.15625, -229321.796875, 60.587194697, 5.405506765],
      [-347442.15625, -229321.796875, 60.78240935, 8.59284254],
      [-697442.1875, -41821.80078125, 61.966037154, 1.559137118],
      [-522442.15625, -41821.80078125, 62.252960601, 4.867151916],
      [-347442.15625, -41821.80078125, 62.459265174, 8.230093747],
      [-697442.1875, 145678.203125, 63.613355146, 0.771872489],
      [-522442.15625, 145678.203125, 63.916998642, 4.265385522],
      [-347442.15625, 145678.203125, 64.135514484, 7.823985764],
    ];
    const mapping = readGridMapping(
      new Map<string, string | readonly number[]>([
        ["grid_mapping_name", "lambert_conformal_conic"],
        ["standard_parallel", [63, 63]],
        ["longitude_of_central_meridian", [15]],
        ["latitude_of_projection_origin", [63]],
        ["earth_radius", [6371000]],
        ["proj4", "+proj=lcc +lon_0=15 +lat_0=63 +lat_1=63 +lat_2=63 +R=6.371e+06 +units=m +no_defs"],
      ]),
    );
    if (mapping.kind !== "projected") throw new Error(JSON.stringify(mapping));
    const projector = await projectorOf(mapping.projection);
    for (const [x, y, latitude, longitude] of NODES) {
      const node = placesOfNodes(projector, Float64Array.of(x), Float64Array.of(y));
      expect(apartMetres(node, 0, latitude, longitude)).toBeLessThan(1);
    }
  });
});
