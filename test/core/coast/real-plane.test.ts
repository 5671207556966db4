import { describe, expect, it } from "vitest";
import { boxAround, type LandArea, landOn, type Ring } from "../../../src/core/coast/index.ts";
import { geodesicFrom, type Position, planeAround } from "../../../src/core/earth/index.ts";

const ring = (...corners: readonly (readonly [number, number])[]): Ring => Float64Array.from(corners.flat());
const land = (...rings: readonly Ring[]): LandArea => ({ kind: "land", name: null, rings });
const NM = 1852;

describe("areas on the real plane", () => {
  it("have edges straight in longitude and latitude: along a parallel, not a great circle", () => {
    const plane = planeAround({ latitudeDeg: 60, longitudeDeg: 10 }, 90 * NM);
    // The great circle between these corners bulges 0.9 nm north of the parallel at its middle.
    const laid = landOn(plane, [land(ring([8, 59], [12, 59], [12, 60], [8, 60]))]);
    const at = (latitudeDeg: number, longitudeDeg: number): boolean => {
      const { xMetres, yMetres } = plane.toPlane({ latitudeDeg, longitudeDeg });
      return laid?.contains(xMetres, yMetres) ?? false;
    };
    for (let lon = 8.01; lon < 11.95; lon += 0.19) {
      expect(at(60 - 1e-5, lon)).toBe(true);
      expect(at(60 + 1e-5, lon)).toBe(false);
    }
  });

  it.each([
    ["over 180°", { latitudeDeg: -17, longitudeDeg: 179.9 }],
    ["over 180° from the other side, near a pole", { latitudeDeg: 80, longitudeDeg: -179.5 }],
    ["over Greenwich", { latitudeDeg: 45, longitudeDeg: 0.05 }],
  ])("lie where they are %s, however their longitudes are written", (_, centre: Position) => {
    const plane = planeAround(centre, 60 * NM);
    const { latitudeDeg, longitudeDeg } = centre;
    const [south, north] = [latitudeDeg - 0.1, latitudeDeg + 0.1];
    const [west, east] = [longitudeDeg - 0.3, longitudeDeg + 0.3];
    const wrap = (deg: number): number => ((((deg + 180) % 360) + 360) % 360) - 180;
    for (const written of [(deg: number) => deg, wrap, (deg: number) => ((deg % 360) + 360) % 360]) {
      const laid = landOn(plane, [
        land(ring([written(west), south], [written(east), south], [written(east), north], [written(west), north])),
      ]);
      const at = (lat: number, lon: number): boolean => {
        const { xMetres, yMetres } = plane.toPlane({ latitudeDeg: lat, longitudeDeg: wrap(lon) });
        return laid?.contains(xMetres, yMetres) ?? false;
      };
      for (const [dLat, dLon, inside] of [
        [0, 0, true],
        [0.0999, 0.2999, true],
        [-0.0999, -0.2999, true],
        [0.1001, 0, false],
        [0, 0.3001, false],
        [0, -0.3001, false],
      ] as const) {
        expect(at(latitudeDeg + dLat, longitudeDeg + dLon)).toBe(inside);
      }
    }
  });

  it("may run round a pole and over the whole sheet", () => {
    const plane = planeAround({ latitudeDeg: -70, longitudeDeg: 178 }, 100 * NM);
    // Everything south of 70.5° S, told as a line round the pole, as one closed over it, and as a ring to the pole and back.
    const around = Array.from({ length: 36 }, (_, i) => [i * 10 - 180, -70.5] as const);
    const closedOver = [...around, [180, -70.5], [180, -90], [-180, -90]] as const;
    for (const corners of [around, closedOver]) {
      const laid = landOn(plane, [land(ring(...corners))]);
      for (const lon of [174, 178, 179.99, -179.99, -178]) {
        const inside = plane.toPlane({ latitudeDeg: -70.52, longitudeDeg: lon });
        const outside = plane.toPlane({ latitudeDeg: -70.48, longitudeDeg: lon });
        expect(laid?.contains(inside.xMetres, inside.yMetres)).toBe(true);
        expect(laid?.contains(outside.xMetres, outside.yMetres)).toBe(false);
        expect(laid?.crosses(inside.xMetres, inside.yMetres, outside.xMetres, outside.yMetres)).toBe(true);
      }
    }
    const whole = landOn(plane, [land(ring([150, -85], [-160, -85], [-160, -50], [150, -50]))]);
    expect(whole?.contains(0, 0)).toBe(true);
    expect(whole?.contains(-185_000, 185_000)).toBe(true);
    expect(whole?.edgeDistanceMetres(0, 0, 1e6)).toBe(Number.POSITIVE_INFINITY);
  });

  it("are cut to a box that holds the plane's square", () => {
    for (const centre of [
      { latitudeDeg: 0, longitudeDeg: 0 },
      { latitudeDeg: 62, longitudeDeg: 179 },
      { latitudeDeg: -88, longitudeDeg: 20 },
    ]) {
      const reach = 100 * NM;
      const plane = planeAround(centre, reach);
      const box = boxAround(plane);
      const wide = (((box.eastDeg - box.westDeg) % 360) + 360) % 360;
      for (let i = 0; i <= 100; i++) {
        const along = (i / 50 - 1) * reach;
        for (const [x, y] of [
          [along, reach],
          [along, -reach],
          [reach, along],
          [-reach, along],
        ] as const) {
          const { latitudeDeg, longitudeDeg } = plane.toPosition(x, y);
          expect(latitudeDeg > box.southDeg && latitudeDeg < box.northDeg).toBe(true);
          expect((((longitudeDeg - box.westDeg) % 360) + 360) % 360).toBeLessThan(wide);
        }
      }
    }
  });

  it("have their edges where geodesics find them, to a metre", () => {
    const centre = { latitudeDeg: 50, longitudeDeg: -5 };
    const plane = planeAround(centre, 100 * NM);
    const corners = [30, 150, 270].map((bearing) => geodesicFrom(centre, bearing, 40 * NM).position);
    const laid = landOn(plane, [land(ring(...corners.map(({ longitudeDeg, latitudeDeg }) => [longitudeDeg, latitudeDeg] as const)))]);
    for (const bearing of [30, 150, 270]) {
      const rad = (bearing * Math.PI) / 180;
      const touched = laid?.firstTouched(90 * NM * Math.sin(rad), 90 * NM * Math.cos(rad), 0, 0);
      expect((1 - (touched?.share ?? 0)) * 90 * NM).toBeCloseTo(40 * NM, -0.5);
    }
  });
});
