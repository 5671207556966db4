// @ts-check
// The world's coastline cut to the square of 200 nm around a place and indexed, and what the index answers, beside brute force.
import { readWorldCoast } from "../dist/atlas/index.js";
import { boxAround, landOn } from "../dist/core/coast/index.js";
import { planeAround } from "../dist/core/earth/index.js";
import { median, perRun } from "./clock.mjs";

const HALF_METRES = 100 * 1852;
const GOAL_MS = 300;
const LEGS = 200_000;
/** So far a boat goes in a step of five minutes. */
const LEG_METRES = 900;

const places = [
  { name: "skerries, western Norway", latitudeDeg: 60.5, longitudeDeg: 4.5 },
  { name: "channels of southern Chile", latitudeDeg: -50, longitudeDeg: -75 },
  { name: "the Aegean", latitudeDeg: 37.5, longitudeDeg: 25.5 },
  { name: "a strait between two coasts", latitudeDeg: 51, longitudeDeg: 1.4 },
  { name: "islands on 180°", latitudeDeg: -17, longitudeDeg: 179.9 },
];

export function benchCoast() {
  const opening = Array.from({ length: 5 }, () => {
    const from = performance.now();
    readWorldCoast();
    return performance.now() - from;
  });
  console.log(
    `\nThe coastline, a square of 200 nm (goal: cut and indexed in ${GOAL_MS} ms); opening the file ${median(opening).toFixed(0)} ms:`,
  );
  const coast = readWorldCoast();
  console.table(
    places.map(({ name, latitudeDeg, longitudeDeg }) => {
      const plane = planeAround({ latitudeDeg, longitudeDeg }, HALF_METRES);
      const areas = coast.within(boxAround(plane));
      const land = landOn(plane, areas);
      if (land === null) throw new Error(`no land at ${name}`);
      const cut = perRun(() => coast.within(boxAround(plane)));
      const laid = perRun(() => landOn(plane, areas));
      const legs = someLegs(LEGS);
      const edges = edgesOnSheet(plane, areas);
      const few = legs.subarray(0, 4 * 200);
      const slow = perRun(() => count(few, (ax, ay, bx, by) => bruteCrosses(edges, ax, ay, bx, by)));
      const quick = perRun(() => count(legs, (ax, ay, bx, by) => land.crosses(ax, ay, bx, by)));
      const agree = everyLeg(few, (ax, ay, bx, by) => !bruteCrosses(edges, ax, ay, bx, by) || land.crosses(ax, ay, bx, by));
      return {
        place: name,
        corners: edges.length / 4,
        "cut, ms": Number(cut.toFixed(0)),
        "indexed, ms": Number(laid.toFixed(0)),
        "legs a second": `${(LEGS / quick / 1000).toFixed(1)} M`,
        "brute force": `${(200 / slow).toFixed(0)} k`,
        "places a second": `${(LEGS / perRun(() => count(legs, (x, y) => land.contains(x, y))) / 1000).toFixed(1)} M`,
        "edges brute force meets are met": agree ? "all" : "NOT ALL",
      };
    }),
  );
}

/** @param {number} number */
function someLegs(number) {
  let seed = 20270406;
  const draw = () => {
    seed = (seed * 48271) % 2147483647;
    return seed / 2147483647;
  };
  const legs = new Float64Array(4 * number);
  for (let i = 0; i < legs.length; i += 4) {
    const bearing = 2 * Math.PI * draw();
    const [x, y] = [(2 * draw() - 1) * (HALF_METRES - LEG_METRES), (2 * draw() - 1) * (HALF_METRES - LEG_METRES)];
    legs.set([x, y, x + LEG_METRES * Math.sin(bearing), y + LEG_METRES * Math.cos(bearing)], i);
  }
  return legs;
}

/** @typedef {(ax: number, ay: number, bx: number, by: number) => boolean} Ask */

/**
 * @param {Float64Array} legs
 * @param {Ask} ask
 */
function count(legs, ask) {
  let yes = 0;
  for (let i = 0; i < legs.length; i += 4) if (ask(legs[i] ?? 0, legs[i + 1] ?? 0, legs[i + 2] ?? 0, legs[i + 3] ?? 0)) yes++;
  return yes;
}

/**
 * @param {Float64Array} legs
 * @param {Ask} ask
 */
function everyLeg(legs, ask) {
  return count(legs, ask) === legs.length / 4;
}

/**
 * Every edge whose ends lie on the sheet, four numbers to each.
 * @param {import("../src/core/earth/index.ts").Plane} plane
 * @param {readonly import("../src/core/coast/index.ts").LandArea[]} areas
 */
function edgesOnSheet(plane, areas) {
  /** @type {number[]} */
  const edges = [];
  for (const ring of areas.flatMap(({ rings }) => rings)) {
    let before = null;
    for (let i = 0; i < ring.length; i += 2) {
      const place = plane.toPlaneIfOn({ latitudeDeg: ring[i + 1] ?? 0, longitudeDeg: ring[i] ?? 0 });
      if (before !== null && place !== null) edges.push(before.xMetres, before.yMetres, place.xMetres, place.yMetres);
      before = place;
    }
  }
  return Float64Array.from(edges);
}

/**
 * @param {Float64Array} edges
 * @param {number} ax
 * @param {number} ay
 * @param {number} bx
 * @param {number} by
 */
function bruteCrosses(edges, ax, ay, bx, by) {
  for (let i = 0; i < edges.length; i += 4) {
    const [px, py, qx, qy] = [edges[i] ?? 0, edges[i + 1] ?? 0, edges[i + 2] ?? 0, edges[i + 3] ?? 0];
    const side = (/** @type {number} */ x, /** @type {number} */ y) => (bx - ax) * (y - ay) - (by - ay) * (x - ax);
    const other = (/** @type {number} */ x, /** @type {number} */ y) => (qx - px) * (y - py) - (qy - py) * (x - px);
    if (side(px, py) > 0 !== side(qx, qy) > 0 && other(ax, ay) > 0 !== other(bx, by) > 0) return true;
  }
  return false;
}
