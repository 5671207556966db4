// @ts-check
import { existsSync } from "node:fs";
import { run } from "./run.mjs";

const needed = [{ program: "grib_get", debian: "libeccodes-tools", serves: "the tests that have ecCodes read and write GRIB beside us" }];
const apt = ["-qq", "-o", "Acquire::Retries=1", "-o", "Acquire::http::Timeout=20", "-o", "DPkg::Lock::Timeout=60"];
const limitSeconds = 180;

/** Installs the Debian packages that some tests use, where this is Debian and we are root; else says what will be skipped. */
export async function installSystemPackages() {
  for (const { program, debian, serves } of needed) {
    if (await isThere(program)) continue;
    const debianRoot = existsSync("/etc/debian_version") && process.getuid?.() === 0;
    if (debianRoot && (await installDebian(debian)) && (await isThere(program))) continue;
    console.warn(
      debianRoot
        ? `${debian} could not be installed (no network, or apt is busy): ${serves} are skipped.`
        : `${program} is not on this machine: ${serves} are skipped. It comes with ecCodes (on Debian, as root: apt-get install ${debian}).`,
    );
  }
}

/** @param {string} name */
async function installDebian(name) {
  console.log(`Installing ${name}…`);
  const env = { DEBIAN_FRONTEND: "noninteractive" };
  const install = () => run("apt-get", [...apt, "install", "-y", "--no-install-recommends", name], { quiet: true, env, limitSeconds });
  const first = await install();
  if (first.code === 0) return true;
  // A bare machine has no package lists yet.
  const update = await run("apt-get", [...apt, "update"], { quiet: true, env, limitSeconds });
  const second = update.code === 0 ? await install() : update;
  if (second.code !== 0) console.warn(second.output.trim().split("\n").slice(-3).join("\n"));
  return second.code === 0;
}

/** @param {string} program */
async function isThere(program) {
  return (await run(program, ["-V"], { quiet: true, limitSeconds: 20 })).code !== 127;
}
