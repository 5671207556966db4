// @ts-check
// A million points in every packing: ours beside ecCodes, which decodes in a process of its own with the clock around the decoding alone.
import { mkdtempSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { bytesFromMemory } from "../dist/formats/bytes/index.js";
import { decodeGribField, FieldRoom, readGribFields } from "../dist/formats/grib/index.js";
import { unpackValues } from "../dist/formats/grib/packings/registry.js";
import { installSystemPackages } from "../scripts/house/system-packages.mjs";
import { median } from "./clock.mjs";
import { ECCODES_MISSING, openEccodes } from "./eccodes.mjs";
import { SIDE } from "./made-field.mjs";
import { writeSamples } from "./messages.mjs";

/** The two take turns, so that both meet the same load of the machine. */
const ROUNDS = 6;
const REPEATS = 4;
const WARMING = 4;

export async function benchPackings() {
  await installSystemPackages("bench");
  const eccodes = await openEccodes();
  if (eccodes === null) console.log("\nNothing stands beside our figures, and the packings that only ecCodes writes here are left out.");
  const folder = mkdtempSync(join(tmpdir(), "athwart-bench-"));
  try {
    const rows = [];
    for (const sample of await writeSamples(folder, eccodes)) rows.push(await measured(sample, eccodes, folder));
    console.log(
      `\nA million points${eccodes === null ? "" : ` beside ecCodes ${eccodes.version}`}: message read and decoded, the least (and the median) of ${ROUNDS * REPEATS} times, ms:`,
    );
    console.table(rows);
  } finally {
    eccodes?.close();
    rmSync(folder, { recursive: true });
  }
}

/**
 * @param {import("./messages.mjs").Sample} sample
 * @param {import("./eccodes.mjs").Eccodes | null} eccodes
 * @param {string} folder
 */
async function measured({ name, path, goal }, eccodes, folder) {
  const message = new Uint8Array(readFileSync(path));
  // As a file is read: field after field into the same room, where the packing can. ecCodes has its memory back from the field before too.
  const room = new FieldRoom();
  const first = await timed(() => valuesOf(message, room));
  for (let i = 1; i < WARMING; i++) await valuesOf(message, room);
  const ours = [];
  const unpacking = [];
  const theirs = [];
  for (let round = 0; round < ROUNDS; round++) {
    if (eccodes !== null) theirs.push(...(await eccodes.decode(path, REPEATS)));
    for (let i = 0; i < REPEATS; i++) ours.push(await timed(() => valuesOf(message, room)));
    const field = await fieldOf(message);
    const { offsetBytes, lengthBytes } = field.data;
    const data = message.subarray(offsetBytes, offsetBytes + lengthBytes);
    for (let i = 0; i < REPEATS; i++) unpacking.push(await timed(() => unpackValues(field.packing, data, name)));
  }
  const share = Math.min(...theirs) / Math.min(...ours);
  return {
    packing: name,
    MB: (statSync(path).size / 1e6).toFixed(1),
    "ours first": first.toFixed(0),
    ours: leastAndMedian(ours),
    "unpacking alone": leastAndMedian(unpacking),
    ...(eccodes === null
      ? {}
      : {
          ecCodes: leastAndMedian(theirs),
          "our speed / its": share.toFixed(2),
          goal: goal === null ? "" : `${goal} ${share >= goal ? "met" : "MISSED"}`,
          "greatest difference": await difference(message, path, eccodes, join(folder, "values")),
        }),
  };
}

/** @param {() => unknown} run */
async function timed(run) {
  const from = performance.now();
  await run();
  return performance.now() - from;
}

/** @param {readonly number[]} times */
const leastAndMedian = (times) => `${Math.min(...times).toFixed(1)} (${median(times).toFixed(1)})`;

/** @param {Uint8Array} message */
async function fieldOf(message) {
  for await (const item of readGribFields(bytesFromMemory(message))) {
    if (item.kind === "field") return item;
    throw new Error(item.issue.message);
  }
  throw new Error("no field");
}

/** @param {Uint8Array} message @param {FieldRoom} [room] */
async function valuesOf(message, room) {
  const decoded = await decodeGribField(bytesFromMemory(message), await fieldOf(message), room);
  if (!decoded.ok) throw new Error(decoded.issues[0].message);
  return decoded.value;
}

/**
 * In words: of values, and where one has a value and the other none.
 * @param {Uint8Array} message
 * @param {string} path
 * @param {import("./eccodes.mjs").Eccodes} eccodes
 * @param {string} valuesPath
 */
async function difference(message, path, eccodes, valuesPath) {
  const { values, missing } = await valuesOf(message);
  await eccodes.decode(path, 1, valuesPath);
  const bytes = readFileSync(valuesPath);
  const theirs = new Float64Array(bytes.buffer, bytes.byteOffset, bytes.byteLength / 8);
  if (theirs.length !== values.length) return `${values.length} points, and ecCodes has ${theirs.length}`;
  let greatest = 0;
  let unlike = 0;
  for (let row = 0; row < SIDE; row++) {
    for (let column = 0; column < SIDE; column++) {
      const ours = row * SIDE + column;
      const other = theirs[(SIDE - 1 - row) * SIDE + column] ?? Number.NaN;
      if ((missing[ours] === 1) !== (other === ECCODES_MISSING)) unlike++;
      else if (missing[ours] === 0) greatest = Math.max(greatest, Math.abs((values[ours] ?? 0) - other));
    }
  }
  if (unlike > 0) return `${unlike} POINTS MISSING IN ONE ONLY`;
  return greatest === 0 ? "none" : greatest.toExponential(1);
}
