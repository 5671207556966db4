import { describe, expect, it } from "vitest";
import { bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import { MOST_GRIDS, MOST_MEMBERS, MOST_VARIABLES } from "../../../src/formats/forecast/allowance.ts";
import { seriesOf } from "../../../src/formats/forecast/grib-series.ts";
import { joinReadings, readForecast } from "../../../src/formats/forecast/index.ts";
import { MOST_ODDITIES, Oddities } from "../../../src/formats/forecast/oddities.ts";
import { type GribField, readGribFields } from "../../../src/formats/grib/index.ts";
import { eastOf, hoursOfJune, madeFile, northOf, standard, type VariableMade } from "./netcdf-files.ts";
import { codesOf, HOUR, JUNE, join, message, reading, refusal } from "./sample-files.ts";

/** A message of one value throughout, which takes no room for its points, on a grid of 5000 by 4000. */
function vast(number: number, hour: number): Uint8Array {
  const grid = { rows: 3, columns: 4, southDeg: 40, westDeg: -10, latitudeStepDeg: 0.001, longitudeStepDeg: 0.001 };
  const bytes = message({ number, grid, validFrom: JUNE + hour * HOUR }).slice();
  const view = new DataView(bytes.buffer);
  const section = (wanted: number): number => {
    let at = 16;
    while (bytes[at + 4] !== wanted) at += view.getUint32(at);
    return at;
  };
  const [grids, packing] = [section(3), section(5)];
  for (const at of [grids + 6, packing + 5]) view.setUint32(at, 20_000_000);
  view.setUint32(grids + 30, 5000);
  view.setUint32(grids + 34, 4000);
  // Ends that fit: 3.999 degrees south of 43.999 N, 4.999 east of 10 W; no steps.
  view.setInt32(grids + 46, 43_999_000);
  view.setInt32(grids + 55, 40_000_000);
  view.setUint32(grids + 59, 354_999_000);
  bytes[grids + 54] = 0;
  return bytes;
}

const axes: Record<string, VariableMade> = {
  time: hoursOfJune,
  lat: northOf((y) => 40 + y!, "lat"),
  lon: eastOf((x) => x!, "lon"),
};

describe("a small file that calls for much", () => {
  it("is read where it is one field of twenty million points, and cropped", async () => {
    const crop = { southDeg: 41, northDeg: 41.01, westDeg: -8, eastDeg: -7.99, from: JUNE, until: JUNE };
    const read = await reading(join([vast(2, 0), vast(3, 0)]), crop);
    expect(read.grids[0]!.mesh).toMatchObject({ kind: "latLon" });
    expect(read.grids[0]!.missing.length).toBeLessThan(400);
  });

  it("is refused before much is unpacked where it is a hundred of them: a thousand points for each byte is what is given", async () => {
    const bytes = join(Array.from({ length: 100 }, (_, i) => vast(2 + (i % 2), i >> 1)));
    const before = performance.now();
    expect((await refusal(bytes)).code).toBe("file-too-large");
    expect(performance.now() - before).toBeLessThan(2000);
  });

  it("is refused before anything is unpacked where more values would be kept than one file may hold, with how many and of what", async () => {
    // Two components of twenty million points at two times; a thousand points for each byte let that many through.
    const bytes = join([...[0, 1].flatMap((hour) => [vast(2, hour), vast(3, hour)]), new Uint8Array(60_000)]);
    const said =
      "The file holds 80 million values, the current alone having 2 times and 20000000 points; at most 50 million are read of one file.";
    expect(await refusal(bytes)).toMatchObject({
      code: "file-too-large",
      message: said,
      whatToDo: expect.stringContaining("fewer members"),
    });
    const told = await readForecast(bytesFromMemory(bytes), { name: "made", crop: null, contentsOnly: true });
    expect(told.ok && told.value.contents.map(({ steps, rows }) => [steps, rows])).toEqual([
      [2, 4000],
      [2, 4000],
    ]);
  });

  it("is refused where its fields make more grids than are told apart", async () => {
    const grid = { rows: 1, columns: 1, latitudeStepDeg: 1, longitudeStepDeg: 1 };
    const fields = Array.from({ length: MOST_GRIDS + 1 }, (_, i) =>
      message({
        category: 0,
        number: 3,
        level: { type: 1, value: null },
        values: Float64Array.of(1),
        grid: { ...grid, southDeg: Math.floor(i / 3600), westDeg: (i % 3600) / 10 },
      }),
    );
    expect(await refusal(join(fields))).toMatchObject({ code: "file-too-large", message: expect.stringContaining("5001 grids") });
  });

  it("of NetCDF is refused where it has more variables than are looked through", async () => {
    const variables = { ...axes };
    for (let i = 0; i < MOST_VARIABLES; i++) variables[`a${i}`] = { along: "", value: () => 1 };
    const read = await readForecast(bytesFromMemory(madeFile({ time: 1, lat: 2, lon: 2 }, variables)), { name: "made", crop: null });
    expect(read).toMatchObject({ ok: false, issues: [{ code: "file-too-large", message: expect.stringContaining("2003 variables") }] });
  });

  it("of NetCDF is not used where it has more members than any ensemble", async () => {
    const ofMembers = (count: number) =>
      madeFile(
        { time: 1, number: count, lat: 2, lon: 2 },
        { ...axes, gust: { ...standard("wind_speed_of_gust", "time number lat lon", () => 1), type: "float" } },
      );
    const most = await reading(ofMembers(MOST_MEMBERS));
    expect([most.grids.length, joinReadings([most, most]).grids.length]).toEqual([MOST_MEMBERS, MOST_MEMBERS]);
    const more = await reading(ofMembers(150_000));
    expect([more.grids.length, codesOf(more)[0]]).toEqual([0, "grid-not-read"]);
    expect(more.oddities[0]!.message).toContain("150000 members");
  });
});

describe("much that is odd", () => {
  it("is told in a hundred words at most and counted, values apart, which are told all", () => {
    const oddities = new Oddities();
    for (let i = 0; i < 3 * MOST_ODDITIES; i++) oddities.tell("file-lies", `Oddity ${i}.`);
    oddities.tell("value-doubtful", "A value.");
    oddities.tell("file-lies", "Oddity 0.");
    const list = oddities.list();
    expect(list.length).toBe(MOST_ODDITIES + 2);
    expect(list[0]!.message).toBe("Oddity 0.; so in 2 places of the file");
    expect(list.at(-2)).toEqual({ code: "value-doubtful", message: "A value." });
    expect(list.at(-1)).toEqual({ code: "file-lies", message: "There is more that is odd, in 200 places." });
  });

  it("two hundred thousand times with one component each are told in one line", async () => {
    const fields: GribField[] = [];
    for await (const item of readGribFields(bytesFromMemory(join([message({}), message({ number: 3 })])))) {
      if (item.kind === "field") fields.push(item);
    }
    const [east, north] = fields;
    const serving = [
      { field: east!, role: "currentEastMps", rank: 0, nature: "instant" } as const,
      ...Array.from({ length: 200_000 }, (_, i) => {
        const validAt = (east!.validAt + i * HOUR) as GribField["validAt"];
        return { field: { ...north!, validAt, validFrom: validAt }, role: "currentNorthMps", rank: 0, nature: "instant" } as const;
      }),
    ];
    const oddities = new Oddities();
    expect(seriesOf(serving, oddities).map((one) => one.byTime.size)).toEqual([1]);
    expect(oddities.list()).toEqual([
      { code: "component-missing", message: expect.stringContaining("199999 times, such as 2030-06-01 01:00Z") },
    ]);
  });
});
