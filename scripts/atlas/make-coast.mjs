// @ts-check
// Packs the world coastline that ships, from the GSHHG "high" set of Debian's package gmt-gshhg-high (2.3.7), into src/atlas/data/.
// npm run build, then: node scripts/atlas/make-coast.mjs [FILE]. The layout of what is written is told in src/atlas/coast-file.ts.
import { readFileSync, writeFileSync } from "node:fs";
import { deflateRawSync } from "node:zlib";
import { inRoot } from "../house/root.mjs";
import { readBinnedCoast } from "./binned-coast.mjs";
import { VarintWriter } from "./varint-writer.mjs";

/** Bins of two degrees, taken two by two into tiles that are packed together. */
const TILE_BINS = 2;
const source = process.argv[2] ?? "/usr/share/gmt-gshhg/binned_GSHHS_h.nc";
const target = inRoot("src/atlas/data/coast.bin");

const { rings, columns, rows, unitsPerBin } = await readBinnedCoast(new Uint8Array(readFileSync(source)));
const tileColumns = columns / TILE_BINS;
/** @param {number} bin counted eastward from 0°, then northward from 90° S */
const tileOf = (bin) => Math.floor(Math.floor(bin / columns) / TILE_BINS) * tileColumns + Math.floor((bin % columns) / TILE_BINS);

// Long rings run through several bins; short ones lie in one. Numbers: the long ones first, then the short ones tile by tile.
const long = rings.filter((ring) => ring.runs.length > 1);
const short = rings.filter((ring) => ring.runs.length === 1);
/** @type {Map<number, typeof short>} */
const shortByTile = new Map();
/** @type {Map<number, typeof rings[number]["runs"]>} */
const runsByTile = new Map();
for (const ring of short) at(shortByTile, tileOf(first(ring.runs).bin)).push(ring);
for (const ring of long) for (const run of ring.runs) at(runsByTile, tileOf(run.bin)).push(run);
const tiles = [...new Set([...shortByTile.keys(), ...runsByTile.keys()])].sort((one, other) => one - other);
/** @type {Map<number, number>} */
const numberOf = new Map();
for (const ring of [...long, ...tiles.flatMap((tile) => shortByTile.get(tile) ?? [])]) numberOf.set(ring.id, numberOf.size);
/** @param {number} parent */
const parentNumber = (parent) => {
  const number = parent < 0 ? 0 : numberOf.get(parent);
  if (number === undefined) throw new Error(`ring ${parent} is a parent and is not kept`);
  return parent < 0 ? 0 : number + 1;
};

const blocks = tiles.map((tile) => {
  const [about, xs, ys] = [new VarintWriter(), new VarintWriter(), new VarintWriter()];
  let [x, y] = [(tile % tileColumns) * TILE_BINS * unitsPerBin, Math.floor(tile / tileColumns) * TILE_BINS * unitsPerBin];
  for (const ring of shortByTile.get(tile) ?? []) {
    const run = first(ring.runs);
    about.add(ring.level);
    if (ring.level > 1) about.add(parentNumber(ring.parent));
    about.add(run.xs.length);
    addPoints(run, 0, x, y, xs, ys);
    [x, y] = [run.xs[0] ?? 0, run.ys[0] ?? 0];
  }
  for (const run of runsByTile.get(tile) ?? []) addPoints(run, 1, run.xs[0] ?? 0, run.ys[0] ?? 0, xs, ys);
  const block = new VarintWriter();
  for (const part of [about, xs, ys]) block.addBytes(part.bytes());
  return deflateRawSync(block.bytes(), { level: 9 });
});

const directory = new VarintWriter();
for (const number of [columns, rows, unitsPerBin, TILE_BINS, tiles.length, long.length]) directory.add(number);
tiles.forEach((tile, i) => {
  directory.add(tile - (tiles[i - 1] ?? 0));
  directory.add(blocks[i]?.length ?? 0);
  directory.add(shortByTile.get(tile)?.length ?? 0);
});
let last = { bin: 0, x: 0, y: 0 };
for (const ring of long) {
  directory.add(ring.level);
  if (ring.level > 1) directory.add(parentNumber(ring.parent));
  directory.add(ring.runs.length);
  for (const { bin, xs, ys } of ring.runs) {
    const here = { bin, x: xs[0] ?? 0, y: ys[0] ?? 0 };
    directory.add(xs.length);
    directory.addSigned(here.bin - last.bin);
    directory.addSigned(here.x - last.x);
    directory.addSigned(here.y - last.y);
    last = here;
  }
}
const packedDirectory = deflateRawSync(directory.bytes(), { level: 9 });
const head = Buffer.alloc(12);
head.write("ATHWCST1", "latin1");
head.writeUInt32LE(packedDirectory.length, 8);
const file = Buffer.concat([head, packedDirectory, ...blocks]);
writeFileSync(target, file);
const points = rings.reduce((sum, ring) => sum + ring.runs.reduce((n, run) => n + run.xs.length, 0), 0);
console.log(`${target}: ${file.length} bytes; ${rings.length} rings, ${points} points, ${tiles.length} tiles, ${long.length} long rings`);

/**
 * @param {{ xs: readonly number[], ys: readonly number[] }} run
 * @param {number} from the first point that is written
 * @param {number} x
 * @param {number} y
 * @param {VarintWriter} xs
 * @param {VarintWriter} ys
 */
function addPoints(run, from, x, y, xs, ys) {
  for (let k = from; k < run.xs.length; k++) {
    const [px, py] = [run.xs[k] ?? 0, run.ys[k] ?? 0];
    xs.addSigned(px - x);
    ys.addSigned(py - y);
    [x, y] = [px, py];
  }
}

/**
 * @template T
 * @param {Map<number, T[]>} map
 * @param {number} key
 * @returns {T[]}
 */
function at(map, key) {
  const there = map.get(key) ?? [];
  map.set(key, there);
  return there;
}

/**
 * @template T
 * @param {readonly T[]} list
 * @returns {T}
 */
function first(list) {
  const [one] = list;
  if (one === undefined) throw new Error("a ring without points");
  return one;
}
