import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openPassage } from "../../src/storage/index.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "athwart-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** An invented passage that names `weather` as its only weather source. */
function written(name: string, weather: string, position = "33 24.0S 118 57.0W", to = "33 48.7S 118 02.2W"): string {
  const path = join(folder, name);
  writeFileSync(
    path,
    `athwart: passage/1
name: T
zones: {ship: UTC-8}
boat: {name: B, goes: power, power: {speed: 5 kn}}
route:
  from: {name: A, position: ${position}}
  to: {name: Z, position: ${to}}
water: {sources: [{uniform: {set: 215, rate: 1 kn}}]}
weather: {sources: [${weather}]}
limits: {wind: {happy: 14 kn, never: 22 kn}}
`,
  );
  return path;
}

describe("what is wrong with the files that a passage names", () => {
  it("is told at the key that names them, a folder as a missing file", async () => {
    for (const [weather, code] of [
      ["{file: .}", "file-not-recognised"],
      ["{file: nothing-here.grib2}", "file-not-opened"],
      ["{letter: nothing-here.txt}", "file-not-opened"],
    ] as const) {
      const opened = await openPassage(written("a.yaml", weather));
      expect(opened.ok ? [] : opened.issues.map((one) => [one.path, one.code])).toEqual([["weather.sources[0]", code]]);
    }
  });

  it("is that they do not reach these waters, where they hold what is wanted elsewhere", async () => {
    const wind = join(process.cwd(), "demo/morrel/wind.grib2");
    const here = await openPassage(written("here.yaml", `{file: ${wind}}`));
    expect(here.ok).toBe(true);
    const away = await openPassage(written("away.yaml", `{file: ${wind}}`, "17 00.0S 179 40.0E", "17 20.0S 179 30.0W"));
    expect(away.ok ? [] : away.issues.map((one) => [one.path, one.code])).toEqual([["weather.sources[0]", "source-lacks-quantity"]]);
    expect(away.ok ? "" : away.issues[0]?.message).toContain("for these waters");
  });
});
