// @ts-check
/** Writes the demos' files into `demo/morrel/` and `demo/averil/`; with `--check` writes nothing and says whether what stands there is the same. Build first. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { averilFiles } from "./averil-scripts/files.mjs";
import { demoFiles } from "./files.mjs";

/** @param {string} path below the project's folder */
const built = (path) => import(new URL(`../dist/${path}`, import.meta.url).href);

try {
  const { writeGrib2Message } = await built("formats/grib/index.js");
  const { writeNetcdfClassic, packShorts } = await built("formats/netcdf/index.js");
  const check = process.argv.includes("--check");
  /** @type {[string, [string, Uint8Array][]][]} */
  const demos = [
    ["morrel", demoFiles({ writeGrib2Message, writeNetcdfClassic, packShorts })],
    ["averil", averilFiles({ writeGrib2Message })],
  ];
  for (const [demo, name, bytes] of demos.flatMap(([demo, files]) =>
    files.map(([name, bytes]) => /** @type {const} */ ([demo, name, bytes])),
  )) {
    const folder = fileURLToPath(new URL(`${demo}/`, import.meta.url));
    if (!check) writeFileSync(join(folder, name), bytes);
    else if (!Buffer.from(bytes).equals(readFileSync(join(folder, name)))) {
      process.exitCode = 1;
      console.error(`demo/${demo}/${name} is not what demo/make.mjs makes: run it without --check`);
      continue;
    }
    console.log(`demo/${demo}/${name}: ${bytes.length} bytes${check ? ", as made" : ""}`);
  }
} catch (error) {
  if (!(error instanceof Error && "code" in error && error.code === "ERR_MODULE_NOT_FOUND")) throw error;
  console.error("The writers are not built yet: run `npm run build` first.");
  process.exitCode = 1;
}
