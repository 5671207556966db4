// @ts-check
// npm run test:mutants: breaks limits, gates and unit conversions on purpose, one at a time, in a copy of the tree, and runs the tests that
// ought to notice. Prints each mutant as caught or alive; fails when fewer than the goal are caught.
// npm run test:mutants -- WORD…: only the mutants whose name holds one of the words.
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { inRoot } from "./house/root.mjs";
import { runNode } from "./house/run.mjs";

/**
 * @typedef {object} Mutant
 * @property {string} name what it breaks, in words
 * @property {string} file of the tree, relative to it
 * @property {string} find the exact text, which stands in the file once
 * @property {string} replace
 * @property {readonly string[]} tests those that ought to notice
 */

/** The share of the mutants that must be caught. */
const GOAL = 0.9;
/** What the tests read beside each other. */
const COPIED = ["src", "test", "demo", "examples", "docs", "package.json", "tsconfig.json", "vitest.config.ts"];
/** A mutant that runs for ever is noticed by that. */
const LIMIT_SECONDS = 300;

/** @returns {Promise<Mutant[]>} */
async function planted() {
  const folder = inRoot("test", "mutants");
  const lists = readdirSync(folder).filter((name) => name.endsWith(".mjs"));
  const all = await Promise.all(lists.sort().map((name) => import(pathToFileURL(join(folder, name)).href)));
  return all.flatMap((list) => list.mutants);
}

/** @param {Mutant} mutant @returns {string | null} what is wrong with it */
function faultOf({ file, find, replace, tests }) {
  if (!existsSync(inRoot(file))) return `no file ${file}`;
  const times = readFileSync(inRoot(file), "utf8").split(find).length - 1;
  if (times !== 1) return `its text stands ${times} times in ${file}`;
  if (find === replace) return "it changes nothing";
  const missing = tests.filter((test) => !existsSync(inRoot(test)));
  return missing.length > 0 ? `no test ${missing.join(", ")}` : null;
}

const asked = process.argv.slice(2);
const mutants = (await planted()).filter(({ name }) => asked.length === 0 || asked.some((word) => name.includes(word)));
const faults = mutants.flatMap((mutant) => {
  const fault = faultOf(mutant);
  return fault === null ? [] : [`${mutant.name}: ${fault}`];
});
if (mutants.length === 0) faults.push("no mutant is asked for");

/** @param {string} folder @param {readonly string[]} tests */
const passes = async (folder, tests) => {
  const vitest = join(folder, "node_modules", "vitest", "vitest.mjs");
  const { code } = await runNode([vitest, "run", "--bail=1", ...tests], { cwd: folder, quiet: true, limitSeconds: LIMIT_SECONDS });
  return code === 0;
};

if (faults.length > 0) {
  console.error(faults.join("\n"));
  process.exitCode = 2;
} else {
  const copy = mkdtempSync(join(tmpdir(), "athwart-mutants-"));
  try {
    for (const name of COPIED) cpSync(inRoot(name), join(copy, name), { recursive: true });
    symlinkSync(inRoot("node_modules"), join(copy, "node_modules"), "dir");
    const tests = [...new Set(mutants.flatMap((mutant) => mutant.tests))];
    if (await passes(copy, tests)) {
      let caught = 0;
      for (const mutant of mutants) {
        const path = join(copy, mutant.file);
        const sound = readFileSync(path, "utf8");
        // A function, so that no $ in the text is taken for a pattern.
        writeFileSync(
          path,
          sound.replace(mutant.find, () => mutant.replace),
        );
        const alive = await passes(copy, mutant.tests);
        writeFileSync(path, sound);
        if (!alive) caught++;
        console.log(`${alive ? "ALIVE " : "caught"}  ${mutant.name}`);
      }
      const share = caught / mutants.length;
      console.log(`\n${caught} of ${mutants.length} mutants caught: ${(100 * share).toFixed(0)} %; ${100 * GOAL} % are asked for.`);
      if (share < GOAL) process.exitCode = 1;
    } else {
      console.error("The tests do not pass before any mutant is planted.");
      process.exitCode = 2;
    }
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}
