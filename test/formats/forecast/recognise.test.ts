import { describe, expect, it } from "vitest";
import { bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import { readForecast } from "../../../src/formats/forecast/index.ts";
import { latLonOf } from "../../core/fields/grids.ts";
import { evenNumbers, HOUR, JUNE, join, message, netcdf, refusal } from "./sample-files.ts";

const text = (words: string) => new TextEncoder().encode(words);

describe("a file that is no forecast", () => {
  it.each([
    ["gzip", Uint8Array.of(0x1f, 0x8b, 8, 0, 0), "file-not-recognised", /gzip/],
    ["zip", Uint8Array.of(0x50, 0x4b, 3, 4, 0), "file-not-recognised", /zip archive/],
    ["PDF", text("%PDF-1.7\n"), "file-not-recognised", /PDF/],
    [
      "an error page",
      text("<!DOCTYPE html><html><head><title>502 Bad Gateway</title>"),
      "file-not-recognised",
      /web page with the title "502 Bad Gateway"/,
    ],
    ["a page that speaks of GRIB", text("<html><body>GRIB 2 files</body></html>"), "file-not-recognised", /web page/],
    ["JSON", text('{"error": "quota"}'), "file-not-recognised", /JSON/],
    ["XML", text('<?xml version="1.0"?><gpx/>'), "file-not-recognised", /XML/],
    ["a letter", text("THU 0600-1200 NE 12-16 G20\n"), "file-not-recognised", /text that begins "THU 0600/],
    ["bytes of no kind", Uint8Array.of(1, 2, 3, 4, 250, 0, 7), "file-not-recognised", /nothing known/],
    ["nothing", new Uint8Array(0), "file-truncated", /empty/],
    ["NetCDF-4 of which only the start is left", Uint8Array.of(0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a, 0x1a, 0x0a, 0), "file-lies", /./],
  ])("is named: %s", async (_, bytes, code, words) => {
    const issue = await refusal(bytes);
    expect(issue.code).toBe(code);
    expect(issue.message).toMatch(words);
    expect(issue.whatToDo.length).toBeGreaterThan(10);
  });

  it("tells to unpack an archive", async () => {
    expect((await refusal(Uint8Array.of(0x42, 0x5a, 0x68, 0x39))).whatToDo).toMatch(/Unpack/);
  });
});

describe("damaged bytes", () => {
  const speed = { units: "m/s", _FillValue: Float32Array.of(999) };
  const asNetcdf = netcdf({
    fields: ["water_u", "water_v"].map((name) => ({ name, attributes: speed, value: (t, y, x) => (x === 0 ? 999 : t + y / 10) })),
  });
  const asGrib = join([0, 3].flatMap((hour) => [2, 3].map((number) => message({ number, validFrom: JUNE + hour * HOUR }))));

  it.each([
    ["NetCDF", asNetcdf, 2000],
    ["GRIB2", asGrib, 1500],
  ])("never crash, hang or swell, and no value leaves its bounds: %s", async (_, whole, rounds) => {
    const random = evenNumbers(7);
    let good = 0;
    let bad = 0;
    for (let round = 0; round < rounds; round++) {
      const bytes = Uint8Array.from(whole);
      const hits = 1 + Math.floor(random() * 3);
      for (let hit = 0; hit < hits; hit++) {
        bytes[Math.floor(random() * bytes.length)] = random() < 0.25 ? 0xff : Math.floor(random() * 256);
      }
      const cut = random() < 0.1 ? bytes.subarray(0, Math.floor(random() * bytes.length)) : bytes;
      const read = await readForecast(bytesFromMemory(cut), { name: "damaged", crop: null });
      if (!read.ok) {
        bad++;
        expect(read.issues.length).toBeGreaterThan(0);
        continue;
      }
      good++;
      for (const grid of read.value.grids) {
        expect(grid.values.length).toBe(
          grid.times.length * latLonOf(grid).latitudesDeg.length * latLonOf(grid).longitudesDeg.length * grid.quantities.length,
        );
        expect(grid.values.every((value) => Math.abs(value) <= 120)).toBe(true);
        expect(grid.times.every((at, index) => index === 0 || at > grid.times[index - 1]!)).toBe(true);
        expect(latLonOf(grid).longitudesDeg.every((at, index) => index === 0 || at > latLonOf(grid).longitudesDeg[index - 1]!)).toBe(true);
      }
    }
    expect(good).toBeGreaterThan(rounds / 10);
    expect(bad).toBeGreaterThan(rounds / 50);
  });
});
