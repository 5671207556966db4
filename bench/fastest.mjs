// @ts-check
// The fastest way: accuracy against reference times and speed, beside plain label setting, in one run.

import { PowerBoat } from "../dist/core/boat/index.js";
import { landOn } from "../dist/core/coast/index.js";
import { flatPlane } from "../dist/core/earth/index.js";
import { crossingOf, fastestWay, helmOrder, lineBetween } from "../dist/core/passage/index.js";
import { analyticCurrent, gridCurrent } from "../dist/core/water/index.js";
import { periodWind } from "../dist/core/weather/index.js";
import { median, perRun } from "./clock.mjs";
import { benchUnderSail } from "./fastest-under-sail.mjs";

const NM = 1852;
const KN = NM / 3600;
const HOUR = 3600;
const GOAL_FIRST_MS = 25;
const GOAL_WARM_MS = 1.2;
const PLANE = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 600 * NM);

/** @typedef {(east: number, north: number, hour: number) => readonly [number, number]} Flow  kn at nm and hours */
/** @param {number} hour */
const tide = (hour) => Math.sin((2 * Math.PI * hour) / 12.42);
/** @param {number} east @param {number} axis @param {number} width */
const bell = (east, axis, width) => Math.exp(-(((east - axis) / width) ** 2));

/**
 * Reference hours by shooting with scipy and quadrature with mpmath (told in test/outside/fastest-cases.ts).
 * [name, flow, boat kn, to, departure hour, hours]
 * @type {readonly (readonly [string, Flow, number, readonly [number, number], number, number])[]}
 */
const CASES = [
  ["jet of 3.5 kn, boat 5.5, 60 nm", (x) => [0, 3.5 * bell(x, 25, 12)], 5.5, [60, 5], 0, 11.02183],
  ["jet of 6 kn, boat 5.5, 60 nm", (x) => [0, 6 * bell(x, 25, 12)], 5.5, [60, 5], 0, 11.453285],
  ["jet of 5.5 kn, boat 5, 45 nm", (x) => [0, 5.5 * bell(x, 18, 8)], 5, [45, 0], 0, 9.5824541540354],
  ["sheared tide, 60 nm", (x, _y, t) => [0, 2.5 * tide(t) * bell(x, 30, 20)], 5.5, [60, 0], 3, 10.977899],
  ["tide that dies at the sides, 22 nm", (x, _y, t) => [0, 3.5 * bell(x, 11, 7) * tide(t)], 5, [22, 0], 7, 4.6784079853],
  ["jet and tidal far shore, 48 nm", (x, _y, t) => [0, 4 * bell(x, 18, 8) + 2 * tide(t) * bell(x, 40, 6)], 5.5, [48, 0], 0, 8.8642440884],
];

/** @param {number} knots */
const powerBoat = (knots) =>
  new PowerBoat({ calmSpeedMps: knots * KN, estimatedFromWaterline: false, burnLitresPerHour: 3, headwindLossShare: 0 });

/** @param {Flow} flow */
const exactly = (flow) =>
  analyticCurrent("flow", (out, x, y, at) => {
    const [east, north] = flow(x / NM, y / NM, at / HOUR);
    out[0] = east * KN;
    out[1] = north * KN;
  });

/**
 * The flow on a grid of a mile and an hour; on the flat plane around 0°, 0° a minute is a mile.
 * @param {Flow} flow @param {readonly [number, number]} to @param {number} hours
 */
function hourlyGrid(flow, to, hours) {
  const reach = Math.ceil(0.8 * Math.hypot(to[0], to[1]));
  const easts = Array.from({ length: to[0] + 2 * reach + 1 }, (_, i) => i - reach);
  const norths = Array.from({ length: to[1] + 2 * reach + 1 }, (_, i) => i - reach);
  const times = Array.from({ length: hours + 1 }, (_, i) => i);
  const values = new Float32Array(2 * times.length * norths.length * easts.length);
  let n = 0;
  for (const hour of times) {
    for (const north of norths) {
      for (const east of easts) {
        const [u, v] = flow(east, north, hour);
        values[n++] = u * KN;
        values[n++] = v * KN;
      }
    }
  }
  return gridCurrent({
    quantities: ["currentEastMps", "currentNorthMps"],
    mesh: {
      kind: "latLon",
      latitudesDeg: Float64Array.from(norths, (m) => m / 60),
      longitudesDeg: Float64Array.from(easts, (m) => m / 60),
    },
    times: Float64Array.from(times, (h) => h * HOUR),
    values,
    missing: new Uint8Array(values.length / 2),
    nature: "instant",
    source: "made for this bench",
    issuedAt: 0,
    member: 0,
  });
}

/**
 * @param {import("../dist/core/water/index.js").CurrentSource} current
 * @param {import("../dist/core/boat/index.js").BoatModel} boat
 * @param {readonly [number, number]} to
 * @param {Partial<import("../dist/core/passage/index.js").Surroundings>} [more]
 */
function crossingIn(current, boat, to, more = {}) {
  const around = { plane: PLANE, current: current.onPlane(PLANE), currentCovers: current.covers, wind: null, windCovers: null, ...more };
  return crossingOf(lineBetween(PLANE, 0, 0, to[0] * NM, to[1] * NM), around, boat);
}

/** @param {import("../dist/core/passage/index.js").FastestWay} way */
function hoursOf(way) {
  if (way.kind === "fails") throw new Error(way.why.code);
  return (way.arrivalAt - way.departAt) / HOUR;
}

/**
 * What one would write first: label setting by breadth of time (Dijkstra) on 48 cells to the line in 32 directions.
 * @param {Flow} flow @param {number} boat @param {readonly [number, number]} to @param {number} departHour
 */
function labelHours(flow, boat, to, departHour) {
  const length = Math.hypot(to[0], to[1]);
  const cell = length / 48;
  const [c, s] = [to[0] / length, to[1] / length];
  /** @type {(readonly [number, number])[]} */
  const steps = [];
  for (let i = -3; i <= 3; i++) for (let j = -3; j <= 3; j++) if (Math.abs(gcd(i, j)) === 1) steps.push([i, j]);
  /** @type {Map<string, {i: number, j: number, hours: number}>} */
  const open = new Map([["0 0", { i: 0, j: 0, hours: 0 }]]);
  const closed = new Set();
  for (;;) {
    let best = null;
    for (const one of open.values()) if (best === null || one.hours < best.hours) best = one;
    if (best === null) return Number.NaN;
    if (best.i === 48 && best.j === 0) return best.hours;
    open.delete(`${best.i} ${best.j}`);
    closed.add(`${best.i} ${best.j}`);
    for (const [di, dj] of steps) {
      const [i, j] = [best.i + di, best.j + dj];
      const key = `${i} ${j}`;
      if (i < -12 || i > 60 || Math.abs(j) > 24 || closed.has(key)) continue;
      const [a, b] = [(best.i + di / 2) * cell, (best.j + dj / 2) * cell];
      const metres = Math.hypot(di, dj) * cell;
      const [u, v] = flow(a * c - b * s, a * s + b * c, departHour + best.hours + metres / 2 / boat);
      const [ex, ey] = [((di * c - dj * s) * cell) / metres, ((di * s + dj * c) * cell) / metres];
      const across = ex * v - ey * u;
      const made = ex * u + ey * v + Math.sqrt(boat * boat - across * across);
      if (!(made > 0)) continue;
      const hours = best.hours + metres / made;
      const known = open.get(key);
      if (known === undefined || hours < known.hours) open.set(key, { i, j, hours });
    }
  }
}

/** @param {number} a @param {number} b @returns {number} */
const gcd = (a, b) => (b === 0 ? a : gcd(b, a % b));
/** @param {number} hours @param {number} reference */
const offBy = (hours, reference) => `${((hours / reference - 1) * 100).toFixed(5)} %`;
/** @param {() => unknown} run  each time with all to be read anew */
function firstMs(run) {
  const took = Array.from({ length: 15 }, () => {
    const from = performance.now();
    run();
    return performance.now() - from;
  });
  return median(took).toFixed(1);
}

export function benchFastest() {
  const rows = CASES.flatMap(([name, flow, boat, to, departHour, reference]) => {
    const grid = hourlyGrid(flow, to, departHour + 24);
    const plainFrom = performance.now();
    const plain = labelHours(flow, boat, to, departHour);
    const plainMs = (performance.now() - plainFrom).toFixed(0);
    return /** @type {const} */ ([
      ["exact", exactly(flow)],
      ["hourly, 1 nm", grid],
    ]).map(([water, current]) => {
      const at = departHour * HOUR;
      const crossing = crossingIn(current, powerBoat(boat), to);
      const quick = () => fastestWay(crossing, at, { crossCheck: false });
      return {
        case: name,
        water,
        off: offBy(hoursOf(quick()), reference),
        "first, ms": firstMs(() => fastestWay(crossingIn(current, powerBoat(boat), to), at, { crossCheck: false })),
        "warm, ms": perRun(quick).toFixed(2),
        "cross-checked, off": offBy(hoursOf(fastestWay(crossing, at)), reference),
        "ms ": perRun(() => fastestWay(crossing, at)).toFixed(0),
        "plain label setting, off": offBy(plain, reference),
        "ms  ": plainMs,
      };
    });
  });
  console.log(`\nThe fastest way (goals: first ${GOAL_FIRST_MS} ms, warm ${GOAL_WARM_MS} ms):`);
  console.table(rows);

  const jet = exactly((x) => [0, 3.5 * bell(x, 25, 12)]);
  const corners = /** @type {const} */ ([24, 1, 30, 9, 36, 1, 30, -7]);
  const land = landOn(PLANE, [{ kind: "land", name: null, rings: [Float64Array.from(corners, (nm) => nm / 60)] }]);
  const island = crossingIn(jet, powerBoat(5.5), [60, 5], { land });
  const blow = { from: 0, until: 72 * HOUR, fromDegTrue: 60, arcDeg: 0, speedLowMps: 15 * KN, speedHighMps: 15 * KN, gustMps: null };
  const wind = periodWind("letter", null, [/** @type {any} */ (blow)], 1.4);
  const lossy = new PowerBoat({ calmSpeedMps: 5.5 * KN, estimatedFromWaterline: false, burnLitresPerHour: 3, headwindLossShare: 0.3 });
  const headwind = crossingIn(jet, lossy, [60, 5], { wind: wind.onPlane(PLANE, 0), windCovers: wind.covers });
  const week = crossingIn(
    hourlyGrid((x, _y, t) => [0, 2.5 * tide(t) * bell(x, 30, 20)], [60, 0], 192),
    powerBoat(5.5),
    [60, 0],
  );
  const inTurn = () => {
    for (let hour = 0; hour < 168; hour++) fastestWay(week, hour * HOUR, { crossCheck: false });
  };
  const weekFrom = performance.now();
  inTurn();
  const weekFirst = performance.now() - weekFrom;
  const strong = crossingIn(
    exactly((x) => [0, 5.5 * bell(x, 18, 8)]),
    powerBoat(5),
    [45, 0],
  );
  const way = fastestWay(strong, 0, { crossCheck: false });
  if (way.kind === "fails") throw new Error(way.why.code);
  const order = helmOrder(strong, way, HOUR);
  /** @param {import("../dist/core/passage/index.js").Crossing} crossing */
  const quickly = (crossing) => fastestWay(crossing, 0, { crossCheck: false });
  console.table([
    {
      what: "round an island of four corners",
      off: offBy(hoursOf(quickly(island)), 11.095915),
      ms: perRun(() => quickly(island)).toFixed(2),
    },
    {
      what: "power that loses to the wind",
      off: offBy(hoursOf(quickly(headwind)), 12.246689323),
      ms: perRun(() => quickly(headwind)).toFixed(2),
    },
    { what: "168 departures in turn, each, water read on the way", off: "", ms: (weekFirst / 168).toFixed(2) },
    { what: "the same again, each", off: "", ms: (perRun(inTurn) / 168).toFixed(2) },
    {
      what: "its order by the hour in the jet of 5.5 kn: what it loses",
      off: order.kind === "order" ? `${order.lossSeconds.toFixed(1)} s` : order.why.code,
      ms: perRun(() => helmOrder(strong, way, HOUR)).toFixed(2),
    },
  ]);
  benchUnderSail();
}
