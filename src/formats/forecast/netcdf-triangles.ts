import { good, type Parsed } from "../../core/answers/index.ts";
import type { TriangleMesh } from "../../core/fields/index.ts";
import type { Area, Crop } from "./forecast-reading.ts";
import type { MeshPlace, MeshWindow } from "./netcdf-mesh-place.ts";
import type { TriangleNet } from "./netcdf-triangle-net.ts";

const SLACK_DEG = 1e-6;

/** Values at the corners of triangles, or on the triangles. */
export class TrianglePlace implements MeshPlace {
  readonly key: string;
  readonly dimensions: readonly [string];
  readonly rows = 1;
  readonly columns: number;
  readonly area: Area;
  readonly greatestTurnDeg = null;
  private readonly net: TriangleNet;
  private readonly valuesAt: TriangleMesh["valuesAt"];

  constructor(key: string, dimension: string, net: TriangleNet, valuesAt: TriangleMesh["valuesAt"]) {
    this.key = key;
    this.dimensions = [dimension];
    this.net = net;
    this.valuesAt = valuesAt;
    this.columns = valuesAt === "corners" ? net.latitudesDeg.length : net.triangles.length / 3;
    this.area = areaOfCorners(net);
  }

  async window(crop: Crop | null): Promise<Parsed<MeshWindow | null>> {
    const kept = crop ? trianglesNear(this.net, crop) : Int32Array.from({ length: this.net.triangles.length / 3 }, (_, at) => at);
    if (kept.length === 0) return good(null);
    const { triangles, latitudesDeg, longitudesDeg } = this.net;
    const newNumber = new Int32Array(latitudesDeg.length).fill(-1);
    const corners: number[] = [];
    const renumbered = new Int32Array(3 * kept.length);
    kept.forEach((triangle, index) => {
      for (let side = 0; side < 3; side++) {
        const corner = triangles[3 * triangle + side]!;
        if (newNumber[corner] === -1) newNumber[corner] = corners.push(corner) - 1;
        renumbered[3 * index + side] = newNumber[corner]!;
      }
    });
    const mesh: TriangleMesh = {
      kind: "triangles",
      latitudesDeg: Float64Array.from(corners, (corner) => latitudesDeg[corner]!),
      longitudesDeg: Float64Array.from(corners, (corner) => longitudesDeg[corner]!),
      triangles: renumbered,
      valuesAt: this.valuesAt,
    };
    const wanted = this.valuesAt === "corners" ? corners : kept;
    let [first, last] = [Number.POSITIVE_INFINITY, -1];
    for (const index of wanted) [first, last] = [Math.min(first, index), Math.max(last, index)];
    const nodes = new Int32Array(last - first + 1).fill(-1);
    wanted.forEach((index: number, node: number) => {
      nodes[index - first] = node;
    });
    return good({ mesh, slabs: [{ start: [first], count: [nodes.length], nodes }], box: null });
  }

  async northDegTrue(): Promise<Parsed<null>> {
    return good(null);
  }
}

/** The triangles whose box meets the crop, and the ring of those that share a corner with them. */
function trianglesNear({ triangles, latitudesDeg, longitudesDeg }: TriangleNet, crop: Crop): Int32Array {
  const cropEast = crop.eastDeg < crop.westDeg ? crop.eastDeg + 360 : crop.eastDeg;
  const isCornerNear = new Uint8Array(latitudesDeg.length);
  const kept: number[] = [];
  for (let at = 0; at < triangles.length; at += 3) {
    const first = longitudesDeg[triangles[at]!]!;
    let [south, north, west, east] = [90, -90, first, first];
    for (let side = 0; side < 3; side++) {
      const corner = triangles[at + side]!;
      const latitude = latitudesDeg[corner]!;
      const longitude = longitudesDeg[corner]! - 360 * Math.round((longitudesDeg[corner]! - first) / 360);
      [south, north] = [Math.min(south, latitude), Math.max(north, latitude)];
      [west, east] = [Math.min(west, longitude), Math.max(east, longitude)];
    }
    if (south > crop.northDeg + SLACK_DEG || north < crop.southDeg - SLACK_DEG) continue;
    const turn = 360 * Math.ceil((crop.westDeg - SLACK_DEG - east) / 360);
    if (west + turn > cropEast + SLACK_DEG) continue;
    for (let side = 0; side < 3; side++) isCornerNear[triangles[at + side]!] = 1;
  }
  for (let at = 0; at < triangles.length; at += 3) {
    if (isCornerNear[triangles[at]!] || isCornerNear[triangles[at + 1]!] || isCornerNear[triangles[at + 2]!]) kept.push(at / 3);
  }
  return Int32Array.from(kept);
}

/** The box around the corners; their longitudes already stand together. */
function areaOfCorners({ latitudesDeg, longitudesDeg }: TriangleNet): Area {
  let [southDeg, northDeg, westDeg, eastDeg] = [90, -90, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let corner = 0; corner < latitudesDeg.length; corner++) {
    [southDeg, northDeg] = [Math.min(southDeg, latitudesDeg[corner]!), Math.max(northDeg, latitudesDeg[corner]!)];
    [westDeg, eastDeg] = [Math.min(westDeg, longitudesDeg[corner]!), Math.max(eastDeg, longitudesDeg[corner]!)];
  }
  return { southDeg, northDeg, westDeg, eastDeg };
}
