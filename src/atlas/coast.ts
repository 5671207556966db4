import type { GeoBox, LandArea, Ring } from "../core/coast/index.ts";
import { CoastFile, type LongRing, type Tile } from "./coast-file.ts";
import { cutRing, type UnitBox } from "./cut-ring.ts";

/** Edges along the box are told in steps no longer than this, degrees, so that each goes the shorter way round. */
const LONGEST_STEP_DEG = 30;

/** The world's coastline, ready to be cut. */
export interface Coast {
  /**
   * Land within a box, cut to it and closed along its sides: islands and continents, each with its lakes as holes; islands in lakes are
   * land again. Longitudes run on over 180° without a jump. Throws on a box that is none.
   */
  within(box: GeoBox): readonly LandArea[];
}

/** Opens the packed coastline. Throws on bytes that are none. */
export function openCoast(bytes: Uint8Array): Coast {
  const file = new CoastFile(bytes);
  return { within: (box) => landWithin(file, box) };
}

interface Piece {
  readonly number: number;
  readonly level: number;
  readonly parent: number;
  readonly points: readonly number[];
}

function landWithin(file: CoastFile, box: GeoBox): readonly LandArea[] {
  const units = unitBoxOf(file, box);
  const tiles = tilesIn(file, units);
  const pieces: Piece[] = [];
  const take = (number: number, level: number, parent: number, ring: readonly number[]): void => {
    const points = cutRing(ring, units);
    if (points.length > 0) pieces.push({ number, level, parent, points });
  };
  for (const { tile, shift } of tiles.shifted) {
    for (const { number, level, parent, points } of tile.short) {
      if (touches(points, shift, units))
        take(
          number,
          level,
          parent,
          Array.from(points, (value, i) => (i % 2 === 0 ? value + shift : value)),
        );
    }
  }
  file.long.forEach((ring, number) => {
    for (const shift of shiftsOf(ring, file, units))
      take(number, ring.level, ring.parent, gathered(ring, number, shift, file, units, tiles.byNumber));
  });
  return areasOf(pieces, file);
}

function unitBoxOf(file: CoastFile, { southDeg, northDeg, westDeg, eastDeg }: GeoBox): UnitBox {
  if (!(southDeg >= -90 && northDeg <= 90 && southDeg < northDeg && Math.abs(westDeg) <= 360 && Math.abs(eastDeg) <= 360)) {
    throw new Error(`no box: ${southDeg} to ${northDeg}, ${westDeg} to ${eastDeg}`);
  }
  const perDegree = file.turn / 360;
  const west = (((westDeg % 360) + 360) % 360) * perDegree;
  const wideDeg = (((eastDeg - westDeg) % 360) + 360) % 360;
  return { west, east: west + wideDeg * perDegree, south: (southDeg + 90) * perDegree, north: (northDeg + 90) * perDegree };
}

/** The tiles that a box lies in, with how far east each is to be moved to stand there. */
function tilesIn(file: CoastFile, box: UnitBox) {
  const side = file.binsPerTile * file.unitsPerBin;
  const columns = file.columns / file.binsPerTile;
  const byNumber = new Map<number, Tile>();
  const shifted: { readonly tile: Tile; readonly shift: number }[] = [];
  const topRow = file.rows / file.binsPerTile - 1;
  for (let row = Math.floor(box.south / side); row <= Math.min(topRow, Math.floor(box.north / side)); row++) {
    for (let column = Math.floor(box.west / side); column <= Math.floor(box.east / side); column++) {
      const number = row * columns + (column % columns);
      const tile = byNumber.get(number) ?? file.readTile(number);
      if (tile === null) continue;
      byNumber.set(number, tile);
      shifted.push({ tile, shift: Math.floor(column / columns) * file.turn });
    }
  }
  return { byNumber, shifted };
}

function touches(points: Int32Array, shift: number, box: UnitBox): boolean {
  let west = Number.POSITIVE_INFINITY;
  let east = Number.NEGATIVE_INFINITY;
  let south = Number.POSITIVE_INFINITY;
  let north = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < points.length; i += 2) {
    const x = (points[i] as number) + shift;
    const y = points[i + 1] as number;
    if (x < west) west = x;
    if (x > east) east = x;
    if (y < south) south = y;
    if (y > north) north = y;
  }
  return west <= box.east && east >= box.west && south <= box.north && north >= box.south;
}

/** The bounds of a run's bin, moved to where the ring has come. */
function binOf(file: CoastFile, run: LongRing["runs"][number], shift: number): UnitBox {
  const { unitsPerBin, columns, turn } = file;
  const column = (run.bin % columns) * unitsPerBin;
  const middle = column + unitsPerBin / 2;
  const west = column + Math.round((run.x - middle) / turn) * turn + shift;
  const south = Math.floor(run.bin / columns) * unitsPerBin;
  return { west, south, east: west + unitsPerBin, north: south + unitsPerBin };
}

/** Whether two boxes have more than an edge in common. */
function meet(one: UnitBox, other: UnitBox): boolean {
  return one.west < other.east && one.east > other.west && one.south < other.north && one.north > other.south;
}

/** By how much a long ring is to be moved east, whole turns, to reach into the box; none where it stays outside. */
function shiftsOf(ring: LongRing, file: CoastFile, box: UnitBox): readonly number[] {
  let west = Number.POSITIVE_INFINITY;
  let east = Number.NEGATIVE_INFINITY;
  let south = Number.POSITIVE_INFINITY;
  let north = Number.NEGATIVE_INFINITY;
  for (const { x, y } of ring.runs) {
    west = Math.min(west, x);
    east = Math.max(east, x);
    south = Math.min(south, y);
    north = Math.max(north, y);
  }
  // A run reaches no farther than its bin.
  const bin = file.unitsPerBin;
  if (south - bin > box.north || north + bin < box.south) return [];
  const shifts: number[] = [];
  for (let turns = Math.ceil((box.west - east - bin) / file.turn); west - bin + turns * file.turn <= box.east; turns++) {
    shifts.push(turns * file.turn);
  }
  return shifts;
}

/** A long ring with the runs that come near the box in full; of the others, which lie wholly beyond one of its sides, the first point. */
function gathered(
  ring: LongRing,
  number: number,
  shift: number,
  file: CoastFile,
  box: UnitBox,
  tiles: ReadonlyMap<number, Tile>,
): readonly number[] {
  const out: number[] = [];
  ring.runs.forEach((run, i) => {
    out.push(run.x + shift, run.y);
    if (run.count < 2 || !meet(binOf(file, run, shift), box)) return;
    const points = tiles.get(file.tileOf(run.bin))?.runs[file.placeInTile[number]?.[i] ?? -1];
    if (points === undefined) throw new Error(`the coastline's file lacks run ${i} of ring ${number}`);
    for (let k = 0; k < points.length; k += 2) out.push((points[k] as number) + shift, points[k + 1] as number);
  });
  return out;
}

/** Lakes go to the land around them. */
function areasOf(pieces: readonly Piece[], file: CoastFile): readonly LandArea[] {
  const areas: { readonly kind: "land"; readonly name: null; readonly rings: Ring[] }[] = [];
  const outers = new Map<number, { readonly points: readonly number[]; readonly rings: Ring[] }[]>();
  for (const { number, level, points } of pieces) {
    if (level % 2 === 0) continue;
    const rings = [inDegrees(points, file)];
    areas.push({ kind: "land", name: null, rings });
    outers.set(number, [...(outers.get(number) ?? []), { points, rings }]);
  }
  for (const { level, parent, points } of pieces) {
    if (level % 2 === 1) continue;
    const around = outers.get(parent) ?? [];
    const [x, y] = [points[0] as number, points[1] as number];
    // A continent that comes into the box twice, from either side, is two areas.
    const outer = around.length === 1 ? around[0] : around.find((one) => reaches(one.points, x, y));
    outer?.rings.push(inDegrees(points, file));
  }
  return areas;
}

function reaches(points: readonly number[], x: number, y: number): boolean {
  const xs = points.filter((_, i) => i % 2 === 0);
  const ys = points.filter((_, i) => i % 2 === 1);
  const within = (value: number, values: readonly number[]): boolean =>
    value >= values.reduce((a, b) => Math.min(a, b)) && value <= values.reduce((a, b) => Math.max(a, b));
  return within(x, xs) && within(y, ys);
}

function inDegrees(points: readonly number[], file: CoastFile): Ring {
  const perDegree = file.turn / 360;
  const out: number[] = [];
  let x = points[points.length - 2] as number;
  let y = points[points.length - 1] as number;
  for (let i = 0; i < points.length; i += 2) {
    const nextX = points[i] as number;
    const nextY = points[i + 1] as number;
    const steps = Math.ceil(Math.abs(nextX - x) / (LONGEST_STEP_DEG * perDegree));
    for (let k = 1; k < steps; k++) out.push((x + ((nextX - x) * k) / steps) / perDegree, (y + ((nextY - y) * k) / steps) / perDegree - 90);
    out.push(nextX / perDegree, nextY / perDegree - 90);
    x = nextX;
    y = nextY;
  }
  return Float64Array.from(out);
}
