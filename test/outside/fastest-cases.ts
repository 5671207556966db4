import type { GridData } from "../../src/core/fields/index.ts";
import { type Crossing, crossingOf, type FastestArrives, type FastestWay, lineBetween } from "../../src/core/passage/index.ts";
import { analyticCurrent, type CurrentSource, gridCurrent } from "../../src/core/water/index.ts";
import { FLAT, HOUR, KN, NM, powerBoat } from "./ways-cases.ts";

/** East and north, kn, at miles east and north and hours. */
export type Flow = (east: number, north: number, hour: number) => readonly [number, number];

export interface FastestCase {
  readonly id: string;
  readonly flow: Flow;
  readonly boatKn: number;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly departHours: number;
  readonly hours: number;
  /** The share that a time through an hourly grid of one mile may be off, the grid's own error in it; null: not run on a grid. */
  readonly gridShare: number | null;
}

const tide = (hour: number): number => Math.sin((2 * Math.PI * hour) / 12.42);
const bell = (east: number, axis: number, width: number): number => Math.exp(-(((east - axis) / width) ** 2));

/** The shear u = −V y / h in units of h = 10 nm and V = 5 kn. */
const shear: Flow = (_east, north) => [-north / 2, 0];

interface Group {
  readonly id: string;
  readonly flow: Flow;
  readonly boatKn: number;
  readonly from?: readonly [number, number];
  readonly to: readonly [number, number];
  readonly gridShare: number | null;
  readonly times: readonly (readonly [departHours: number, hours: number])[];
}

// Sources: the shear is Bryson & Ho, Applied Optimal Control, §2.7 (closed form in the angles; the book's own 5.46 h/V is from memory);
// J1 to J5 quadrature of sin θ = kS/(1 − kv) with mpmath; C5, C6 the scalar equation (S·T)² = D² + J²; C7, C8 and a to d1 direct shooting
// with scipy (DOP853), every extremal found by a scan of headings. Status: computed.
const GROUPS: readonly Group[] = [
  {
    id: "shear, closed form",
    flow: shear,
    boatKn: 5,
    from: [36.58657562, -18.637033052],
    to: [0, 0],
    gridShare: null,
    times: [[0, 2 * 5.4641016151]],
  },
  { id: "shear, case a", flow: shear, boatKn: 5, from: [36.6, -18.6], to: [0, 0], gridShare: null, times: [[0, 2 * 5.4578652636]] },
  { id: "jet, case b", flow: (x) => [0, 3.5 * bell(x, 25, 12)], boatKn: 5.5, to: [60, 5], gridShare: 1e-4, times: [[0, 11.02183]] },
  {
    id: "jet stronger than the boat, case c",
    flow: (x) => [0, 6 * bell(x, 25, 12)],
    boatKn: 5.5,
    to: [60, 5],
    gridShare: 1e-4,
    times: [[0, 11.453285]],
  },
  {
    id: "uniform tide, case d0",
    flow: (_x, _y, t) => [0, 2.5 * tide(t)],
    boatKn: 5.5,
    to: [60, 0],
    gridShare: 1e-4,
    times: [[0, 10.911933]],
  },
  {
    id: "sheared tide, case d1",
    flow: (x, _y, t) => [0, 2.5 * tide(t) * bell(x, 30, 20)],
    boatKn: 5.5,
    to: [60, 0],
    gridShare: 1e-4,
    times: [
      [0, 10.920488],
      [3, 10.977899],
      [6, 10.927063],
    ],
  },
  { id: "J1", flow: (x) => [0, 3 * bell(x, 25, 10)], boatKn: 6, to: [50, 0], gridShare: 1e-4, times: [[0, 8.4671525634801]] },
  { id: "J2", flow: (x) => [0, 4.5 * bell(x, 20, 9)], boatKn: 5, to: [50, 10], gridShare: 1e-4, times: [[0, 10.038620254656]] },
  {
    id: "J4, stronger than the boat",
    flow: (x) => [0, 5.5 * bell(x, 18, 8)],
    boatKn: 5,
    to: [45, 0],
    gridShare: 1e-4,
    times: [[0, 9.5824541540354]],
  },
  {
    id: "J5",
    flow: (x) => [0, 3.5 * bell(x, 12, x < 12 ? 5 : 14)],
    boatKn: 5.5,
    to: [45, 0],
    gridShare: 1e-4,
    times: [[0, 8.4229773149584]],
  },
  {
    id: "C5",
    flow: (_x, _y, t) => [0, 2.5 * tide(t)],
    boatKn: 5,
    to: [20, 0],
    gridShare: 3e-4,
    times: [
      [0, 4.288082992371],
      [1.5, 4.341752109587],
      [3.105, 4.092978137009],
      [4.21, 4],
      [9.315, 4.092978137009],
    ],
  },
  {
    id: "C6",
    flow: (_x, _y, t) => [Math.cos((2 * Math.PI * t) / 12.42), 2 * tide(t)],
    boatKn: 5,
    to: [18, 8],
    gridShare: 3e-4,
    times: [[0, 3.289671278762]],
  },
  {
    id: "C7",
    flow: (x, _y, t) => [0, 3.5 * bell(x, 11, 7) * tide(t)],
    boatKn: 5,
    to: [22, 0],
    gridShare: 3e-4,
    times: [
      [0, 4.6344063363],
      [1.5, 4.6416893862],
      [3, 4.4601859678],
      [4, 4.4000067117],
      [7, 4.6784079853],
    ],
  },
  {
    id: "C8",
    flow: (x, _y, t) => [0, 4 * bell(x, 18, 8) + 2 * tide(t) * bell(x, 40, 6)],
    boatKn: 5.5,
    to: [48, 0],
    gridShare: 1e-4,
    times: [
      [0, 8.8642440884],
      [3.105, 8.8304367079],
    ],
  },
];

export const FASTEST_CASES: readonly FastestCase[] = GROUPS.flatMap(({ times, ...group }) =>
  times.map(([departHours, hours]) => ({ from: [0, 0] as const, ...group, departHours, hours })),
);

export function flowCurrent(flow: Flow): CurrentSource {
  return analyticCurrent("flow", (out, x, y, at) => {
    const [east, north] = flow(x / NM, y / NM, at / HOUR);
    out[0] = east * KN;
    out[1] = north * KN;
  });
}

export function crossingIn(one: FastestCase, current: CurrentSource): Crossing {
  const line = lineBetween(FLAT, one.from[0] * NM, one.from[1] * NM, one.to[0] * NM, one.to[1] * NM);
  const around = { plane: FLAT, current: current.onPlane(FLAT), currentCovers: current.covers, wind: null, windCovers: null };
  return crossingOf(line, around, powerBoat(one.boatKn));
}

/** The flow on a latitude and longitude grid of one mile and one hour that reaches well round the way. */
export function hourlyGrid(one: FastestCase): CurrentSource {
  const reach = Math.ceil(0.8 * Math.hypot(one.to[0] - one.from[0], one.to[1] - one.from[1]));
  const nodes = (a: number, b: number): number[] =>
    Array.from(
      { length: Math.ceil(Math.max(a, b)) + reach - Math.floor(Math.min(a, b)) + reach + 1 },
      (_, i) => Math.floor(Math.min(a, b)) - reach + i,
    );
  const easts = nodes(one.from[0], one.to[0]);
  const norths = nodes(one.from[1], one.to[1]);
  const hours = Array.from({ length: Math.ceil(one.departHours + 1.5 * one.hours) + 2 }, (_, i) => i);
  const values = new Float32Array(2 * hours.length * norths.length * easts.length);
  let n = 0;
  for (const hour of hours) {
    for (const north of norths) {
      for (const east of easts) {
        const [u, v] = one.flow(east, north, hour);
        values[n++] = u * KN;
        values[n++] = v * KN;
      }
    }
  }
  // On the flat plane around 0°, 0° a minute is a mile.
  const data: GridData = {
    quantities: ["currentEastMps", "currentNorthMps"],
    mesh: {
      kind: "latLon",
      latitudesDeg: Float64Array.from(norths, (m) => m / 60),
      longitudesDeg: Float64Array.from(easts, (m) => m / 60),
    },
    times: Float64Array.from(hours, (h) => h * HOUR),
    values,
    missing: new Uint8Array(values.length / 2),
    nature: "instant",
    source: "made for this test",
    issuedAt: 0,
    member: 0,
  };
  return gridCurrent(data);
}

export function fastestArrives(way: FastestWay): FastestArrives {
  if (way.kind === "fails") throw new Error(`the fastest way fails: ${JSON.stringify(way.why)}`);
  return way;
}

export const fastestHours = (way: FastestWay): number => {
  const { arrivalAt, departAt } = fastestArrives(way);
  return (arrivalAt - departAt) / HOUR;
};
