// @ts-check
import { existsSync } from "node:fs";
import { run } from "./run.mjs";

/** @typedef {{ name: string, debian: string, serves: string, isHere: () => Promise<boolean> }} Needed */

const chromium = {
  name: "Chromium",
  debian: "chromium",
  serves: "the tests and measurements of the page in a browser",
  // Where the tests look for it.
  isHere: async () => existsSync("/usr/bin/chromium"),
};

/** @type {Readonly<Record<"tests" | "bench", readonly Needed[]>>} */
const needed = {
  tests: [
    chromium,
    {
      name: "grib_get",
      debian: "libeccodes-tools",
      serves: "the tests that have ecCodes read and write GRIB beside us",
      isHere: async () => (await run("grib_get", ["-V"], { quiet: true, limitSeconds: 20 })).code !== 127,
    },
  ],
  bench: [
    chromium,
    {
      name: "a Python with ecCodes",
      debian: "python3-eccodes",
      serves: "the measurements beside ecCodes",
      isHere: async () => (await pythonWithEccodes()) !== null,
    },
  ],
};
const apt = ["-qq", "-o", "Acquire::Retries=1", "-o", "Acquire::http::Timeout=20", "-o", "DPkg::Lock::Timeout=60"];
const limitSeconds = 300;

/**
 * Installs the Debian packages that some tests or the bench use, where this is Debian and we are root; else says what will be skipped.
 * @param {"tests" | "bench"} user
 */
export async function installSystemPackages(user) {
  for (const { name, debian, serves, isHere } of needed[user]) {
    if (await isHere()) continue;
    const debianRoot = existsSync("/etc/debian_version") && process.getuid?.() === 0;
    if (debianRoot && (await installDebian(debian)) && (await isHere())) continue;
    console.warn(
      debianRoot
        ? `${debian} could not be installed (no network, or apt is busy): ${serves} are skipped.`
        : `${name} is not on this machine: ${serves} are skipped. On Debian, as root: apt-get install ${debian}.`,
    );
  }
}

/** The Python that has ecCodes: the first on the path may be another than Debian's. Null where none has it. */
export async function pythonWithEccodes() {
  for (const python of ["python3", "/usr/bin/python3"]) {
    if ((await run(python, ["-c", "import eccodes, numpy"], { quiet: true, limitSeconds: 20 })).code === 0) return python;
  }
  return null;
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
