import { flatPlane, type Plane, planeAround, positionOf } from "../../src/core/earth/index.ts";
import { checkMesh, coveringOf, type GridData, type Mesh, nodeCountOf, PlaneGrid } from "../../src/core/fields/index.ts";
import { gridCurrent } from "../../src/core/water/index.ts";
import { gridSea, gridWind, SEA_SLOTS, WIND_SLOTS } from "../../src/core/weather/index.ts";
import { groupOf, type Oddity } from "../../src/formats/forecast/index.ts";

/**
 * What no forecast has, and what must never come out without a word: wind 120 m/s, height 40 m, period 60 s, current 6 m/s (vectors by
 * their length); a direction is a vector of length 1.
 */
const GREATEST: readonly (readonly [name: RegExp, greatest: number])[] = [
  [/^current/, 6],
  [/^wind(East|North)|^gust/, 120],
  [/HeightMetres$/, 40],
  [/PeriodSeconds$/, 60],
  [/Toward(East|North)$/, 1.002],
];
const SPARE = 1e-5;

/** Larger grids are laid without turning every node: on a real passage a crop has made them small. */
const MOST_TURNED = 50_000;
/** Beyond so many nodes a grid is looked over but not laid: locating the cells of millions takes minutes, and no crop leaves so many. */
const MOST_LAID = 1_000_000;

/** What is wrong with a grid that a reader gave: nothing, if it is as `GridData` promises and the samplers take it. */
export function faultsOfGrid(grid: GridData, oddities: readonly Oddity[], isSampled: boolean): string[] {
  const faults: string[] = [];
  const { quantities, mesh, times, values, missing } = grid;
  const attempt = (what: string, run: () => void): void => {
    try {
      run();
    } catch (error) {
      faults.push(`${what} of ${quantities.join()}: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  attempt("mesh", () => checkMesh(mesh));
  if (nodeCountOf(mesh) <= MOST_LAID) attempt("covering", () => void coveringOf(grid));
  if (!isAscending(times)) faults.push(`times of ${quantities.join()} don't ascend: ${times.slice(0, 5).join()}`);
  if (!unwrapped(mesh)) faults.push(`longitudes of ${quantities.join()} leap by half a turn`);
  const points = times.length * nodeCountOf(mesh);
  if (missing.length !== points || values.length !== points * quantities.length) faults.push(`${points} points, ${values.length} values`);
  faults.push(...valueFaults(grid, oddities));
  if (isSampled && faults.length === 0 && nodeCountOf(mesh) <= MOST_LAID) attempt("sampling", () => void faults.push(...sampled(grid)));
  return faults;
}

function valueFaults({ quantities, values, missing }: GridData, oddities: readonly Oddity[]): string[] {
  const count = quantities.length;
  const [, greatest] = GREATEST.find(([name]) => name.test(quantities[0]!)) ?? [null, 0];
  const lowest = /East|North/.test(quantities[0]!) ? Number.NEGATIVE_INFINITY : 0;
  let worst = 0;
  for (let point = 0; point < missing.length; point++) {
    let square = 0;
    for (let k = 0; k < count; k++) {
      const value = values[point * count + k]!;
      if (!Number.isFinite(value)) return [`value ${value} of ${quantities.join()}`];
      if (missing[point] === 1 && value !== 0) return [`value ${value} of ${quantities.join()} stands where one is missing`];
      if (value < lowest - SPARE) worst = Math.max(worst, Number.POSITIVE_INFINITY);
      square += value * value;
    }
    worst = Math.max(worst, Math.sqrt(square));
  }
  if (worst <= greatest + SPARE) return [];
  const { name } = groupOf(quantities[0]!);
  const isTold = oddities.some((one) => /^value-(doubtful|implausible)$/.test(one.code) && one.message.includes(` ${name}`));
  return isTold && worst < 2 * greatest + SPARE ? [] : [`${name} of ${worst}, ${isTold ? "told" : "in silence"}`];
}

const isAscending = (axis: Float64Array): boolean =>
  axis.length > 0 && axis.every((one, i) => Number.isFinite(one) && (i === 0 || one > axis[i - 1]!));

/** Longitudes of neighbours on a curvilinear mesh differ by less than half a turn along the rows, which the reader unwraps. */
function unwrapped(mesh: Mesh): boolean {
  if (mesh.kind !== "curvilinear") return mesh.kind === "triangles" || (isAscending(mesh.latitudesDeg) && isAscending(mesh.longitudesDeg));
  const { columns, longitudesDeg, placed } = mesh;
  const isThere = (node: number): boolean => placed === null || placed[node] === 1;
  for (let node = 0; node + 1 < longitudesDeg.length; node++) {
    if ((node + 1) % columns === 0 || !isThere(node) || !isThere(node + 1)) continue;
    if (!(Math.abs(longitudesDeg[node + 1]! - longitudesDeg[node]!) <= 180)) return false;
  }
  return true;
}

const planes = new Map<string, Plane>();

/** A sheet on or near the grid's middle: the real one on a quarter of a degree, else one without convergence, which is laid at once. */
function planeFor(latitudeDeg: number, longitudeDeg: number): Plane {
  const latitude = Math.max(-80, Math.min(80, latitudeDeg));
  const place = positionOf(Math.round(latitude * 4) / 4, Math.round(wrapped(longitudeDeg) * 4) / 4);
  const key = `${place.latitudeDeg} ${place.longitudeDeg}`;
  const known = planes.get(key);
  if (known !== undefined) return known;
  if (planes.size >= 24) return flatPlane(place, 100_000);
  const plane = planeAround(place, 100_000);
  planes.set(key, plane);
  return plane;
}

const wrapped = (deg: number): number => deg - 360 * Math.floor((deg + 180) / 360);

/** Puts the grid to use as a crossing does, at the middle and about it, and on some of its nodes. */
function sampled(grid: GridData): string[] {
  const { quantities, mesh, times } = grid;
  const nodes = nodeCountOf(mesh);
  const isLarge = nodes > MOST_TURNED;
  const middle = middleOf(mesh);
  const plane = planeFor(middle[0], middle[1]);
  const spots: [number, number][] = [0, 1, 2, 3, 4].map((i) => [((i * 37) % 11) * 4000 - 20_000, ((i * 53) % 13) * 3000 - 18_000]);
  spots.push([0, 0]);
  const on = plane.toPlaneIfOn(positionOf(middle[0], wrapped(middle[1])));
  if (on !== null) spots.push([on.xMetres, on.yMetres]);
  const out = new Float64Array(Math.max(WIND_SLOTS, SEA_SLOTS, 8));
  const faults: string[] = [];
  const look = (covered: boolean, count: number): void => {
    for (let k = 0; covered && k < count; k++) if (!Number.isFinite(out[k]!)) faults.push(`sampled ${out[k]} of ${quantities.join()}`);
  };
  const laid = new PlaneGrid(grid, plane, isLarge ? "trueNorth" : "sheet");
  const instants = [times[0]!, (times[0]! + times.at(-1)!) / 2, times.at(-1)!, times[0]! - 3600];
  for (const [x, y] of spots) {
    for (const level of [0, times.length - 1]) look(laid.moveTo(x, y) && laid.readLevelInto(out, 0, level), quantities.length);
    if (!isLarge && laid.moveToNearest(x, y, 0, times.length - 1, 50_000)) look(laid.readLevelInto(out, 0, 0), quantities.length);
  }
  if (isLarge) return faults;
  const first = quantities[0]!;
  if (first === "currentEastMps") {
    const sampler = gridCurrent(grid).onPlane(plane);
    for (const [x, y] of spots) for (const at of instants) look(sampler.sampleInto(out, x, y, at) === 0, 2);
  } else if (first === "windEastMps") {
    const sampler = gridWind([{ wind: grid, gust: null }], 1.5).onPlane(plane, 0);
    for (const [x, y] of spots) for (const at of instants) look(sampler.readInto(out, x, y, at) === 0, WIND_SLOTS);
  } else if (/Height|Period|gust/.test(first)) {
    const sampler = gridSea(grid, grid).onPlane(plane);
    for (const [x, y] of spots) for (const at of instants) look(sampler.readInto(out, x, y, at) === 0, SEA_SLOTS);
  }
  return faults;
}

/** A place that the mesh has, near its middle. */
function middleOf(mesh: Mesh): readonly [number, number] {
  const { latitudesDeg, longitudesDeg } = mesh;
  if (mesh.kind === "latLon") return [latitudesDeg[latitudesDeg.length >> 1]!, longitudesDeg[longitudesDeg.length >> 1]!];
  const placed = mesh.kind === "curvilinear" ? mesh.placed : null;
  let node = latitudesDeg.length >> 1;
  if (placed !== null && placed[node] === 0) node = Math.max(0, placed.indexOf(1));
  return [latitudesDeg[node]!, longitudesDeg[node]!];
}
