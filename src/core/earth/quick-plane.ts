import { RAD_PER_DEG, wrap180Deg } from "../units/index.ts";
import { fitMirror, type MirrorPolynomial } from "./disc-fit.ts";
import type { Plane } from "./plane.ts";

/** What the quick polynomials may miss the plane's own functions by, measured on other points than the fitted ones. */
const WANTED_ERROR_METRES = 0.002;
const WANTED_ERROR_DEG = 1e-6;
// Nothing is added at the centre: the polynomials have no constant term.
const DEGREES = [5, 7, 9, 11] as const;
const METRES_PER_DEG = 1852 * 60;

/** A mirror polynomial laid out flat, to be read in the innermost loop: rows one after another, each from the highest power of y down. */
interface FlatPolynomial {
  readonly coefficients: Float64Array;
  readonly rowLengths: Uint8Array;
  readonly odd: boolean;
}

/**
 * The same plane with `toPosition` and `convergenceDegAt`, which are asked at every step of every run, read from three polynomials of
 * x and y instead of trigonometry: some five times as fast. Where no polynomial of reasonable degree is as good as wanted (close to
 * a pole, where longitude bends) the plane is given back as it is. `errorMetres` is what was measured.
 */
export function quickened(plane: Plane): { readonly plane: Plane; readonly errorMetres: number; readonly errorDeg: number } {
  const { centre, radiusMetres } = plane;
  const { x, y } = gridOf(13, radiusMetres);
  const others = gridOf(10, radiusMetres);
  for (const degree of DEGREES) {
    const samples = { x: x.map((one) => one / radiusMetres), y: y.map((one) => one / radiusMetres) };
    const fitted = (xPower: 0 | 1, of: (x: number, y: number) => number): FlatPolynomial =>
      flat(fitMirror({ ...samples, values: x.map((one, i) => of(one, y[i] as number)) }, xPower, 1, degree));
    const northDeg = fitted(0, (px, py) => plane.toPosition(px, py).latitudeDeg - centre.latitudeDeg);
    const eastDeg = fitted(1, (px, py) => wrap180Deg(plane.toPosition(px, py).longitudeDeg - centre.longitudeDeg));
    const turnDeg = fitted(1, (px, py) => plane.convergenceDegAt(px, py));
    const quick = quickPlane(plane, northDeg, eastDeg, turnDeg);
    let errorMetres = 0;
    let errorDeg = 0;
    for (let i = 0; i < others.x.length; i++) {
      const px = others.x[i] as number;
      const py = others.y[i] as number;
      const exact = plane.toPosition(px, py);
      const got = quick.toPosition(px, py);
      const north = (got.latitudeDeg - exact.latitudeDeg) * METRES_PER_DEG;
      const east = wrap180Deg(got.longitudeDeg - exact.longitudeDeg) * METRES_PER_DEG * Math.cos(exact.latitudeDeg * RAD_PER_DEG);
      errorMetres = Math.max(errorMetres, Math.hypot(north, east));
      errorDeg = Math.max(errorDeg, Math.abs(quick.convergenceDegAt(px, py) - plane.convergenceDegAt(px, py)));
    }
    if (errorMetres < WANTED_ERROR_METRES && errorDeg < WANTED_ERROR_DEG) return { plane: quick, errorMetres, errorDeg };
  }
  return { plane, errorMetres: 0, errorDeg: 0 };
}

/** Points of a square grid over the plane, drawn toward its edges as Chebyshev's are, so that a fit does not swing there. */
function gridOf(side: number, radiusMetres: number): { x: Float64Array; y: Float64Array } {
  const node = (k: number): number => radiusMetres * Math.sin((Math.PI / 2) * ((2 * k) / (side - 1) - 1));
  return {
    x: Float64Array.from({ length: side * side }, (_, i) => node(i % side)),
    y: Float64Array.from({ length: side * side }, (_, i) => node(Math.floor(i / side))),
  };
}

function flat({ xPower, rows }: MirrorPolynomial): FlatPolynomial {
  const backward = [...rows].reverse();
  return {
    coefficients: Float64Array.from(backward.flatMap((row) => [...row].reverse())),
    rowLengths: Uint8Array.from(backward, (row) => row.length),
    odd: xPower === 1,
  };
}

function flatValue({ coefficients, rowLengths, odd }: FlatPolynomial, u: number, v: number): number {
  const uu = u * u;
  let sum = 0;
  let at = 0;
  for (let i = 0; i < rowLengths.length; i++) {
    const end = at + (rowLengths[i] as number);
    let inner = 0;
    while (at < end) inner = inner * v + (coefficients[at++] as number);
    sum = sum * uu + inner;
  }
  return odd ? sum * u : sum;
}

function quickPlane(plane: Plane, northDeg: FlatPolynomial, eastDeg: FlatPolynomial, turn: FlatPolynomial): Plane {
  const { centre, radiusMetres } = plane;
  const sideShare = 1 + 1e-6;
  const mustReach = (u: number, v: number): void => {
    if (!(Math.abs(u) <= sideShare && Math.abs(v) <= sideShare))
      throw new Error(`outside the plane: ${u}, ${v} of its radius ${radiusMetres} m`);
  };
  return {
    ...plane,
    toPosition(xMetres, yMetres) {
      const u = xMetres / radiusMetres;
      const v = yMetres / radiusMetres;
      mustReach(u, v);
      let longitudeDeg = centre.longitudeDeg + flatValue(eastDeg, u, v);
      if (longitudeDeg >= 180) longitudeDeg -= 360;
      else if (longitudeDeg < -180) longitudeDeg += 360;
      return { latitudeDeg: centre.latitudeDeg + flatValue(northDeg, u, v), longitudeDeg };
    },
    convergenceDegAt(xMetres, yMetres) {
      const u = xMetres / radiusMetres;
      const v = yMetres / radiusMetres;
      mustReach(u, v);
      return flatValue(turn, u, v);
    },
  };
}
