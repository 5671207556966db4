import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { CURRENT_GRID } from "../../demo/current-file.mjs";
import { coastOfSarumeNm, coastOfTavoraNm, isLand } from "../../demo/land.mjs";
import { landText } from "../../demo/land-file.mjs";
import { FROM, MIDDLE, placeOf, positionOf, TO } from "../../demo/strait.mjs";
import { boxAround, landOn } from "../../src/core/coast/index.ts";
import { planeAround } from "../../src/core/earth/index.ts";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { readForecast } from "../../src/formats/forecast/index.ts";
import { readLandAreas } from "../../src/formats/geojson/index.ts";
import { root } from "./source-files.ts";

const read = readLandAreas(readFileSync(join(root, "demo/morrel/land.geojson"), "utf8"), "land.geojson");
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const plane = planeAround(MIDDLE, 100 * 1852);
const land = landOn(plane, read.value);

describe("the demo's land", () => {
  it("is what the generator makes, and positions and places of the frame go back and forth", () => {
    expect(readFileSync(join(root, "demo/morrel/land.geojson"), "utf8")).toBe(landText());
    const place = placeOf(positionOf({ acrossNm: 31.25, downStreamNm: -7.5 }));
    expect(place.acrossNm).toBeCloseTo(31.25, 10);
    expect(place.downStreamNm).toBeCloseTo(-7.5, 10);
  });

  it("is dry where the current file has no water, node by node", async () => {
    const bytes = new Uint8Array(readFileSync(join(root, "demo/morrel/current.nc")));
    const forecast = await readForecast(bytesFromMemory(bytes), { name: "current.nc", crop: null });
    if (!forecast.ok) throw new Error(JSON.stringify(forecast.issues));
    const grid = forecast.value.grids.find((one) => one.quantities[0] === "currentEastMps");
    if (grid?.mesh.kind !== "latLon" || grid.missing === null) throw new Error("no current on latitudes and longitudes");
    const { latitudesDeg, longitudesDeg } = grid.mesh;
    const areas = read.value.filter((one) => one.kind === "land");
    const dry = landOn(plane, areas);
    let [nodes, missing] = [0, 0];
    latitudesDeg.forEach((latitudeDeg, row) => {
      longitudesDeg.forEach((longitudeDeg, column) => {
        const place = plane.toPlaneIfOn({ latitudeDeg, longitudeDeg });
        if (place === null) return;
        const isDry = grid.missing?.[row * longitudesDeg.length + column] === 1;
        nodes++;
        if (isDry) missing++;
        expect(dry?.contains(place.xMetres, place.yMetres)).toBe(isDry);
      });
    });
    expect(nodes).toBeGreaterThan(900);
    expect(missing).toBeGreaterThan(100);
    expect(boxAround(plane).southDeg * 12).toBeLessThan(CURRENT_GRID.southTwelfths);
  });

  it("runs along the generator's coasts to some 15 m, and leaves the buoys and the straight line clear", () => {
    const at = (acrossNm: number, downStreamNm: number) => plane.toPlane(positionOf({ acrossNm, downStreamNm }));
    for (let downStreamNm = -40; downStreamNm <= 40; downStreamNm += 0.37) {
      for (const [coast, seaward] of [
        [coastOfTavoraNm(downStreamNm), 1],
        [coastOfSarumeNm(downStreamNm), -1],
      ] as const) {
        const ashore = at(coast - (seaward * 20) / 1852, downStreamNm);
        const afloat = at(coast + (seaward * 20) / 1852, downStreamNm);
        expect(isLand({ acrossNm: coast - seaward * 0.01, downStreamNm })).toBe(true);
        expect(land?.contains(ashore.xMetres, ashore.yMetres)).toBe(true);
        expect(land?.contains(afloat.xMetres, afloat.yMetres)).toBe(false);
      }
    }
    const [from, to] = [plane.toPlane(FROM), plane.toPlane(TO)];
    expect(land?.crosses(from.xMetres, from.yMetres, to.xMetres, to.yMetres)).toBe(false);
    const [reef, beyond] = [at(50.4, 16.6), at(50.4, 12)];
    expect(land?.firstTouched(beyond.xMetres, beyond.yMetres, reef.xMetres, reef.yMetres)).toMatchObject({
      name: "Harrier Reef",
      kind: "keptOut",
    });
  });
});
