import type { Point } from "../svg/box.ts";
import { px } from "../svg/px.ts";

/** A wind's barb, taken apart: pennants of 50 kn, feathers of 10, half feathers of 5. */
export type Barb = { readonly pennants: number; readonly feathers: number; readonly halves: 0 | 1 };

/**
 * What a wind's shaft bears: the speed to the nearest five knots (WMO-No. 485, Manual on the Global Data-processing and Forecasting
 * System, Attachment on graphical representation: half feather 5 kn, feather 10 kn, pennant 50 kn). 67 kn is one of each.
 */
export function barbFor(kn: number): Barb {
  const fives = Math.round(kn / 5);
  return { pennants: Math.floor(fives / 10), feathers: Math.floor((fives % 10) / 2), halves: (fives % 2) as 0 | 1 };
}

/** Under this the air is calm: no shaft, but a ring around the station (WMO code 2700 reports it as 00). */
export const CALM_BELOW_KN = 0.5;

/**
 * The strokes of a barb as path data: the shaft from the station toward where the wind comes from, what it bears on its right as seen
 * from the station (toward lower pressure north of the equator), on its left where `southern`.
 *
 * @param station - where the wind is, on the drawing
 * @param toward - a step of unit length on the drawing toward where the wind comes from
 */
export function barbStrokes(
  station: Point,
  toward: Point,
  kn: number,
  shaftPx: number,
  southern: boolean,
): { strokes: string; pennants: string } {
  const { pennants, feathers, halves } = barbFor(kn);
  const [ux, uy] = toward;
  const side = southern ? -1 : 1;
  const [nx, ny] = [-uy * side, ux * side];
  const feather = shaftPx * 0.38;
  const slant = feather * 0.36;
  const step = Math.min(shaftPx * 0.17, shaftPx / (pennants * 1.9 + feathers + halves + 1));
  const on = (along: number): Point => [station[0] + ux * along, station[1] + uy * along];
  const off = (along: number, length: number): Point => {
    const [x, y] = on(along + (slant * length) / feather);
    return [x + nx * length, y + ny * length];
  };
  const say = ([x, y]: Point): string => `${px(x)} ${px(y)}`;
  let strokes = `M${say(station)}L${say(on(shaftPx))}`;
  let flags = "";
  let along = shaftPx;
  for (let i = 0; i < pennants; i++) {
    flags += `M${say(on(along))}L${say(off(along - step * 1.3, feather))}L${say(on(along - step * 1.5))}Z`;
    along -= step * 1.9;
  }
  // A lone half feather stands in from the end, so that it can't be taken for a whole one.
  if (pennants === 0 && feathers === 0 && halves === 1) along -= step * 1.4;
  for (let i = 0; i < feathers; i++) {
    strokes += `M${say(on(along))}L${say(off(along, feather))}`;
    along -= step;
  }
  if (halves === 1) strokes += `M${say(on(along))}L${say(off(along, feather / 2))}`;
  return { strokes, pennants: flags };
}
