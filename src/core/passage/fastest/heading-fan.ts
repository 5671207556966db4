import { type Extremal, type ExtremalRunner, stepsFor } from "./extremal.ts";

/** Headings of the fan, all round. */
export const FAN_HEADINGS = 720;

/**
 * Extremals on every half degree, all round: wherever two neighbours pass the destination on either side within the time given, one
 * between them leads there. Those that do, earliest first; neighbours that part fast are only as sure as the half degree.
 */
export function fanOfHeadings(
  runner: ExtremalRunner,
  at: number,
  withinSeconds: number,
  toAlong: number,
  headings = FAN_HEADINGS,
): Extremal[] {
  const steps = stepsFor(withinSeconds);
  const stride = 3 * (steps + 1);
  const into = new Float64Array(stride * (headings + 1));
  const done = new Int32Array(headings + 1);
  for (let i = 0; i <= headings; i++) {
    runner.run(headingRadOf(i, headings), at, withinSeconds, steps, false, into.subarray(i * stride, (i + 1) * stride));
    done[i] = runner.stepsDone;
  }
  const found: Extremal[] = [];
  for (let i = 0; i < headings; i++) {
    const last = Math.min(done[i] as number, done[i + 1] as number);
    for (let step = 0; step < last; step++) {
      const a = i * stride + 3 * step;
      if (!holds(into, a, a + 3, a + stride, a + stride + 3, toAlong)) continue;
      const seconds = ((step + 0.5) * withinSeconds) / steps;
      const led = runner.lead((headingRadOf(i, headings) + headingRadOf(i + 1, headings)) / 2, seconds, at, toAlong, true);
      if (led !== null) found.push(led);
    }
  }
  return found.sort((a, b) => a.seconds - b.seconds);
}

const headingRadOf = (i: number, headings: number): number => (2 * Math.PI * i) / headings;

/** Whether (`x`, 0) lies in the four-cornered patch between two neighbours' places at two times, as two triangles. */
function holds(places: Float64Array, a: number, b: number, c: number, d: number, x: number): boolean {
  return inTriangle(places, a, b, c, x) || inTriangle(places, b, d, c, x);
}

function inTriangle(places: Float64Array, a: number, b: number, c: number, x: number): boolean {
  const ax = (places[a] as number) - x;
  const ay = places[a + 1] as number;
  const bx = (places[b] as number) - x;
  const by = places[b + 1] as number;
  const cx = (places[c] as number) - x;
  const cy = places[c + 1] as number;
  const ab = ax * by - ay * bx;
  const bc = bx * cy - by * cx;
  const ca = cx * ay - cy * ax;
  return (ab >= 0 && bc >= 0 && ca >= 0) || (ab <= 0 && bc <= 0 && ca <= 0);
}
