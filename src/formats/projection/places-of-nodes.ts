import type { Projector } from "./projector.ts";

/** Where a projected grid's nodes lie, row after row in the order of `ys`, each row in the order of `xs`; degrees, north and east. */
export interface NodePlaces {
  readonly latitudesDeg: Float64Array;
  /**
   * Unwrapped along each row from [-180, 180), and from each row's first node to the next row's, so that neighbours in a row never jump
   * by a turn. They may run past 180.
   */
  readonly longitudesDeg: Float64Array;
  /** The true bearing of the map's +y at each node. */
  readonly gridNorthDegTrue: Float64Array;
  /** 1 where a node has no place on the earth, and noughts stand for it; null where all have one, as on any grid in use. */
  readonly withoutPlace: Uint8Array | null;
}

/** Where the nodes at every x and y lie. */
export function placesOfNodes(projector: Projector, xs: Float64Array, ys: Float64Array): NodePlaces {
  const count = xs.length * ys.length;
  const latitudesDeg = new Float64Array(count);
  const longitudesDeg = new Float64Array(count);
  const gridNorthDegTrue = new Float64Array(count);
  let withoutPlace: Uint8Array | null = null;
  const place = new Float64Array(2);
  let rowBeforeDeg: number | null = null;
  let at = 0;
  for (const y of ys) {
    let beforeDeg = rowBeforeDeg;
    let isFirst = true;
    for (const x of xs) {
      if (projector.toPlaceInto(place, x, y)) {
        const longitudeDeg: number = beforeDeg === null ? place[1]! : nearest(place[1]!, beforeDeg);
        latitudesDeg[at] = place[0]!;
        longitudesDeg[at] = longitudeDeg;
        gridNorthDegTrue[at] = projector.gridNorthDegTrue(place[0]!, place[1]!);
        if (isFirst) rowBeforeDeg = longitudeDeg;
        isFirst = false;
        beforeDeg = longitudeDeg;
      } else {
        withoutPlace ??= new Uint8Array(count);
        withoutPlace[at] = 1;
      }
      at++;
    }
  }
  return { latitudesDeg, longitudesDeg, gridNorthDegTrue, withoutPlace };
}

/** The same longitude, the whole turns chosen that bring it nearest to another. */
function nearest(longitudeDeg: number, toDeg: number): number {
  return longitudeDeg - 360 * Math.round((longitudeDeg - toDeg) / 360);
}
