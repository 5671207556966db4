import { describe, expect, it } from "vitest";
import { readWorldCoast } from "../../src/atlas/index.ts";
import { boxAround, type LandArea, landOn, type Ring } from "../../src/core/coast/index.ts";
import { planeAround, WGS84 } from "../../src/core/earth/index.ts";

const coast = readWorldCoast();

function landAt(latitudeDeg: number, longitudeDeg: number) {
  const plane = planeAround({ latitudeDeg, longitudeDeg }, 20_000);
  return { plane, land: landOn(plane, coast.within(boxAround(plane))) };
}

describe("known places (MEMORY: positions as any atlas gives them, to a mile)", () => {
  it.each([
    ["Mauna Kea", 19.8207, -155.4681],
    ["Table Mountain", -33.9628, 18.4098],
    ["Reykjavík, the church on the hill", 64.1417, -21.9266],
    ["Newport, Isle of Wight", 50.7, -1.29],
    ["Taveuni, on 180°", -16.87, -179.97],
    ["Vanua Levu, west of 180°", -16.6, 179.2],
    ["the Ross Ice Shelf, which a boat meets as a cliff", -80, 180],
    ["Olkhon, an island in Lake Baikal", 53.15, 107.4],
    ["Manitoulin, an island in Lake Huron", 45.75, -82.25],
    ["Greenwich", 51.478, 0],
    ["the middle of the Sahara", 23, 12],
  ])("%s is land", (_, latitudeDeg, longitudeDeg) => {
    expect(landAt(latitudeDeg, longitudeDeg).land?.contains(0, 0)).toBe(true);
  });

  it.each([
    ["the Strait of Dover", 51.0, 1.45],
    ["the Strait of Gibraltar", 35.95, -5.6],
    ["Cook Strait", -41.2, 174.45],
    ["the Solent", 50.78, -1.3],
    ["the Alenuihaha Channel", 20.4, -156.0],
    ["the Caspian Sea", 42, 50.5],
    ["Lake Victoria", -1, 33],
    ["Lake Manitou, on Manitoulin, in Lake Huron", 45.78, -81.98],
    ["the South Pacific at 33° 36′ S 118° 30′ W", -33.6, -118.5],
    ["180° off Fiji", -18.2, 180],
  ])("%s is water", (_, latitudeDeg, longitudeDeg) => {
    expect(landAt(latitudeDeg, longitudeDeg).land?.contains(0, 0) ?? false).toBe(false);
  });

  it("across the Strait of Dover it is some 33 to 34 km at the narrowest (MEMORY): no less, and hardly more on a line near it", () => {
    const plane = planeAround({ latitudeDeg: 51.0, longitudeDeg: 1.45 }, 60_000);
    const land = landOn(plane, coast.within(boxAround(plane)));
    // From mid-strait along the shortest line, bearing about 139 from St Margaret's to Gris-Nez.
    const bearing = (139 * Math.PI) / 180;
    const toward = (sense: 1 | -1): number =>
      40_000 * (land?.firstTouched(0, 0, sense * 40_000 * Math.sin(bearing), sense * 40_000 * Math.cos(bearing))?.share ?? Number.NaN);
    const metres = toward(1) + toward(-1);
    expect(metres).toBeGreaterThan(32_500);
    expect(metres).toBeLessThan(36_500);
  });
});

/** Area of a ring, straight in longitude and authalic sine, km² (Snyder, "Map Projections: A Working Manual", 1987, eq. 3-12 and 3-13). */
function areaKm2(ring: Ring): number {
  const { equatorialRadiusMetres, flattening } = WGS84;
  const a = equatorialRadiusMetres / 1000;
  const e2 = flattening * (2 - flattening);
  const e = Math.sqrt(e2);
  const q = (sine: number) => (1 - e2) * (sine / (1 - e2 * sine * sine) - Math.log((1 - e * sine) / (1 + e * sine)) / (2 * e));
  const rad = Math.PI / 180;
  let sum = 0;
  for (let i = 0, k = ring.length - 2; i < ring.length; k = i, i += 2) {
    const height = (q(Math.sin((ring[i + 1] as number) * rad)) + q(Math.sin((ring[k + 1] as number) * rad))) / 2;
    sum -= ((ring[i] as number) - (ring[k] as number)) * rad * height;
  }
  return (Math.abs(sum) * a * a) / 2;
}

describe("areas of islands (MEMORY: published land areas, km²)", () => {
  const biggest = (areas: readonly LandArea[]): number => Math.max(...areas.map(({ rings }) => areaKm2(rings[0] as Ring)));
  it.each([
    // The first four: State of Hawaii Data Book, land area of islands.
    ["Hawaii", 18.5, 20.5, -156.5, -154.5, 10_432],
    ["Maui", 20.4, 21.2, -156.75, -155.9, 1883],
    ["Oahu", 21.2, 21.8, -158.4, -157.55, 1545],
    ["Kauai", 21.8, 22.3, -159.9, -159.2, 1430],
    ["Crete", 34.7, 35.8, 23.4, 26.4, 8303],
    ["Jamaica", 17.5, 18.7, -78.5, -76, 10_991],
    ["Tasmania", -43.8, -40.5, 144.4, 148.6, 64_519],
    ["Réunion", -21.5, -20.8, 55.1, 55.9, 2512],
    ["Mauritius", -20.6, -19.9, 57.2, 57.9, 1865],
    ["Corsica", 41.36, 43.1, 8.5, 9.6, 8680],
    ["Sardinia", 38.8, 41.29, 8.1, 9.9, 23_813],
    ["Sicily", 36.6, 38.4, 12.3, 15.66, 25_460],
    ["Cyprus", 34.5, 35.75, 32.2, 34.7, 9251],
    ["Iceland", 63.2, 66.7, -24.7, -13.3, 101_826],
  ])("%s: within 2 %%", (_, southDeg, northDeg, westDeg, eastDeg, published) => {
    const area = biggest(coast.within({ southDeg, northDeg, westDeg, eastDeg }));
    expect(Math.abs(area / published - 1)).toBeLessThan(0.02);
  });

  it.each([
    ["Molokai", 21.0, 21.3, -157.4, -156.65, 673],
    ["Lanai", 20.7, 20.95, -157.1, -156.78, 364],
    ["Saint Helena", -16.1, -15.8, -5.9, -5.5, 121],
    ["Bornholm", 54.9, 55.4, 14.6, 15.3, 588],
    ["the Isle of Man", 54.0, 54.45, -4.95, -4.25, 572],
  ])(
    "small ones are drawn too big, by a hundred metres or so around: %s within 7 %%",
    (_, southDeg, northDeg, westDeg, eastDeg, published) => {
      const area = biggest(coast.within({ southDeg, northDeg, westDeg, eastDeg }));
      expect(Math.abs(area / published - 1)).toBeLessThan(0.07);
    },
  );
});
