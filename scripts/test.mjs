// @ts-check
// npm test: builds, then lint, format, types and every test; the quick ones again on Node 22. The last line is `N passed, N failed`.
// npm test -- PATH…: only these test files (anything that follows goes to vitest).
import { refuseUnfitNode } from "./house/node-version.mjs";
import { otherNode } from "./house/other-node.mjs";
import { prepare } from "./house/prepare.mjs";
import { runNode, toolFile } from "./house/run.mjs";
import { runVitest } from "./house/run-vitest.mjs";
import { installSystemPackages } from "./house/system-packages.mjs";
import { sumOf } from "./house/vitest-counts.mjs";

const quickTests = ["test/core", "test/formats"];
const secondNode = 22;

refuseUnfitNode();
const chosen = process.argv.slice(2);

/** @type {import("./house/vitest-counts.mjs").Counts[]} */
const counts = [];

/**
 * One step that is no vitest run, counted as one test.
 * @param {string} name
 * @param {() => Promise<boolean>} passes
 */
async function step(name, passes) {
  console.log(`\n— ${name}`);
  const passed = await passes();
  if (!passed) console.log(`✗ ${name}: failed`);
  counts.push({ passed: passed ? 1 : 0, failed: passed ? 0 : 1, skipped: 0 });
  return passed;
}

/**
 * @param {string} packageName
 * @param {string} command
 * @param {readonly string[]} args
 */
async function toolPasses(packageName, command, args) {
  return (await runNode([toolFile(packageName, command), ...args])).code === 0;
}

async function repeatOnSecondNode() {
  if (Number.parseInt(process.versions.node, 10) === secondNode) return;
  console.log(`\n— the quick tests again on Node ${secondNode}`);
  const node = await otherNode(secondNode);
  if (node === null)
    console.warn(`Node ${secondNode} could not be fetched (no network?): the quick tests ran on Node ${process.versions.node} only.`);
  else counts.push(await runVitest(quickTests, { node, reporter: "dot" }));
}

const built = await step("build", prepare);
if (built && chosen.length > 0) {
  counts.push(await runVitest(chosen));
} else if (built) {
  await step("lint and format", () => toolPasses("@biomejs/biome", "biome", ["check", "--error-on-warnings", "."]));
  await step("types of the tests", () => toolPasses("typescript", "tsc", ["-p", "tsconfig.test.json"]));
  await installSystemPackages("tests");
  console.log("\n— tests");
  counts.push(await runVitest([]));
  await repeatOnSecondNode();
}

const sum = sumOf(counts);
if (sum.skipped > 0) console.log(`\n${sum.skipped} skipped: what and why is said above.`);
console.log(`\n${sum.passed} passed, ${sum.failed} failed`);
process.exitCode = sum.failed === 0 ? 0 : 1;
