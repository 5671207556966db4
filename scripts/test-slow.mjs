// @ts-check
// npm run test:slow: a million seeded mutations of small forecast and current files, in processes of their own, as many as the machine bears.
// npm run test:slow -- STRUCTURE [FROM [UNTIL]]: only those of grib2, grib1, netcdf or hdf5 with these numbers; to go on, or to look at one.
// ATHWART_TEST_SEED (a whole number) draws others.
import { spawn } from "node:child_process";
import { writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { refuseUnfitNode } from "./house/node-version.mjs";
import { prepare } from "./house/prepare.mjs";
import { cacheFolder, inRoot } from "./house/root.mjs";
import { runNode, toolFile } from "./house/run.mjs";

/** NetCDF-4 is the slowest by far: the HDF5 library is loaded anew after each fault. */
const MUTATIONS = { grib2: 410_000, grib1: 285_000, netcdf: 290_000, hdf5: 15_000 };
const STRETCH = { grib2: 4000, grib1: 5000, netcdf: 5000, hdf5: 250 };
/** A mutation that takes longer is taken for one that never ends. */
const LIMIT_SECONDS = 120;
const seed = Number(process.env["ATHWART_TEST_SEED"] ?? 20_270_406);

/**
 * @typedef {keyof typeof MUTATIONS} Structure
 * @typedef {{ structure: Structure, from: number, until: number }} Stretch
 * @typedef {{ number: number, fixture: string, value: number }} Extreme
 * @typedef {{ mutations: number, finds: { fixture: string, number: number, faults: string[] }[], slowest: Extreme, askedMost: Extreme, tookMost: Extreme }} Campaign
 */

/** @returns {Stretch[]} */
function stretchesAsked() {
  const [named, from, until] = process.argv.slice(2);
  /** @type {Structure[]} */
  const all = ["grib2", "grib1", "netcdf", "hdf5"];
  const structures = all.filter((one) => named === undefined || one === named);
  if (structures.length === 0) throw new Error(`nothing is called ${named}; there are ${all.join(", ")}`);
  const first = from === undefined ? 0 : Number(from);
  const stretches = structures.flatMap((structure) => {
    const end =
      until !== undefined ? Number(until) : from !== undefined && first >= MUTATIONS[structure] ? first + 1 : MUTATIONS[structure];
    const count = Math.ceil((end - first) / STRETCH[structure]);
    return Array.from({ length: count }, (_, i) => {
      const begin = first + i * STRETCH[structure];
      return { structure, from: begin, until: Math.min(end, begin + STRETCH[structure]) };
    });
  });
  // The structures by turns, so that all of them are under way from the start.
  return stretches.sort((one, other) => one.from / MUTATIONS[one.structure] - other.from / MUTATIONS[other.structure]);
}

/** @type {Map<Structure, { done: number, slowest: Extreme | null, askedMost: Extreme | null, tookMost: Extreme | null }>} */
const tallies = new Map();
let finds = 0;

/**
 * @param {Structure} structure
 * @param {number} number
 * @param {string} what
 */
function tellFind(structure, number, what) {
  finds++;
  console.log(
    `✗ ${structure} ${number}: ${what}\n  again: ATHWART_TEST_SEED=${seed} npm run test:slow -- ${structure} ${number} ${number + 1}`,
  );
}

/**
 * @param {Structure} structure
 * @param {Campaign} campaign
 */
function add(structure, campaign) {
  const tally = tallies.get(structure) ?? { done: 0, slowest: null, askedMost: null, tookMost: null };
  tallies.set(structure, tally);
  tally.done += campaign.mutations;
  for (const key of /** @type {const} */ (["slowest", "askedMost", "tookMost"])) {
    if (tally[key] === null || campaign[key].value > tally[key].value) tally[key] = campaign[key];
  }
  for (const { number, fixture, faults } of campaign.finds) tellFind(structure, number, `${fixture}: ${faults.join("; ")}`);
}

/**
 * Runs a stretch in a process; where that comes to an end, or to none, the mutation at fault is told and left out.
 * @param {Stretch} stretch
 * @returns {Promise<void>}
 */
async function run({ structure, from, until }) {
  const worker = join(cacheFolder, "hostile", "test", "hostile", "slow-worker.js");
  const child = spawn(process.execPath, [worker, structure, String(from), String(until), String(seed)], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let at = from;
  let saidAt = Date.now();
  let isLate = false;
  /** @type {Campaign | null} */
  let campaign = null;
  let complaint = "";
  child.stderr.on("data", (/** @type {Buffer} */ chunk) => {
    complaint = (complaint + chunk.toString()).slice(-2000);
  });
  createInterface({ input: child.stdout }).on("line", (line) => {
    saidAt = Date.now();
    if (line.startsWith("{")) campaign = JSON.parse(line);
    else at = Number(line);
  });
  const watch = setInterval(() => {
    if (Date.now() - saidAt < LIMIT_SECONDS * 1000) return;
    isLate = true;
    child.kill("SIGKILL");
  }, 1000);
  const code = await new Promise((resolve) => void child.on("close", resolve));
  clearInterval(watch);
  if (campaign !== null) {
    add(structure, campaign);
    return;
  }
  tellFind(structure, at, isLate ? `no end after ${LIMIT_SECONDS} s` : `the process ended with ${code}: ${complaint}`);
  if (at > from) await run({ structure, from, until: at });
  if (at + 1 < until) await run({ structure, from: at + 1, until });
}

/** @param {Extreme | null} extreme */
const share = (extreme) =>
  extreme === null ? "nothing" : `${Math.round(extreme.value * 100)} % of its budget (number ${extreme.number}, ${extreme.fixture})`;

async function main() {
  const stretches = stretchesAsked();
  const all = stretches.reduce((sum, one) => sum + one.until - one.from, 0);
  const compiled = await runNode([toolFile("typescript", "tsc"), "-p", inRoot("test", "hostile", "tsconfig.json")]);
  if (compiled.code !== 0) return 1;
  writeFileSync(join(cacheFolder, "hostile", "package.json"), '{ "type": "module" }\n');
  const began = Date.now();
  let done = 0;
  const next = async () => {
    for (let stretch = stretches.shift(); stretch !== undefined; stretch = stretches.shift()) {
      await run(stretch);
      done += stretch.until - stretch.from;
      const minutes = ((Date.now() - began) / 60_000).toFixed(1);
      console.log(`${done} of ${all} mutations, ${finds} finds, ${minutes} min; ${stretch.structure} up to number ${stretch.until}`);
    }
  };
  await Promise.all(Array.from({ length: availableParallelism() }, next));
  console.log("");
  for (const [structure, tally] of tallies) {
    const slowest =
      tally.slowest === null ? "" : `${Math.round(tally.slowest.value)} ms (number ${tally.slowest.number}, ${tally.slowest.fixture})`;
    console.log(
      `${structure}: ${tally.done} mutations with seed ${seed}, slowest ${slowest}; asked at most ${share(tally.askedMost)}, took at most ${share(tally.tookMost)}`,
    );
  }
  console.log(`\n${done} mutations, ${finds} finds`);
  return finds === 0 ? 0 : 1;
}

refuseUnfitNode();
process.exitCode = (await prepare()) ? await main() : 1;
