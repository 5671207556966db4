/**
 * A real wave forecast that gives the sea as a whole and its systems apart. By squares the systems make up the whole; and in a stream of
 * two knots the whole, taken as one sea, seems harmless at thousands of places where its wind sea by itself is steep, breaks or is blocked.
 *
 * Source: the US centre's global wave model, Western Atlantic, 23 August 2023 (public domain; the data folder's DATA.md).
 */
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { GridData, GridQuantity } from "../../src/core/fields/index.ts";
import { combinedHeightMetres, seaFeelOf, waveOnCurrent } from "../../src/core/sea/index.ts";
import { MPS_PER_KNOT } from "../../src/core/units/index.ts";
import { readForecast } from "../../src/formats/forecast/index.ts";
import { bytesFromFile } from "../../src/storage/index.ts";

const folder = process.env.ATHWART_REAL_DATA ?? "";
if (folder === "") console.warn("SKIPPED: swell and wind sea of a real wave forecast; ATHWART_REAL_DATA names no folder.");
const FILE = "waves/gfswave_atlocn_20230823_f001.grib2";

describe.skipIf(folder === "")("swell and wind sea of a real forecast", async () => {
  const grids = folder === "" ? [] : await gridsOf(FILE);
  const grid = (quantity: GridQuantity): GridData => {
    const found = grids.find((one) => one.quantities[0] === quantity);
    if (found === undefined) throw new Error(`no ${quantity}`);
    return found;
  };
  const at = (quantity: GridQuantity, node: number): number | null => {
    const { missing, values } = grid(quantity);
    return missing[node] === 1 ? null : (values[node] as number);
  };
  const nodes = Array.from({ length: grids[0]?.missing.length ?? 0 }, (_, node) => node).filter(
    (node) => at("seaHeightMetres", node) !== null,
  );

  it("the systems' heights by squares are the whole's, within the rounding of the file", () => {
    const off: number[] = [];
    for (const node of nodes) {
      const parts = (["windSeaHeightMetres", "swellHeightMetres", "secondSwellHeightMetres", "thirdSwellHeightMetres"] as const).map(
        (quantity) => at(quantity, node) ?? 0,
      );
      off.push(Math.abs(combinedHeightMetres(...parts) - (at("seaHeightMetres", node) as number)));
    }
    off.sort((a, b) => a - b);
    // Heights are given to a centimetre; at a few places more systems are left out than are given.
    expect(off.length).toBeGreaterThan(10_000);
    expect(off[Math.floor(off.length * 0.5)]).toBeLessThan(0.01);
    expect(off[Math.floor(off.length * 0.9)]).toBeLessThan(0.02);
  });

  it("against two knots the whole as one sea hides a steep or breaking wind sea at a tenth of all places and more", () => {
    const feel = (heightMetres: number, periodSeconds: number) =>
      seaFeelOf(waveOnCurrent({ heightMetres, periodSeconds, fromDegTrue: 0 }, { alongWaveMps: -2 * MPS_PER_KNOT }, null));
    let hidden = 0,
      both = 0;
    for (const node of nodes) {
      const [height, period] = [at("windSeaHeightMetres", node), at("windSeaPeriodSeconds", node)];
      const whole = at("seaPeriodSeconds", node);
      if (height === null || period === null || whole === null || height < 0.3) continue;
      both++;
      if (feel(height, period) !== "harmless" && feel(at("seaHeightMetres", node) as number, whole) === "harmless") hidden++;
    }
    expect(both).toBeGreaterThan(10_000);
    expect(hidden / both).toBeGreaterThan(0.1);
  });
});

async function gridsOf(file: string): Promise<readonly GridData[]> {
  const source = await bytesFromFile(join(folder, file));
  try {
    const read = await readForecast(source, { name: file, crop: null });
    if (!read.ok) throw new Error(read.issues.map((one) => one.message).join("; "));
    return read.value.grids;
  } finally {
    await source.close();
  }
}
