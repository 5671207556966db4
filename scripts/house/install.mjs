// @ts-check
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./root.mjs";
import { runNpm } from "./run.mjs";

/** Three more tries, 14 seconds in all: npm's own would keep a user without a network waiting for more than a minute. */
const patience = ["--fetch-retries=3", "--fetch-retry-mintimeout=2000", "--fetch-retry-factor=2"];

/** @typedef {Record<string, { version?: string, optional?: boolean, link?: boolean }>} LockedPackages */

/**
 * Whether what is installed is what the lock file names. Optional packages (other machines' binaries) may be absent.
 * @param {LockedPackages} wanted `packages` of package-lock.json
 * @param {LockedPackages} installed `packages` of npm's own record in node_modules
 */
export function isInstalled(wanted, installed) {
  for (const [place, entry] of Object.entries(wanted)) {
    if (place === "" || entry.link) continue;
    const found = installed[place];
    if (found === undefined ? !entry.optional : found.version !== entry.version) return false;
  }
  return true;
}

/**
 * Says in a sentence why npm failed.
 * @param {string} output what npm wrote
 */
export function whyNpmFailed(output) {
  if (/ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|EHOSTUNREACH|ERR_SOCKET_TIMEOUT|npm error network/.test(output)) {
    return "The packages could not be fetched: no network, or the package registry can't be reached. The first run needs the internet; afterwards none is needed.";
  }
  if (/EACCES|EPERM|EROFS/.test(output))
    return "npm may not write into this folder. Check who owns it, or unpack the project somewhere you may write.";
  if (/ENOSPC/.test(output)) return "The disk is full. Free about 400 MB and run the command again.";
  return "npm could not install the packages; what it said stands above.";
}

/**
 * Installs the locked packages when they are missing or others. Throws an Error with a message for the user.
 * @param {string} [folder] the project's folder
 * @returns {Promise<boolean>} whether anything was installed
 */
export async function installMissing(folder = root) {
  const lockText = readFileSync(join(folder, "package-lock.json"), "utf8");
  const modules = join(folder, "node_modules");
  const stampFile = join(modules, ".athwart-lock");
  const stamp = createHash("sha256").update(lockText).update(`${process.platform} ${process.arch}`).digest("hex");
  if (read(stampFile) === stamp) return false;
  const record = read(join(modules, ".package-lock.json"));
  if (record === null || !isInstalled(JSON.parse(lockText).packages, JSON.parse(record).packages)) {
    console.error(existsSync(modules) ? "Installing changed packages…" : "Installing packages (the first run needs the internet)…");
    const npm = await runNpm(["ci", ...patience, "--no-audit", "--no-fund", "--prefer-offline", "--loglevel=error"], {
      cwd: folder,
      quiet: true,
    });
    if (npm.code !== 0) {
      console.error(npm.output.trim());
      throw new Error(whyNpmFailed(npm.output));
    }
  }
  writeFileSync(stampFile, stamp);
  return true;
}

/** @param {string} file */
function read(file) {
  return existsSync(file) ? readFileSync(file, "utf8") : null;
}
