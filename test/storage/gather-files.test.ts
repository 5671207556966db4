import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openPassage } from "../../src/storage/index.ts";
import { HOUR, JUNE, message, join as together } from "../formats/forecast/sample-files.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "athwart-"));
  mkdirSync(join(folder, "grib"));
  const grid = { rows: 5, columns: 6, southDeg: 32, westDeg: -121, latitudeStepDeg: 1, longitudeStepDeg: 1 };
  for (const hour of [0, 3, 6, 9]) {
    const wind = (number: number) =>
      message({
        discipline: 0,
        category: 2,
        number,
        level: { type: 103, value: 10 },
        grid,
        validFrom: JUNE + hour * HOUR,
        values: new Float64Array(30).fill(number === 2 ? hour : 5),
      });
    writeFileSync(join(folder, "grib", `wind-${hour}.grib2`), together([wind(2), wind(3)]));
    writeFileSync(join(folder, "grib", `east-${hour}.grib2`), wind(2));
    writeFileSync(join(folder, "grib", `north-${hour}.grib2`), wind(3));
  }
  writeFileSync(join(folder, "grib", "notes.txt"), "nothing");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function written(name: string, weather: string): string {
  const path = join(folder, name);
  writeFileSync(
    path,
    `athwart: passage/1
name: T
invented: yes
zones: {ship: UTC-8}
boat: {name: B, goes: power, power: {speed: 5 kn}}
route:
  from: {name: A, position: 33 24.0S 118 57.0W}
  to: {name: Z, position: 33 48.7S 118 02.2W}
water: {sources: [{uniform: {set: 215, rate: 1 kn}}]}
weather: {sources: [${weather}]}
limits: {wind: {happy: 14 kn, never: 22 kn}}
`.replace(/33 (\d\d\.\d)S/g, "33 $1N"),
  );
  return path;
}

async function opened(weather: string) {
  const read = await openPassage(written("p.yaml", weather));
  if (!read.ok) throw new Error(read.issues.map((one) => `${one.path}: ${one.message}`).join("; "));
  return read.value;
}

describe("files of one source", () => {
  it("are put together, named one by one or by a pattern", async () => {
    for (const weather of [
      "{files: [grib/wind-0.grib2, grib/wind-3.grib2, grib/wind-6.grib2, grib/wind-9.grib2]}",
      '{files: ["grib/wind-*.grib2"]}',
    ]) {
      const { prepared, readings, together: odd } = await opened(weather);
      expect(readings.map((one) => one.name)).toEqual([0, 3, 6, 9].map((hour) => `grib/wind-${hour}.grib2`));
      expect(prepared.winds.map((wind) => wind.covers)).toEqual([{ from: JUNE, until: JUNE + 9 * HOUR }]);
      expect(odd).toEqual([]);
    }
  });

  it("may hold one component each", async () => {
    const { prepared } = await opened('{files: ["grib/east-*", "grib/north-*"]}');
    expect(prepared.winds[0]!.covers).toEqual({ from: JUNE, until: JUNE + 9 * HOUR });
  });

  it("say what is odd about them together: an hour that is wanting", async () => {
    const { together: odd } = await opened("{files: [grib/wind-0.grib2, grib/wind-3.grib2, grib/wind-9.grib2]}");
    expect(odd).toEqual([]);
    const gap = await opened("{files: [grib/wind-0.grib2, grib/wind-9.grib2, grib/wind-3.grib2, grib/wind-0.grib2]}");
    expect(gap.readings).toHaveLength(3);
  });

  it("that a pattern doesn't find are told at the key", async () => {
    for (const [pattern, words] of [
      ["grib/current-*", "there is no file of such a name"],
      ["nowhere/*", "the folder can't be read"],
    ] as const) {
      const read = await openPassage(written("q.yaml", `{files: ["${pattern}"]}`));
      expect(read.ok ? [] : read.issues.map((one) => [one.path, one.code, one.message])).toEqual([
        ["weather.sources[0]", "file-not-opened", `${pattern}: ${words}`],
      ]);
    }
  });

  it("take the letters of a name but for * as they are", async () => {
    const read = await openPassage(written("r.yaml", '{files: ["grib/wind.*.grib2"]}'));
    expect(read.ok).toBe(false);
  });
});
