import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { COAST_FACTS, openCoast, readWorldCoast } from "../../src/atlas/index.ts";
import { boxAround, type GeoBox, type LandArea, landOn } from "../../src/core/coast/index.ts";
import { planeAround } from "../../src/core/earth/index.ts";
import { bruteLand } from "../core/coast/brute.ts";

const coast = readWorldCoast();
const cut = (southDeg: number, northDeg: number, westDeg: number, eastDeg: number): readonly LandArea[] =>
  coast.within({ southDeg, northDeg, westDeg, eastDeg });
const pointsIn = (areas: readonly LandArea[]): number =>
  areas.reduce((sum, { rings }) => sum + rings.reduce((n, ring) => n + ring.length / 2, 0), 0);

describe("the coastline that ships", () => {
  it("is one file below 7 MB, with its licence and notice beside it, and its facts told", () => {
    const data = (name: string) => readFileSync(new URL(`../../src/atlas/data/${name}`, import.meta.url));
    expect(data("coast.bin").length).toBeLessThan(7_000_000);
    expect(data("NOTICE.md").toString()).toContain("GNU Lesser General Public License");
    expect(data("COPYING.LESSER").toString()).toContain("GNU LESSER GENERAL PUBLIC LICENSE");
    expect(data("COPYING").toString()).toContain("GNU GENERAL PUBLIC LICENSE");
    expect(COAST_FACTS.madeOn).toBe("2017-06-15");
    expect(COAST_FACTS.name).toContain("GSHHG 2.3.7");
  });

  it("is cut to the box: every corner lies in it, and longitudes run on over 180°", () => {
    for (const [south, north, west, east] of [
      [-19, -15, 177, -178],
      [59, 62, 3, 7],
      [-80, -60, 160, -150],
      [35, 39, 22, 27],
      [-1, 1, -1, 1],
    ] as const) {
      const wide = (((east - west) % 360) + 360) % 360;
      for (const { rings, kind, name } of cut(south, north, west, east)) {
        expect([kind, name]).toEqual(["land", null]);
        for (const ring of rings) {
          expect(ring.length).toBeGreaterThanOrEqual(6);
          for (let i = 0; i < ring.length; i += 2) {
            expect(((((ring[i] as number) - west) % 360) + 360 + 1e-9) % 360).toBeLessThanOrEqual(wide + 2e-9);
            expect(ring[i + 1] as number).toBeGreaterThanOrEqual(south - 1e-9);
            expect(ring[i + 1] as number).toBeLessThanOrEqual(north + 1e-9);
          }
        }
      }
    }
    expect(cut(-1, 1, -31, -29)).toEqual([]);
  });

  it("is the same land however it is cut, and from whichever turn the box is written", () => {
    const whole = bruteLand(cut(36, 39, 22, 28));
    for (let lat = 36.05; lat < 39; lat += 0.5) {
      for (let lon = 22.05; lon < 28; lon += 0.5) {
        const small = bruteLand(cut(lat - 0.04, lat + 0.04, lon - 0.04, lon + 0.04));
        const turned = bruteLand(cut(lat - 0.04, lat + 0.04, lon - 0.04 - 360, lon + 0.04 - 360));
        expect(small.contains(lon, lat)).toBe(whole.contains(lon, lat));
        expect(turned.contains(lon, lat)).toBe(whole.contains(lon, lat));
      }
    }
  });

  it("can be cut anywhere: a box on every ten degrees of the earth", () => {
    let points = 0;
    for (let lat = -90; lat < 90; lat += 10)
      for (let lon = -180; lon < 180; lon += 10) points += pointsIn(cut(lat, lat + 10, lon, lon + 10));
    // 1,785,354 points of the coast, and those at which it is cut.
    expect(points).toBeGreaterThan(1_785_354);
    expect(points).toBeLessThan(1_785_354 * 1.02);
  });

  it("gives, laid on a plane, what brute force over its rings gives", () => {
    const plane = planeAround({ latitudeDeg: 37.5, longitudeDeg: 25.3 }, 60 * 1852);
    const areas = coast.within(boxAround(plane));
    const land = landOn(plane, areas);
    const onSheet = areas.flatMap(({ rings, ...about }) => {
      const laid = rings.map((ring) => {
        const out: number[] = [];
        for (let i = 0; i < ring.length; i += 2) {
          const place = plane.toPlaneIfOn({ latitudeDeg: ring[i + 1] as number, longitudeDeg: ring[i] as number });
          if (place === null) return null;
          out.push(place.xMetres, place.yMetres);
        }
        return Float64Array.from(out);
      });
      return laid.every((ring) => ring !== null) ? [{ ...about, rings: laid }] : [];
    });
    expect(onSheet.length).toBeGreaterThan(200);
    const brute = bruteLand(onSheet);
    let seed = 1;
    const draw = () => {
      seed = (seed * 48271) % 2147483647;
      return seed / 2147483647;
    };
    let hits = 0;
    for (let i = 0; i < 1500; i++) {
      // Well within the sheet, where no ring is cut.
      const [x, y] = [(draw() - 0.5) * 120_000, (draw() - 0.5) * 120_000];
      const [dx, dy] = [(draw() - 0.5) * 6000, (draw() - 0.5) * 6000];
      const expected = brute.crosses(x, y, x + dx, y + dy);
      if (expected) hits++;
      expect(land?.crosses(x, y, x + dx, y + dy)).toBe(expected);
    }
    expect(hits).toBeGreaterThan(100);
  });

  it("throws on a box that is none and on bytes that are no coastline", () => {
    const box: GeoBox = { southDeg: 10, northDeg: 5, westDeg: 0, eastDeg: 1 };
    expect(() => coast.within(box)).toThrow("10 to 5");
    expect(() => openCoast(new Uint8Array(100))).toThrow("no packed coastline");
    const bytes = new Uint8Array(readFileSync(new URL("../../src/atlas/data/coast.bin", import.meta.url)));
    expect(() => openCoast(bytes.subarray(0, 3_000_000))).toThrow("bytes long");
  });
});
