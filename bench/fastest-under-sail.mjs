// @ts-check
// The fastest way under sail: accuracy against references by scipy, the plan's tacks, and speed.
import { readFileSync } from "node:fs";
import { SailingBoat, sailTable } from "../dist/core/boat/index.js";
import { flatPlane } from "../dist/core/earth/index.js";
import { crossingOf, fastestWay, lineBetween } from "../dist/core/passage/index.js";
import { analyticCurrent } from "../dist/core/water/index.js";
import { median, perRun } from "./clock.mjs";

const NM = 1852;
const KN = NM / 3600;
const HOUR = 3600;
const GOAL_WARM_MS = 5;
const PLANE = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 600 * NM);

/** The boat, and hours by convex duality and an optimised line: made by test/outside/references/make_sail.py. */
const REFERENCE = JSON.parse(readFileSync(new URL("../test/outside/references/sail.json", import.meta.url), "utf8"));

/** @param {number} x @param {number} axis @param {number} width */
const bell = (x, axis, width) => Math.exp(-(((x - axis) / width) ** 2));

/** @typedef {(x: number, hour: number) => readonly [number, number]} Blow  knots and degrees from, at miles east and hours */
/** @typedef {(x: number, hour: number) => number} North  knots toward north */
/** @type {North} */
const jet = (x) => 3 * bell(x, 20, 9);
/** @type {North} */
const tidal = (_x, hour) => 2 * Math.sin((2 * Math.PI * hour) / 12.42);
/** @type {Blow} */
const veering = (_x, hour) => [12, 300 + 10 * hour];
/** @type {Blow} */
const freshening = (x) => [9 + 6 * bell(x, 30, 12), 70 + 30 * bell(x, 30, 12)];
/** @type {Readonly<Record<string, readonly [Blow, North]>>} */
const WATERS = {
  "reach across a jet": [() => [12, 0], jet],
  "beat across a jet": [() => [12, 90], jet],
  "beat across a jet, wind with it": [() => [14, 120], jet],
  "run across a jet, gybing": [() => [12, 270], jet],
  "wind that turns from ahead to abeam": [(_x, hour) => [12, 60 + 15 * hour], () => 0],
  "wind that turns, in a tide": [veering, tidal],
  "wind that freshens and veers half way across": [freshening, () => 0],
  "the same over a jet": [freshening, jet],
  "wind that turns in time, over a jet": [veering, jet],
};

function sailingBoat() {
  /** @type {{trueWindAngleDeg: number, trueWindMps: number, speedMps: number}[]} */
  const points = [];
  for (const [i, trueWindAngleDeg] of REFERENCE.anglesDeg.entries()) {
    for (const [j, wind] of REFERENCE.windsKn.entries()) {
      points.push({ trueWindAngleDeg, trueWindMps: wind * KN, speedMps: REFERENCE.speedsKn[i][j] * KN });
    }
  }
  const table = sailTable(points);
  if (!table.ok) throw new Error(JSON.stringify(table.issues));
  return new SailingBoat({
    table: table.value,
    engine: "never",
    power: null,
    exponent: 2,
    headsailOnlyBeyondDeg: 35,
    hullSpeedMps: null,
    leewayCoefficient: null,
    leewayCapDeg: 0,
  });
}

/** @param {Blow} blow @param {North} north @param {readonly [number, number]} to */
function crossingIn(blow, north, to) {
  const current = analyticCurrent("flow", (out, x, _y, at) => {
    out[0] = 0;
    out[1] = north(x / NM, at / HOUR) * KN;
  });
  /** @type {import("../dist/core/weather/index.js").WindSampler} */
  const wind = {
    readInto(out, x, _y, at) {
      const [knots, fromDeg] = blow(x / NM, at / HOUR);
      out[1] = knots * KN;
      out[2] = knots * KN;
      out[3] = ((fromDeg % 360) + 360) % 360;
      out[4] = 0;
      return 0;
    },
    breaksWithin: () => [],
  };
  const around = { plane: PLANE, current: current.onPlane(PLANE), currentCovers: null, wind, windCovers: null };
  return crossingOf(lineBetween(PLANE, 0, 0, to[0] * NM, to[1] * NM), around, sailingBoat());
}

export function benchUnderSail() {
  const rows = REFERENCE.cases.map((/** @type {{case: string, toNm: readonly [number, number], hours: number}} */ one) => {
    const [blow, north] = WATERS[one.case] ?? [];
    if (blow === undefined || north === undefined) throw new Error(`no wind and water for "${one.case}"`);
    const crossing = crossingIn(blow, north, one.toNm);
    const quick = { crossCheck: false, plan: false };
    /** @param {import("../dist/core/passage/index.js").FastestOptions} options */
    const arrived = (options) => {
      const way = fastestWay(crossing, 0, options);
      if (way.kind === "fails") throw new Error(way.why.code);
      return way;
    };
    /** @param {import("../dist/core/passage/index.js").FastestOptions} options */
    const off = (options) => `${((arrived(options).arrivalAt / HOUR / one.hours - 1) * 100).toFixed(4)} %`;
    const plan = arrived({ crossCheck: false }).underSail?.plan;
    const firsts = Array.from({ length: 5 }, () => {
      const fresh = crossingIn(blow, north, one.toNm);
      const from = performance.now();
      fastestWay(fresh, 0, quick);
      return performance.now() - from;
    });
    return {
      case: one.case,
      off: off(quick),
      "first, ms": median(firsts).toFixed(1),
      "warm, ms": perRun(() => fastestWay(crossing, 0, quick)).toFixed(2),
      "cross-checked, off": off({ plan: false }),
      "ms ": perRun(() => fastestWay(crossing, 0, { plan: false })).toFixed(0),
      "plan, later by": plan?.kind === "arrives" ? `${((plan.arrivalAt / HOUR - one.hours) * 60).toFixed(1)} min` : "fails",
      tacks: plan?.kind === "arrives" ? plan.tacks + plan.gybes : "",
      "bound and plan, ms": perRun(() => fastestWay(crossing, 0, { crossCheck: false })).toFixed(1),
    };
  });
  console.log(`\nThe fastest way under sail (goal: warm ${GOAL_WARM_MS} ms):`);
  console.table(rows);
}
