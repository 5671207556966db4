// @ts-check
// Long files through `inspect`, as the built program does it from a cold start: how long it takes and the most memory it holds.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, statfsSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { writeLongClassic, writeLongGrib, writeLongNetcdf4 } from "./long-files.mjs";

const main = fileURLToPath(new URL("../dist/cli/main.js", import.meta.url));
const meter = new URL("./peak-memory.mjs", import.meta.url).href;

const GOAL_SECONDS = 1;
const GOAL_MB = 300;
const SHORT_BYTES = 50e6;
const LONG_BYTES = 2e9;
const SPARE_BYTES = 1e9;

/** Grids over the demo's waters: a leisure file's, a coastal model's, the whole earth's, a regional ocean's. */
const SMALL = { rows: 41, columns: 41, southDeg: -38, westDeg: -123, stepDeg: 0.25 };
const COASTAL = { rows: 101, columns: 101, southDeg: -38, westDeg: -123, stepDeg: 0.1 };
const GLOBAL = { rows: 721, columns: 1440, southDeg: -90, westDeg: -180, stepDeg: 0.25 };
const OCEAN = { rows: 601, columns: 601, southDeg: -58, westDeg: -143, stepDeg: 1 / 12 };

const ALONE = { members: 1, pressures: 0 };
const ENSEMBLE = { members: 51, pressures: 0 };
/** Most of what a large file holds is of no use at sea. */
const PLENTY = { members: 51, pressures: 14 };

/** @typedef {{ readonly name: string, readonly bytes: number, readonly write: (path: string, bytes: number) => unknown }} LongFile */

/** @type {readonly LongFile[]} */
const shortFiles = [
  { name: "GRIB, small messages", bytes: SHORT_BYTES, write: (path, bytes) => writeLongGrib(path, bytes, SMALL, ENSEMBLE) },
  { name: "GRIB, a million points a message", bytes: SHORT_BYTES, write: (path, bytes) => writeLongGrib(path, bytes, GLOBAL, ALONE) },
  { name: "NetCDF classic", bytes: SHORT_BYTES, write: (path, bytes) => writeLongClassic(path, bytes, OCEAN) },
  { name: "NetCDF-4, deflated", bytes: SHORT_BYTES, write: (path, bytes) => writeLongNetcdf4(path, bytes, OCEAN, { deflate: true }) },
];

/** @type {readonly LongFile[]} */
const longFiles = [
  { name: "GRIB, a million points a message", bytes: LONG_BYTES, write: (path, bytes) => writeLongGrib(path, bytes, GLOBAL, ALONE) },
  { name: "GRIB, 100,000 messages", bytes: LONG_BYTES, write: (path, bytes) => writeLongGrib(path, bytes, COASTAL, PLENTY) },
  { name: "NetCDF classic", bytes: LONG_BYTES, write: (path, bytes) => writeLongClassic(path, bytes, OCEAN) },
  { name: "NetCDF-4, not deflated", bytes: LONG_BYTES, write: (path, bytes) => writeLongNetcdf4(path, bytes, OCEAN, { deflate: false }) },
];

/** @param {{ readonly large: boolean }} options `large`: files of 2 GB too */
export async function benchInspecting({ large }) {
  const folder = mkdtempSync(join(tmpdir(), "athwart-bench-"));
  try {
    const rows = [];
    for (const file of shortFiles) rows.push(await measured(file, folder));
    console.log(`\nathwart inspect FILE, the least of 3 cold starts (goal: what a file of 50 MB holds in ${GOAL_SECONDS} s):`);
    console.table(rows);
    if (!large) {
      console.log("Files of 2 GB take a minute more and 3 GB of disk: npm run bench -- inspecting --large");
      return;
    }
    const { bavail, bsize } = statfsSync(folder);
    if (bavail * bsize < LONG_BYTES + SPARE_BYTES) {
      console.log(`SKIPPED: files of 2 GB; ${Math.floor((bavail * bsize) / 1e6)} MB are free in ${tmpdir()}, and 3 GB are wanted.`);
      return;
    }
    const longRows = [];
    for (const file of longFiles) longRows.push(await measured(file, folder));
    console.log(`\nThe same of 2 GB (goal: under ${GOAL_MB} MB of memory):`);
    console.table(longRows);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** @param {LongFile} file @param {string} folder */
async function measured({ name, bytes, write }, folder) {
  const path = join(folder, "file");
  await write(path, bytes);
  const repeats = bytes > SHORT_BYTES ? 1 : 3;
  const told = inspected([path], repeats);
  const held = inspected([path, "--demo"], repeats);
  const row = {
    file: name,
    MB: (statSync(path).size / 1e6).toFixed(0),
    "told, s": bytes > SHORT_BYTES ? told.seconds.toFixed(2) : withGoal(told.seconds, 2, GOAL_SECONDS),
    "told, MB held": withGoal(told.mostMb, 0, GOAL_MB),
    "against a passage, s": held.seconds.toFixed(2),
    "against a passage, MB held": withGoal(held.mostMb, 0, GOAL_MB),
  };
  rmSync(path);
  return row;
}

/** @param {number} value @param {number} decimals @param {number} goal */
const withGoal = (value, decimals, goal) => `${value.toFixed(decimals)}${value <= goal ? "" : " MISSED"}`;

/**
 * The least seconds and the most memory of several runs.
 * @param {readonly string[]} args
 * @param {number} repeats
 */
function inspected(args, repeats) {
  let seconds = Number.POSITIVE_INFINITY;
  let mostMb = 0;
  for (let i = 0; i < repeats; i++) {
    const from = performance.now();
    const { status, output } = spawnSync(process.execPath, ["--import", meter, main, "inspect", ...args], {
      stdio: ["ignore", "pipe", "pipe", "pipe"],
      encoding: "utf8",
    });
    seconds = Math.min(seconds, (performance.now() - from) / 1000);
    const [, answer = "", complaint = "", kilobytes = ""] = output.map((one) => one ?? "");
    if (status !== 0 || !answer.includes("used as")) throw new Error(`inspect ended with ${status}:\n${answer}${complaint}`);
    mostMb = Math.max(mostMb, (Number(kilobytes) * 1024) / 1e6);
  }
  return { seconds, mostMb };
}
