import { mercatorTrueScaleDeg, polarTrueScaleDeg } from "./conformal.ts";
import type { EarthFigure, MapProjection } from "./map-projection.ts";

/** What maps have in common. */
export interface MapBase {
  readonly earth: EarthFigure;
  readonly falseEastingMetres: number;
  readonly falseNorthingMetres: number;
}

/** A map told by the parallel where it is true or by its scale at the origin; null where not told. */
export interface ScaledMap {
  readonly trueScaleLatitudeDeg: number | null;
  readonly scale: number | null;
  readonly originLongitudeDeg: number;
}

/** A Mercator map, or what is wrong with it. */
export function mercatorOf({ trueScaleLatitudeDeg, scale, originLongitudeDeg }: ScaledMap, base: MapBase): MapProjection | string {
  if (trueScaleLatitudeDeg === null && scale === null) return "The Mercator map doesn't say where its scale is true.";
  const trueAt = trueScaleLatitudeDeg ?? mercatorTrueScaleDeg(scale!, base.earth);
  if (trueAt === null) return `A Mercator map can't have the scale ${scale} at the equator.`;
  return { kind: "mercator", trueScaleLatitudeDeg: trueAt, originLongitudeDeg, ...base };
}

/** A stereographic map about a pole, or what is wrong with it. */
export function polarOf(map: ScaledMap & { readonly poleLatitudeDeg: number | null }, base: MapBase): MapProjection | string {
  const { poleLatitudeDeg, trueScaleLatitudeDeg, scale, originLongitudeDeg } = map;
  if (poleLatitudeDeg === null) return "The stereographic map doesn't say about which pole it is made.";
  if (Math.abs(poleLatitudeDeg) !== 90) return `A stereographic map about latitude ${poleLatitudeDeg}, not a pole, is not read.`;
  if (trueScaleLatitudeDeg === null && scale === null) return "The stereographic map doesn't say where its scale is true.";
  const side = Math.sign(poleLatitudeDeg);
  const fromScale = trueScaleLatitudeDeg === null ? polarTrueScaleDeg(scale!, base.earth) : null;
  if (trueScaleLatitudeDeg === null && fromScale === null) return `A stereographic map can't have the scale ${scale} at its pole.`;
  return {
    kind: "polarStereographic",
    pole: side > 0 ? "north" : "south",
    trueScaleLatitudeDeg: trueScaleLatitudeDeg ?? side * fromScale!,
    originLongitudeDeg,
    ...base,
  };
}
