// @ts-check
// One heading across a bell-shaped jet: our simulator beside a naive one, accuracy and time in one run.
import { flatPlane } from "../dist/core/earth/index.js";
import { crossingOf, lineBetween, oneHeading, waysAcross } from "../dist/core/passage/index.js";
import { gaussianJet } from "../dist/core/water/index.js";
import { perRun } from "./clock.mjs";

const NM = 1852;
const KN = NM / 3600;

/**
 * Hours of the best single heading, worked with mpmath quadrature from C4: T_single is the uniform-current answer with the jet's mean.
 * [id, boat kn, x nm, y nm, peak kn, axis nm, half-width nm, hours]
 */
const JETS = /** @type {const} */ ([
  ["6 kn over 3 kn, 50 nm", 6, 50, 0, 3, 25, 10, 8.4672885682953],
  ["5 kn over 4.5 kn, 50 nm and 10 down", 5, 50, 10, 4.5, 20, 9, 10.038650330901],
  ["5 kn over 5.5 kn, 45 nm", 5, 45, 0, 5.5, 18, 8, 9.5938404876436],
]);

/** @param {number} knots */
const boatOf = (knots) => ({
  dependsOnWind: false,
  /** @param {import("../dist/core/boat/index.js").Propulsion} out */
  propelInto(out) {
    out.speedThroughWaterMps = knots * KN;
    out.leewayDeg = 0;
    out.engineOn = true;
    out.burnLitresPerHour = 0;
  },
});

/**
 * What one would write first: vectors as objects, Runge–Kutta 4 at 60 s, the heading by halving.
 * @param {readonly [string, number, number, number, number, number, number, number]} jet
 */
function naiveHours([, boat, x, y, peak, axis, width]) {
  const bearing = Math.atan2(x, y);
  /** @param {{x: number, y: number}} p @param {number} heading */
  const velocity = (p, heading) => ({
    x: boat * Math.sin(heading),
    y: boat * Math.cos(heading) + peak * Math.exp(-(((p.x - axis) / width) ** 2)),
  });
  /** @param {{x: number, y: number}} a @param {{x: number, y: number}} b @param {number} k */
  const add = (a, b, k) => ({ x: a.x + b.x * k, y: a.y + b.y * k });
  /** @param {number} heading */
  const run = (heading) => {
    let p = { x: 0, y: 0 };
    let hours = 0;
    const length = Math.hypot(x, y);
    const h = 1 / 60;
    for (;;) {
      const k1 = velocity(p, heading);
      const k2 = velocity(add(p, k1, h / 2), heading);
      const k3 = velocity(add(p, k2, h / 2), heading);
      const k4 = velocity(add(p, k3, h), heading);
      const next = { x: p.x + (h / 6) * (k1.x + 2 * k2.x + 2 * k3.x + k4.x), y: p.y + (h / 6) * (k1.y + 2 * k2.y + 2 * k3.y + k4.y) };
      const before = (p.x * x + p.y * y) / length;
      const after = (next.x * x + next.y * y) / length;
      if (after >= length) {
        const share = (length - before) / (after - before);
        const end = add(p, { x: next.x - p.x, y: next.y - p.y }, share);
        return { hours: hours + h * share, miss: (end.x * y - end.y * x) / length };
      }
      p = next;
      hours += h;
      if (hours > 100) return { hours, miss: 1e9 };
    }
  };
  let low = bearing - 1.2;
  let high = bearing + 1.2;
  const lowMiss = run(low).miss;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (run(middle).miss > 0 === lowMiss > 0) low = middle;
    else high = middle;
  }
  return run(low).hours;
}

export function benchJets() {
  const plane = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 185200);
  const rows = JETS.map((jet) => {
    const [id, boat, x, y, peak, axis, width, hours] = jet;
    const current = gaussianJet({ rateMps: peak * KN, axisMetres: axis * NM, halfWidthMetres: width * NM }).onPlane(plane);
    const around = { plane, current, currentCovers: null, wind: null, windCovers: null };
    const crossing = crossingOf(lineBetween(plane, 0, 0, x * NM, y * NM), around, boatOf(boat));
    const way = oneHeading(crossing, 0);
    const ours = way.kind === "arrives" ? way.arrivalAt / 3600 : Number.NaN;
    return {
      case: id,
      "error, s": ((ours - hours) * 3600).toFixed(2),
      "one heading, ms": perRun(() => oneHeading(crossing, 0)).toFixed(2),
      "all ways, ms": perRun(() => waysAcross(crossing, 0)).toFixed(2),
      "naive error, s": ((naiveHours(jet) - hours) * 3600).toFixed(2),
      "naive one heading, ms": perRun(() => naiveHours(jet)).toFixed(2),
    };
  });
  console.log("\nOne heading across a jet (steps of 300 s) beside a naive search (Runge–Kutta 4, 60 s, objects):");
  console.table(rows);
}
