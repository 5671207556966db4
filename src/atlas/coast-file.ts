import { inflateSync } from "fflate";
import { VarintReader } from "./varint-reader.ts";

const MAGIC = "ATHWCST1";

/** A ring that runs through several bins: where each run begins, so that a run far away is passed over with its first point. */
export interface LongRing {
  readonly level: number;
  /** Number of the ring around it, or −1. */
  readonly parent: number;
  readonly runs: readonly Run[];
}

export interface Run {
  readonly bin: number;
  readonly count: number;
  /** Its first point, x running on along the ring without a jump. */
  readonly x: number;
  readonly y: number;
}

export interface ShortRing {
  readonly number: number;
  readonly level: number;
  readonly parent: number;
  /** x and y in turn. */
  readonly points: Int32Array;
}

export interface Tile {
  readonly short: readonly ShortRing[];
  /** The points of every run in the tile but its first, in the order of the directory. */
  readonly runs: readonly Int32Array[];
}

interface TileEntry {
  readonly from: number;
  readonly length: number;
  readonly shortCount: number;
  readonly firstNumber: number;
  readonly runCounts: { readonly x: number; readonly y: number; readonly count: number }[];
}

/**
 * The packed coastline. After eight letters and the length of the directory (32 bits, least first) come the directory and the tiles,
 * each deflated by itself. Bins are squares of a few degrees, counted eastward from 0° and then northward from 90° S; a tile is a square
 * of bins. Points are whole numbers, x eastward from 0° and y northward from 90° S, `unitsPerBin` to a bin's side, each told as its
 * difference from the one before. A ring within one bin stands in its tile; a longer one is told in the directory as runs, bin by bin.
 * Land lies to the left. Levels: 1 land, 2 lake, 3 island in a lake, 4 pond on such an island.
 */
export class CoastFile {
  readonly columns: number;
  readonly rows: number;
  readonly unitsPerBin: number;
  readonly binsPerTile: number;
  readonly long: readonly LongRing[];
  /** Of each long ring's run: its place among the runs of its tile. */
  readonly placeInTile: readonly Int32Array[];
  private readonly bytes: Uint8Array;
  private readonly tiles = new Map<number, TileEntry>();

  /** Throws on bytes that are no such file. */
  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    if (new TextDecoder("latin1").decode(bytes.subarray(0, 8)) !== MAGIC) throw new Error("these bytes are no packed coastline");
    const directoryBytes = new DataView(bytes.buffer, bytes.byteOffset).getUint32(8, true);
    const directory = new VarintReader(inflateSync(bytes.subarray(12, 12 + directoryBytes)));
    this.columns = directory.next();
    this.rows = directory.next();
    this.unitsPerBin = directory.next();
    this.binsPerTile = directory.next();
    const tileCount = directory.next();
    const longCount = directory.next();
    let tile = 0;
    let from = 12 + directoryBytes;
    let firstNumber = longCount;
    for (let i = 0; i < tileCount; i++) {
      tile += directory.next();
      const length = directory.next();
      const shortCount = directory.next();
      this.tiles.set(tile, { from, length, shortCount, firstNumber, runCounts: [] });
      from += length;
      firstNumber += shortCount;
    }
    if (from !== bytes.length) throw new Error(`the coastline's file is ${bytes.length} bytes long and not ${from}`);
    const long: LongRing[] = [];
    const placeInTile: Int32Array[] = [];
    let last = { bin: 0, x: 0, y: 0 };
    for (let i = 0; i < longCount; i++) {
      const level = directory.next();
      const parent = level > 1 ? directory.next() - 1 : -1;
      const runs: Run[] = [];
      const places = new Int32Array(directory.next());
      for (let k = 0; k < places.length; k++) {
        const count = directory.next();
        last = { bin: last.bin + directory.nextSigned(), x: last.x + directory.nextSigned(), y: last.y + directory.nextSigned() };
        const entry = this.tiles.get(this.tileOf(last.bin));
        if (entry === undefined) throw new Error(`the coastline's file lacks the tile of bin ${last.bin}`);
        places[k] = entry.runCounts.push({ x: last.x, y: last.y, count }) - 1;
        runs.push({ ...last, count });
      }
      long.push({ level, parent, runs });
      placeInTile.push(places);
    }
    this.long = long;
    this.placeInTile = placeInTile;
  }

  /** Units in 360°. */
  get turn(): number {
    return this.columns * this.unitsPerBin;
  }

  tileOf(bin: number): number {
    const { columns, binsPerTile } = this;
    const row = Math.floor(Math.floor(bin / columns) / binsPerTile);
    return (row * columns) / binsPerTile + Math.floor((bin % columns) / binsPerTile);
  }

  /** Unpacks a tile; null where no coast runs through it. */
  readTile(tile: number): Tile | null {
    const entry = this.tiles.get(tile);
    if (entry === undefined) return null;
    const block = new VarintReader(inflateSync(this.bytes.subarray(entry.from, entry.from + entry.length)));
    const about = new VarintReader(block.nextBytes());
    const xs = new VarintReader(block.nextBytes());
    const ys = new VarintReader(block.nextBytes());
    const side = this.binsPerTile * this.unitsPerBin;
    const tileColumns = this.columns / this.binsPerTile;
    let x = (tile % tileColumns) * side;
    let y = Math.floor(tile / tileColumns) * side;
    const short: ShortRing[] = [];
    for (let i = 0; i < entry.shortCount; i++) {
      const level = about.next();
      const parent = level > 1 ? about.next() - 1 : -1;
      const points = steps(about.next(), x, y, xs, ys);
      x = points[0] as number;
      y = points[1] as number;
      short.push({ number: entry.firstNumber + i, level, parent, points });
    }
    return { short, runs: entry.runCounts.map((run) => steps(run.count - 1, run.x, run.y, xs, ys)) };
  }
}

/** So many points, each told from the one before. */
function steps(count: number, fromX: number, fromY: number, xs: VarintReader, ys: VarintReader): Int32Array {
  const points = new Int32Array(2 * count);
  let x = fromX;
  let y = fromY;
  for (let k = 0; k < points.length; k += 2) {
    x += xs.nextSigned();
    y += ys.nextSigned();
    points[k] = x;
    points[k + 1] = y;
  }
  return points;
}
