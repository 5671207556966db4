import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** The reference library's command-line tools (Debian package libeccodes-tools). */
export const haveEccodes = spawnSync("grib_get_data", ["-V"]).status === 0;
if (!haveEccodes) console.warn("SKIPPED: checks of GRIB against ecCodes; its tools (Debian package libeccodes-tools) are not installed.");

const run = (tool: string, args: readonly string[]): string =>
  execFileSync(tool, args, { encoding: "utf8", maxBuffer: 2 ** 30, stdio: ["ignore", "pipe", "ignore"] });

/** One point as ecCodes gives it; `value` is null where it is missing. */
export interface EccodesPoint {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly value: number | null;
}

const MISSING = "-1e33";

/** All the points of all the fields of a file, by `grib_get_data`, in ecCodes' order. */
export function pointsByEccodes(path: string): readonly (readonly EccodesPoint[])[] {
  const fields: EccodesPoint[][] = [];
  for (const line of run("grib_get_data", ["-m", MISSING, "-L", "%.9f %.9f", "-F", "%.17g", path]).split("\n")) {
    if (line.startsWith("Latitude")) fields.push([]);
    else if (line.trim() !== "") {
      const [latitude, longitude, value] = line.trim().split(/[\s,]+/) as [string, string, string];
      const missing = Number(value) === Number(MISSING);
      fields.at(-1)!.push({ latitudeDeg: Number(latitude), longitudeDeg: Number(longitude), value: missing ? null : Number(value) });
    }
  }
  return fields;
}

/** Keys of every field of a file, by `grib_get`; one row a field. */
export function keysByEccodes(path: string, keys: readonly string[]): readonly (readonly string[])[] {
  const rows = run("grib_get", ["-f", "-p", keys.join(","), path]).split("\n");
  return rows.filter((row) => row !== "").map((row) => row.trim().split(/\s+/));
}

/** Runs `work` in a folder that is removed afterwards. */
export async function inFolder(work: (folder: string) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "athwart-eccodes-"));
  try {
    await work(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Has ecCodes rewrite a message with keys set and its values packed anew; gives the new file's path. */
export function rewrittenByEccodes(folder: string, message: Uint8Array, name: string, settings: string, repack = true): string {
  const from = join(folder, `${name}-from.grib2`);
  const to = join(folder, `${name}.grib2`);
  writeFileSync(from, message);
  run("grib_set", [...(repack ? ["-r"] : []), "-s", settings, from, to]);
  return to;
}
