// @ts-check
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { cacheFolder } from "./root.mjs";
import { runNode, toolFile } from "./run.mjs";
import { countsOf } from "./vitest-counts.mjs";

/**
 * Runs tests to the end and counts them; what fails is printed as it goes.
 * @param {readonly string[]} args paths and options for vitest; none: everything
 * @param {{ node?: string, reporter?: string }} [options]
 */
export async function runVitest(args, options = {}) {
  const file = join(cacheFolder, `vitest-${process.pid}.json`);
  mkdirSync(cacheFolder, { recursive: true });
  rmSync(file, { force: true });
  const reporters = [`--reporter=${options.reporter ?? "default"}`, "--reporter=json", `--outputFile.json=${file}`];
  const { code } = await runNode([toolFile("vitest", "vitest"), "run", ...reporters, ...args], options);
  const report = existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : null;
  rmSync(file, { force: true });
  return countsOf(report, code);
}
